"""What a move file holds. The structs are the schema: reading, checking and docs come from them."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct, field

from leanmark.errors import FieldError

Side = Literal["left", "right"]
Stage = Literal["controlled", "fast", "ballistic"]
Degrees = Annotated[float, Meta(ge=-360.0, le=360.0)]
Angles = dict[str, dict[str, Degrees]]
"""Joint (with or without a side; without means both) to anatomical angle to degrees."""
Text = Annotated[str, Meta(min_length=1, max_length=400)]

FIRMNESS: dict[str, float] = {"free": 0.01, "soft": 0.1, "firm": 1.0, "stiff": 30.0, "locked": 3000.0}
"""Words for how firmly a joint keeps its target angle when straps and contacts ask otherwise."""
Firmness = Literal["free", "soft", "firm", "stiff", "locked"]
WEIGHTS_SLACK = 1e-6
"""How far weights written with decimals may be from adding up to 1."""


class Contact(Struct, forbid_unknown_fields=True, rename="kebab"):
    """A contact patch with the floor or a box. ``slides``: it touches all along, takes no force and stays
    nowhere in particular (arms that lie beside the body). ``under``: the body point, without its side,
    that a found patch comes down under. ``taps``: it touches where found patches come down, no longer, and
    takes no force."""

    patch: str
    sides: tuple[Side, ...] = ("left", "right")
    ahead_m: float = 0.0
    width: float = 1.0
    turned_out_deg: float | None = 0.0
    height_m: Annotated[float, Meta(ge=0.0, le=1.5)] = 0.0
    found: bool = False
    touching: bool = False
    share_percent: Annotated[float, Meta(ge=0.0, le=60.0)] | None = None
    slides: bool = False
    under: str = ""
    taps: bool = False


class Hold(Struct, forbid_unknown_fields=True, rename="kebab"):
    """What holds a strap: a body point on each side, or both hands on one handle (``together``). ``plumb``:
    the strap hangs upright, straight under its anchor."""

    point: str
    sides: tuple[Side, ...] = ("left", "right")
    end: Literal["handle", "cradle", "none"] = "handle"
    together: bool = False
    in_line: str | None = None
    in_line_upright_only: bool = False
    plumb: bool = False


class Mark(Struct, forbid_unknown_fields=True, rename="kebab"):
    """The floor mark: which contact it is measured to, where it starts, how far it may go."""

    of: Text
    start_m: float
    low_m: float
    high_m: float
    across: bool = False

    def __post_init__(self) -> None:
        if not self.low_m <= self.start_m <= self.high_m:
            allowed = f"{self.low_m:g} to {self.high_m:g}, its own range"
            raise FieldError("start-m", self.start_m, allowed, "move the start or widen the range")


class Balance(Struct, forbid_unknown_fields=True, rename="kebab"):
    """Where people put their mass centre over a narrow base: over the weighted mean of body points, named
    with their side; the weights add up to 1."""

    axis: Literal["ahead", "across"]
    over: dict[str, Annotated[float, Meta(ge=0.0, le=1.0)]]
    offset_m: float = 0.0

    def __post_init__(self) -> None:
        total = sum(self.over.values())
        if abs(total - 1.0) > WEIGHTS_SLACK:
            raise FieldError("over", total, "weights that add up to 1", "share the whole out over the points")


class Phases(Struct, forbid_unknown_fields=True, rename="kebab"):
    """Target angles at the start and, unless the rung is a hold, at the end of the rep; and in which of the
    two found patches come down."""

    start: Angles
    end: Angles | None = None
    comes_down: Literal["start", "end"] = "start"


class Rung(Struct, forbid_unknown_fields=True, rename="kebab"):
    """One form of a move. What is left out is the move's own."""

    rung: Text
    note: Text
    strap: str | None = None
    mark: Mark | None = None
    contacts: list[Contact] | None = None
    holds: list[Hold] | None = None
    balance: list[Balance] | None = None
    phases: Phases | None = None
    firm: dict[str, Firmness] = field(default_factory=dict)
    angles: Angles = field(default_factory=dict)
    """Angles laid over both phases of the move."""
    harder_by: Literal["load", "base", "one limb", "speed", "lever"] = "load"
    strap_runs: bool = False
    """On a kit whose one strap slips through a loop: the sides pull in turn and the strap runs."""


class Move(Struct, forbid_unknown_fields=True, rename="kebab"):
    """One move: what it is for, how it is set up, and its rungs from easier to harder."""

    move: Text
    family: Text
    plane: Literal["sagittal", "frontal", "transverse"]
    purpose: Text
    kit: Literal["handles", "cradles", "single handle", "under the arms", "none"]
    faces: Text
    setup: Text
    caution: Text
    cues: tuple[Text, ...]
    strap: str
    mark: Mark
    contacts: list[Contact]
    phases: Phases
    rungs: Annotated[list[Rung], Meta(min_length=1)]
    tempo_s: tuple[float, float, float, float] = (2.0, 1.0, 1.0, 0.0)
    stages: tuple[Stage, ...] = ("controlled",)
    holds: list[Hold] = field(default_factory=list)
    balance: list[Balance] = field(default_factory=list)
    firm: dict[str, Firmness] = field(default_factory=dict)
    load: Literal["straps", "hands", "largest share"] = "straps"
    """What a wanted load is a share of body weight of; ``largest share`` is the largest joint moment as a
    share of reference strength, for moves whose strap force hardly changes with the mark."""
    loads_percent: tuple[float, ...] = (20.0, 35.0, 50.0)
