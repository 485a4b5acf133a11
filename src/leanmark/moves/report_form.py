"""What a load report holds: the structs are its JSON."""

from __future__ import annotations

from typing import Final

from msgspec import Struct


class Range(Struct):
    """A value with the interval it lies in."""

    value: float
    low: float
    high: float


class StrapReport(Struct):
    """One strap's tension [N]."""

    side: str
    tension_n: float


class FloorReport(Struct):
    """One contact patch: its force [N] and the place of its pressure [m], both in world axes."""

    contact: str
    force_n: tuple[float, float, float]
    pressure_m: tuple[float, float, float]


class JointReport(Struct):
    """One joint's net moment about one anatomical axis, its share of the reference strength, and the interval
    of the moment; a negative end means that the action may turn about."""

    joint: str
    action: str
    moment_nm: float
    share_percent: float
    low_nm: float
    high_nm: float


class PhaseReport(Struct):
    """One phase of the rep, held still. Where the body cannot take the position at all, numbers are
    not-a-number and lists are empty; where it cannot hold it, they are what holding would need."""

    phase: str
    lean_deg: float
    load_percent: Range
    strap_total_n: Range
    straps: list[StrapReport]
    floor: list[FloorReport]
    friction_needed: float
    grip_margin: float
    joints: list[JointReport]
    reason: str


class TempoReport(Struct):
    """The rep at its tempo: peaks over both moving phases."""

    tempo_s: tuple[float, float, float, float]
    peak_strap_n: float
    peak_to_held: float
    slack_margin_percent: float
    taut: bool
    smooth: bool


class FlightReport(Struct):
    """The rep done with a flight of flight_m."""

    flight_m: float
    flight_s: float
    peak_strap_n: float
    peak_floor_n: float
    possible: bool


class LoadReport(Struct):
    """Everything about one person, one rung, one mark."""

    move: str
    rung: str
    mark_m: float
    mark_of: str
    strap_m: float
    anchor_height_m: float
    body_mass_kg: float
    stature_m: float
    load_is: str
    feasible: bool
    reasons: list[str]
    phases: list[PhaseReport]
    moving: TempoReport | None = None
    flight: FlightReport | None = None
    anchor: str = ""
    grip: str = ""


LOAD_WORDS: Final = {
    "straps": "share of body weight on the straps",
    "hands": "share of body weight on the hands",
    "largest share": "largest joint moment, share of reference strength",
}
