"""What a move file holds. The structs are the schema: reading, checking, docs and the JSON Schema for editors
come from them. What a file inherits (``like``) is laid out before it gets here: see ``inherit.py``."""

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
HarderBy = Literal["load", "base", "one limb", "speed", "lever", "range"]
"""What makes a rung harder than the one before: its computed demand (``load``), or another reason."""
Kit = Literal["handles", "cradles", "single handle", "under the arms", "none"]
Cues = Annotated[tuple[Text, ...], Meta(min_length=2, max_length=4)]
COMMON_PRACTICE = "common practice, no published source"
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


class Push(Struct, forbid_unknown_fields=True, rename="kebab"):
    """A partner's push at a body point, named with its side: newtons ahead, to the left and up."""

    point: str
    ahead_n: Annotated[float, Meta(ge=-300.0, le=300.0)] = 0.0
    left_n: Annotated[float, Meta(ge=-300.0, le=300.0)] = 0.0
    up_n: Annotated[float, Meta(ge=-300.0, le=300.0)] = 0.0


class Fault(Struct, forbid_unknown_fields=True, rename="kebab"):
    """What goes wrong, and what to do about it."""

    fault: Text
    remedy: Text


class Gate(Struct, forbid_unknown_fields=True, rename="kebab"):
    """A test that must be passed before a rung opens: a hold of so many seconds or so many reps, on a rung of
    this or of another move. source: a publication, or that it is common practice."""

    rung: Text
    source: Text
    move: Text | None = None
    hold_s: Annotated[float, Meta(gt=0.0, le=600.0)] | None = None
    reps: Annotated[int, Meta(gt=0, le=100)] | None = None
    stage: Stage = "controlled"

    def __post_init__(self) -> None:
        if (self.hold_s is None) == (self.reps is None):
            raise FieldError("gate", self.rung, "either hold-s or reps", "give one of the two")


class Phases(Struct, forbid_unknown_fields=True, rename="kebab"):
    """Target angles at the start and, unless the rung is a hold, at the end of the rep; a key pose half way
    between them, where the straight path from one to the other would not do; and in which of the two ends
    found patches come down."""

    start: Angles
    end: Angles | None = None
    key: Angles | None = None
    comes_down: Literal["start", "end"] = "start"


class Rung(Struct, forbid_unknown_fields=True, rename="kebab"):
    """One form of a move. What is left out is the move's own. ``angles`` are laid over every phase, then
    ``start``, ``key`` and ``end`` each over its own."""

    rung: Text
    note: Text
    strap: str | None = None
    mark: Mark | None = None
    contacts: list[Contact] | None = None
    holds: list[Hold] | None = None
    balance: list[Balance] | None = None
    pushes: list[Push] = field(default_factory=list)
    phases: Phases | None = None
    firm: dict[str, Firmness] = field(default_factory=dict)
    angles: Angles = field(default_factory=dict)
    start: Angles = field(default_factory=dict)
    key: Angles = field(default_factory=dict)
    end: Angles = field(default_factory=dict)
    harder_by: HarderBy = "load"
    lever: Text | None = None
    """How the limbs lie: arms straight or bent, on the floor, on the chest, overhead."""
    gates: list[Gate] = field(default_factory=list)
    cues: Cues | None = None
    faults: Annotated[tuple[Fault, ...], Meta(min_length=2, max_length=4)] | None = None
    caution: Text | None = None
    """In addition to the move's own."""
    stages: tuple[Stage, ...] | None = None
    tempo_s: tuple[float, float, float, float] | None = None
    strap_runs: bool = False
    """On a kit whose one strap slips through a loop: the sides pull in turn and the strap runs."""


class Move(Struct, forbid_unknown_fields=True, rename="kebab"):
    """One move: what it is for, how it is set up, and its rungs from easier to harder.

    works: joint actions that the move trains, hardest-worked first, each with its prime movers; helps: the
    same for helpers. not_for: who should not do it; stop: what ends a set.
    """

    move: Text
    family: Text
    plane: Literal["sagittal", "frontal", "transverse"]
    purpose: Text
    works: Annotated[dict[str, tuple[str, ...]], Meta(min_length=1)]
    kit: Kit
    faces: Text
    setup: Text
    caution: Text
    not_for: Annotated[tuple[Text, ...], Meta(min_length=1)]
    stop: Annotated[tuple[Text, ...], Meta(min_length=1)]
    breathing: Text
    lever: Text
    cues: Cues
    faults: Annotated[tuple[Fault, ...], Meta(min_length=2, max_length=4)]
    strap: str
    mark: Mark
    contacts: list[Contact]
    phases: Phases
    rungs: Annotated[list[Rung], Meta(min_length=1)]
    tempo_s: tuple[float, float, float, float] = (2.0, 1.0, 1.0, 0.0)
    stages: tuple[Stage, ...] = ("controlled",)
    helps: dict[str, tuple[str, ...]] = field(default_factory=dict)
    holds: list[Hold] = field(default_factory=list)
    balance: list[Balance] = field(default_factory=list)
    firm: dict[str, Firmness] = field(default_factory=dict)
    load: Literal["straps", "hands", "largest share"] = "straps"
    """What a wanted load is a share of body weight of; ``largest share`` is the largest joint moment as a
    share of reference strength, for moves whose strap force hardly changes with the mark."""
    loads_percent: tuple[float, ...] = (20.0, 35.0, 50.0)
