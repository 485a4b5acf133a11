"""The tables of the squad file that tell of a trainee's body and of what scale readings told."""

from __future__ import annotations

from typing import Annotated

import msgspec
from msgspec import UNSET, Meta, Struct, UnsetType

from leanmark.body.build import AGE_RANGE_YEARS, LENGTH_SHARES, MASS_RANGE_KG, STATURE_RANGE_M, Sex
from leanmark.moves.known import KNOWN_RANGES
from leanmark.squad.declared import LONGEST_NAME, number, plain, sized


def _length(segment: str) -> Meta:
    low_share, high_share, tape = LENGTH_SHARES[segment]
    low_m, high_m = low_share * STATURE_RANGE_M[0], high_share * STATURE_RANGE_M[1]
    return number(f"{tape.capitalize()}.", "measure it again, or leave it out", low_m, high_m,
                  default="from stature")  # fmt: skip


class LengthsTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """Measured segment lengths; both sides alike. Each must also fit the stature."""

    upper_arm: Annotated[float, _length("upper_arm")] | UnsetType = UNSET
    forearm: Annotated[float, _length("forearm")] | UnsetType = UNSET
    hand: Annotated[float, _length("hand")] | UnsetType = UNSET
    thigh: Annotated[float, _length("thigh")] | UnsetType = UNSET
    shank: Annotated[float, _length("shank")] | UnsetType = UNSET
    foot: Annotated[float, _length("foot")] | UnsetType = UNSET
    trunk: Annotated[float, _length("trunk")] | UnsetType = UNSET


TraineeName = Annotated[
    str, sized("The name on the card; no two trainees may share one.", "give a name", LONGEST_NAME)
]
Stature = Annotated[
    float, number("Standing height without shoes.", "give the standing height", *STATURE_RANGE_M)
]
Mass = Annotated[float, number("Body mass in training clothes.", "give the body mass", *MASS_RANGE_KG)]
StatedSex = Annotated[
    Sex,
    plain("Which published segment table to use.", "choose one, or leave the field out",
          default="both tables, with intervals that span them"),
]  # fmt: skip
Age = Annotated[
    float, number("Age.", "give the age in years, or leave it out", *AGE_RANGE_YEARS, default="not stated")
]
Lengths = Annotated[
    LengthsTable, plain("Measured segment lengths.", "write it as a table", default="from stature")
]


def _known(name: str, description: str) -> Meta:
    return number(description, "copy what leanmark calibrate printed", *KNOWN_RANGES[name])


class CalibrationTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """What readings of a hanging scale told of one trainee, as ``leanmark calibrate`` prints it."""

    move: Annotated[
        str,
        sized("The move in which the scale was read; the pressure is used there alone.",
              "name the move of the readings", LONGEST_NAME),
    ]  # fmt: skip
    com_share: Annotated[float, _known("com_share", "Mass centre above the table's, share of stature.")]
    com_share_deviation: Annotated[float, _known("com_share_deviation", "Its standard deviation.")]
    pressure: Annotated[
        float,
        _known("pressure", "Where the pressure sits: -1 gives the least strap force, 0 the least effort, "
               "1 the most strap force."),
    ]  # fmt: skip
    pressure_deviation: Annotated[float, _known("pressure_deviation", "Its standard deviation.")]


KnownPart = Annotated[
    CalibrationTable,
    plain("What readings of a hanging scale told.", "paste what leanmark calibrate printed",
          default="no readings, wider intervals"),
]  # fmt: skip


class PersonTable(Struct, forbid_unknown_fields=True, kw_only=True):
    """A trainee as a body."""

    name: TraineeName
    stature_m: Stature
    mass_kg: Mass
    sex: StatedSex | UnsetType = UNSET
    age_years: Age | UnsetType = UNSET
    lengths_m: Lengths = msgspec.field(default_factory=LengthsTable)
    calibration: KnownPart | UnsetType = UNSET
