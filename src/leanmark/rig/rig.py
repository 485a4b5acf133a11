"""The rig: one kind of anchor, the straps on it, and the floor under it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from leanmark.errors import FieldError
from leanmark.rig.floors import DEFAULT_FLOOR, floor
from leanmark.rig.ranges import RIG_RANGES, check_range
from leanmark.rig.settings import STRAP_SHORTEST_M, default_settings_m, longest_that_hangs_clear_m

StrapMode = Literal["independent", "slipping loop"]
STRAP_MODES: Final[tuple[StrapMode, ...]] = get_args(StrapMode)

LOOP_FRICTION: Final = (
    0.10  # from memory: webbing over a smooth steel ring, about 0.1 to 0.25; the low end slips most
)
HANDLE_OFFSET_M: Final = 0.12  # own figure: from the strap's end to the middle of the grip
CRADLE_OFFSET_M: Final = 0.10  # own figure: from the strap's end to the underside of the foot in the cradle

_REMEDIES: Final[dict[str, str]] = {
    "anchor_height_m": "measure from the floor to the point the straps hang from",
    "handle_offset_m": "measure from the strap's end to the middle of the grip",
    "cradle_offset_m": "measure from the strap's end to the underside of the foot",
    "strap_shortest_m": "measure from the anchor to the handle's end of the strap, fully shortened",
    "strap_longest_m": "measure from the anchor to the handle's end of the strap, fully lengthened",
    "loop_friction": "use 0.1 for webbing over a smooth ring",
    "floor_friction": "use a floor preset, or a measured coefficient of friction",
    "rated_load_n": "copy the maker's rating in newtons, or leave it out when unknown",
    "anchor_count": "count the anchors that one person each can use",
}


@dataclass(frozen=True, kw_only=True)
class Rig:
    """A rig as measured. Lengths in metres, the rating in newtons; ``standard_rig`` fills in the defaults.

    Attributes:
        anchor_height_m: floor to the point the straps hang from.
        strap_mode: two independent straps, or one strap that slips through a loop at the anchor.
        loop_friction: capstan coefficient of that loop, half a turn: the two sides' tensions differ by at
            most the factor ``exp(loop_friction · π)`` (Euler's belt equation).
        strap_shortest_m, strap_longest_m: anchor to the handle's end of the strap, loaded.
        settings_m: named strap lengths, measured alike.
        handle_offset_m, cradle_offset_m: from the strap's end to the middle of the grip, to the foot.
        floor_friction, floor_name: what a planted contact can count on, and what the floor is called.
        rated_load_n: the maker's rating of one anchor, None when unknown.
        anchor_count: how many anchors of this kind there are.

    Raises:
        FieldError: a value is outside its range (``rig/ranges.py``), the strap's shortest is not below its
            longest, a setting is outside the strap's range, or a handle would lie on the floor.
    """

    name: str
    anchor_height_m: float
    strap_mode: StrapMode = "independent"
    loop_friction: float = LOOP_FRICTION
    strap_shortest_m: float
    strap_longest_m: float
    settings_m: Mapping[str, float] = field(default_factory=dict)
    handle_offset_m: float = HANDLE_OFFSET_M
    cradle_offset_m: float = CRADLE_OFFSET_M
    floor_friction: float = floor(DEFAULT_FLOOR).friction
    floor_name: str = DEFAULT_FLOOR
    rated_load_n: float | None = None
    anchor_count: int = 1

    def __post_init__(self) -> None:
        object.__setattr__(self, "settings_m", dict(self.settings_m))
        if self.strap_mode not in STRAP_MODES:
            raise FieldError("strap_mode", self.strap_mode, " or ".join(STRAP_MODES), "choose one of the two")
        for name, remedy in _REMEDIES.items():
            value = getattr(self, name)
            if value is not None:
                check_range(name, value, RIG_RANGES[name], remedy)
        self._check_strap_range()
        for setting, length_m in self.settings_m.items():
            self._check_setting(f"settings_m.{setting}", length_m)

    def strap_length_m(self, setting: str) -> float:
        """The strap length [m] of a named setting.

        Raises:
            FieldError: this rig has no setting of that name.
        """
        if setting not in self.settings_m:
            known = ", ".join(self.settings_m) or "none"
            raise FieldError(
                "setting", setting, known, f"measure it and add it to the settings of {self.name}"
            )
        return self.settings_m[setting]

    def grip_height_m(self, setting: str) -> float:
        """Height [m] of the grip's middle above the floor, the handle hanging freely at a named setting."""
        return self.anchor_height_m - self.strap_length_m(setting) - self.handle_offset_m

    def cradle_height_m(self, setting: str) -> float:
        """Height [m] of the foot's place in the cradle, the cradle hanging freely at a named setting."""
        return self.anchor_height_m - self.strap_length_m(setting) - self.cradle_offset_m

    def _check_strap_range(self) -> None:
        if not self.strap_shortest_m < self.strap_longest_m:
            raise FieldError(
                "strap_shortest_m",
                self.strap_shortest_m,
                f"below strap_longest_m = {self.strap_longest_m:g}",
                "measure the strap fully shortened and fully lengthened",
            )
        self._check_clear_of_floor("strap_longest_m", self.strap_longest_m)

    def _check_setting(self, name: str, length_m: float) -> None:
        check_range(name, length_m, RIG_RANGES["settings_m"], "measure from the anchor to the strap's end")
        self._check_clear_of_floor(name, length_m)
        if not self.strap_shortest_m <= length_m <= self.strap_longest_m:
            raise FieldError(
                name,
                length_m,
                f"{self.strap_shortest_m:g}–{self.strap_longest_m:g}, the strap's own range",
                "change the setting, or strap_shortest_m and strap_longest_m",
            )

    def _check_clear_of_floor(self, name: str, length_m: float) -> None:
        offset_m = max(self.handle_offset_m, self.cradle_offset_m)
        longest_m = longest_that_hangs_clear_m(self.anchor_height_m, offset_m)
        if length_m > longest_m:
            raise FieldError(
                name,
                length_m,
                f"at most {longest_m:g} under an anchor at {self.anchor_height_m:g} m",
                "a longer strap lays the handle on the floor: shorten it, or raise the anchor",
            )


def standard_rig(
    anchor_height_m: float,
    *,
    name: str = "rig",
    strap_mode: StrapMode = "independent",
    loop_friction: float = LOOP_FRICTION,
    strap_shortest_m: float | None = None,
    strap_longest_m: float | None = None,
    settings_m: Mapping[str, float] | None = None,
    handle_offset_m: float = HANDLE_OFFSET_M,
    cradle_offset_m: float = CRADLE_OFFSET_M,
    floor_name: str = DEFAULT_FLOOR,
    floor_friction: float | None = None,
    rated_load_n: float | None = None,
    anchor_count: int = 1,
) -> Rig:
    """A rig with every value that was not measured derived from the anchor height.

    The strap's longest is the longest that hangs clear of the floor, its shortest 0.80 m or the shortest
    given setting. The default settings (``rig/settings.py``) are added to the given ones; where both have a
    name, the given one counts. The friction is that of the floor preset.

    Raises:
        FieldError: as ``Rig`` does, or the floor is no preset and no friction was given.
    """
    check_range(
        "anchor_height_m", anchor_height_m, RIG_RANGES["anchor_height_m"], _REMEDIES["anchor_height_m"]
    )
    given_m = dict(settings_m or {})
    if strap_longest_m is None:
        clear_m = longest_that_hangs_clear_m(anchor_height_m, max(handle_offset_m, cradle_offset_m))
        strap_longest_m = min(clear_m, RIG_RANGES["strap_longest_m"].high)
    if strap_shortest_m is None:
        strap_shortest_m = max(RIG_RANGES["settings_m"].low, min([STRAP_SHORTEST_M, *given_m.values()]))
    defaults_m = default_settings_m(anchor_height_m, handle_offset_m, strap_shortest_m, strap_longest_m)
    return Rig(
        name=name,
        anchor_height_m=anchor_height_m,
        strap_mode=strap_mode,
        loop_friction=loop_friction,
        strap_shortest_m=strap_shortest_m,
        strap_longest_m=strap_longest_m,
        settings_m=defaults_m | given_m,
        handle_offset_m=handle_offset_m,
        cradle_offset_m=cradle_offset_m,
        floor_friction=floor(floor_name).friction if floor_friction is None else floor_friction,
        floor_name=floor_name,
        rated_load_n=rated_load_n,
        anchor_count=anchor_count,
    )
