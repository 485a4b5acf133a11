"""Named strap settings: the default lengths that follow from the anchor height.

A setting is a strap length; what a coach sees is how high the handle hangs. The defaults are therefore
fixed as heights of the grip above the floor, handle hanging freely, and the length follows:
``length = anchor height − grip height − handle offset``. Stretch of the webbing is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class DefaultSetting:
    """A setting's name, the grip height [m] that it stands for, its use, and where the height comes from."""

    name: str
    grip_height_m: float
    used_for: str
    source: str


DEFAULT_SETTINGS: Final[tuple[DefaultSetting, ...]] = (
    DefaultSetting("long", 0.10, "facing away from the anchor: presses, flies, rollouts",
                   "common practice, no published source: the handle hangs a hand's width off the floor"),
    DefaultSetting("mid-shin", 0.30, "feet in the cradles, hands or back on the floor",
                   "half a shank's height at 1.75 m stature, 0.28 m by Drillis & Contini 1966, rounded"),
    DefaultSetting("below the knee", 0.38, "heels in the cradles, hips and knees at right angles",
                   "own figure: about where the heel is, lying so, at 1.55 to 1.95 m stature"),
    DefaultSetting("mid-thigh", 0.70, "lunges, squats, arm moves that face the anchor",
                   "half a thigh's height at 1.75 m stature, 0.71 m by Drillis & Contini 1966, rounded"),
    DefaultSetting("short", 1.10, "rows and pulls that face the anchor, steep to level",
                   "elbow height at 1.75 m stature, 1.10 m by Drillis & Contini 1966 (share from memory)"),
)  # fmt: skip
STRAP_SHORTEST_M: Final = 0.80  # own figure: straps folded up to about this are still free to swing
HANDLE_CLEARANCE_M: Final = 0.03  # own figure: half a handle's thickness, so that it hangs clear of the floor


def longest_that_hangs_clear_m(anchor_height_m: float, longest_offset_m: float) -> float:
    """The longest strap [m] whose handle or cradle still hangs clear of the floor.

    ``anchor height − offset from strap end to grip or foot − clearance``; the result is rounded to 0.1 mm so
    that a length written with two decimals compares as written.
    """
    return round(anchor_height_m - longest_offset_m - HANDLE_CLEARANCE_M, 4)


def default_settings_m(
    anchor_height_m: float, handle_offset_m: float, shortest_m: float, longest_m: float
) -> dict[str, float]:
    """The default strap lengths [m] by name that this anchor height and this strap's range allow."""
    lengths = {
        row.name: round(anchor_height_m - row.grip_height_m - handle_offset_m, 4) for row in DEFAULT_SETTINGS
    }
    return {name: length for name, length in lengths.items() if shortest_m <= length <= longest_m}
