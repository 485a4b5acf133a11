"""A cycle written by hand for two trainees of the demo squad, and a strategy that draws any cycle.

The figures are plausible ones made up for tests, not what the engine answers.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from hypothesis import strategies as st
from msgspec.structs import replace

from leanmark.cycle.form import Cycle, GoalScore, LeftOut, Line, Part, Pin, Plan, Session, Step, Tempo4
from leanmark.moves.report_form import Range

DEMO_SQUAD: Final = Path(__file__).resolve().parents[2] / "demo" / "squad.toml"
ZONES: Final = ("Europe/Oslo", "America/New_York", "Australia/Sydney", "Asia/Kolkata", "UTC")
_INSTANTS: Final = (1_577_836_800, 2_145_916_800)
"""From 2020 to 2037 [s since 1970]."""
_OSLO_WINTER: Final = dt.timezone(dt.timedelta(hours=1))
_CALM: Final[Tempo4] = (2.0, 1.0, 1.5, 0.0)
_FAST: Final[Tempo4] = (2.0, 0.0, 1.0, 0.0)
_BALLISTIC: Final[Tempo4] = (1.5, 0.0, 0.6, 0.0)
_WHY: Final = ("general strength: 10 to 6 reps", "week 1 of a linear wave: 4 reps in reserve")


def sample_cycle() -> Cycle:
    """Two weeks of two sessions for Tuva Lindvåg and Jonas Holmvik, who train at the same time."""
    return Cycle(
        uid="2c1d6f0e-8a43-4d5e-9b57-3f6f2f6f7a10",
        name="Frühwinter in der Bootshalle",
        squad="Winter land training",
        squad_text=DEMO_SQUAD.read_text(encoding="utf-8"),
        zone="Europe/Oslo",
        starts=dt.date(2027, 1, 11),
        weeks=2,
        seed=7,
        plans=(_plan("Tuva Lindvåg", "tuva", 74.0), _plan("Jonas Holmvik", "jonas", 66.0)),
        pins=(Pin("Tuva Lindvåg", 2, "dose", "split squat", sets=2, reps=8),),
    )


def _plan(trainee: str, key: str, mass_kg: float) -> Plan:
    days = [dt.date(2027, 1, day) for day in (11, 14, 18, 21)]
    sessions = tuple(_session(number, day, key, mass_kg) for number, day in enumerate(days, start=1))
    return Plan(
        trainee=trainee,
        sessions=sessions,
        left_out=(
            LeftOut("pistol squat", ("gate: 10 reps of 'single-leg squat' are not passed",)),
            LeftOut("wide row", ("'row' trains the same and changes the strap less often",), chosen=True),
        ),
        goals=(
            GoalScore("balance of patterns", 1.5, 40, 60.0, 140.0),
            GoalScore("strap changes", 9.0, 5, 45.0, 60.0),
        ),
        objective=105.0,
        bound=98.0,
        notes=("grip is worked three times in session 1; größter Abstand is kept",),
    )


def _session(number: int, day: dt.date, key: str, mass_kg: float) -> Session:
    uid = f"{key}-session-{number}"
    first = number % 2 == 1
    wave = (number - 1) / 3.0
    lines = _pull_day(uid, mass_kg, wave) if first else _jump_day(uid, mass_kg, wave)
    stages = {stage: None for line in lines for stage in (part.stage for part in line.parts)}
    return Session(
        uid=uid,
        number=number,
        week=(number + 1) // 2,
        starts=dt.datetime.combine(day, dt.time(18, 0), _OSLO_WINTER),
        minutes=Range(46.5, 41.0, 54.0),
        wave=wave,
        wanted=0.68 + 0.13 * wave,
        deload=number == 4,
        stages=tuple(stages),
        strap_changes=2 if first else 3,
        lines=lines,
    )


def _pull_day(uid: str, mass_kg: float, wave: float) -> tuple[Line, ...]:
    mixed = _parts("from the toes", 8, 6, 4)
    row = (Part("controlled", "leaning", _CALM, 8), Part("fast", "leaning", _FAST, 6))
    one_arm = (Part("controlled", "feet apart", (3.0, 1.0, 2.0, 0.0), 8),)
    hold = (Part("controlled", "from the elbows", (0.0, 0.0, 0.0, 0.0), hold_s=40.0),)
    return (
        _line(
            f"{uid}-1", "row", "horizontal pull", row, mass_kg, ("short", 1.23), ("heels", -0.62 + 0.1 * wave)
        ),
        _line(f"{uid}-2", "push-up", "horizontal press", mixed, mass_kg, ("", 0.0), ("toes", 0.0), "hands"),
        _line(
            f"{uid}-3",
            "single-arm row",
            "horizontal pull",
            one_arm,
            mass_kg,
            ("mid-thigh", 1.63),
            ("heels", -1.5),
            each_side=True,
        ),
        _line(
            f"{uid}-4",
            "front plank",
            "front of trunk",
            hold,
            mass_kg,
            ("mid-shin", 2.03),
            ("elbows", 1.35),
            "largest share",
        ),
    )


def _jump_day(uid: str, mass_kg: float, wave: float) -> tuple[Line, ...]:
    jump = (
        Part("controlled", "quick rise", _CALM, 4),
        Part("fast", "half-squat jump", _FAST, 3),
        Part("ballistic", "half-squat jump", _BALLISTIC, 3),
    )
    squat = (Part("controlled", "full depth", _CALM, 8), Part("fast", "full depth, faster", _FAST, 4))
    side = (Part("controlled", "on the floor", (0.0, 0.0, 0.0, 0.0), hold_s=25.0),)
    spotted = replace(
        _line(
            f"{uid}-1",
            "squat jump",
            "hop and sprint",
            jump,
            mass_kg,
            ("short", 1.23),
            ("heels", -0.7 + 0.1 * wave),
        ),
        spotter=True,
        rung="half-squat jump",
    )
    pinned = replace(
        _line(
            f"{uid}-2",
            "split squat",
            "lunge",
            squat,
            mass_kg,
            ("short", 1.23),
            ("front heel", -0.5),
            each_side=True,
        ),
        pinned=True,
    )
    floor = _line(
        f"{uid}-3",
        "side plank",
        "side of trunk",
        side,
        mass_kg,
        ("", 0.0),
        ("elbow", 0.0),
        "largest share",
        each_side=True,
    )
    return (spotted, pinned, replace(floor, easier=None))


def _parts(rung: str, controlled: int, fast: int, ballistic: int) -> tuple[Part, ...]:
    return (
        Part("controlled", rung, _CALM, controlled),
        Part("fast", rung, _FAST, fast),
        Part("ballistic", rung, _BALLISTIC, ballistic),
    )


def _line(
    uid: str,
    move: str,
    family: str,
    parts: tuple[Part, ...],
    mass_kg: float,
    strap: tuple[str, float],
    mark: tuple[str, float],
    load_is: str = "straps",
    *,
    each_side: bool = False,
) -> Line:
    sides = 2 if each_side else 1
    under_load_s = sides * sum(part.hold_s + part.reps * sum(part.tempo_s) for part in parts)
    pull_n = round(0.36 * mass_kg * 9.80665, 1) if strap[0] else 0.0
    rung, (mark_of, mark_m) = parts[0].rung, mark
    return Line(
        uid=uid,
        move=move,
        rung=rung,
        family=family,
        strap=strap[0],
        strap_m=strap[1],
        mark_of=mark_of,
        mark_m=mark_m,
        tolerance_m=0.03,
        each_side=each_side,
        sets=3 if not each_side else 2,
        parts=parts,
        reps_in_reserve=3.0,
        rest_s=90.0,
        set_s=under_load_s + 10.0 * (sides - 1),
        load_is=load_is,
        load=Range(0.36, 0.31, 0.42),
        strap_n=Range(pull_n, round(0.86 * pull_n, 1), round(1.17 * pull_n, 1)),
        demand=0.42,
        capacity=0.6,
        action="shoulder extension",
        under_load_s=under_load_s,
        work_j=round(sides * mass_kg * 2.1, 1),
        impulse_ns=round(pull_n * under_load_s, 1),
        easier=Step(rung, mark_m - 0.12, 0.38),
        harder=Step(rung, mark_m + 0.12, 0.46),
        why=_WHY,
    )


_words = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
_names = st.one_of(_words, st.sampled_from(["=1+1", "@Ü", "-x", "+2", "'=", 'a,"b";c\nd', "Åsa 🚣", "\r"]))
_shares = st.floats(0.0, 2.0)
_seconds = st.floats(0.0, 600.0)
_marks = st.floats(-3.0, 3.0)
_ranges = st.tuples(_shares, _shares, _shares).map(lambda ends: _in_order(sorted(ends)))
_stages = st.sampled_from(["controlled", "fast", "ballistic"])
_steps = st.none() | st.builds(Step, _names, _marks, _shares)


def _in_order(ends: list[float]) -> Range:
    return Range(ends[1], ends[0], ends[2])


_tempos = st.tuples(_seconds, _seconds, _seconds, _seconds)
_parts_drawn = st.builds(Part, _stages, _names, _tempos, st.integers(0, 30), _seconds)
_lines = st.builds(
    Line,
    uid=_names,
    move=_names,
    rung=_names,
    family=_names,
    strap=_names,
    strap_m=st.floats(0.0, 3.0),
    mark_of=_names,
    mark_m=_marks,
    tolerance_m=_shares,
    each_side=st.booleans(),
    sets=st.integers(1, 4),
    parts=st.lists(_parts_drawn, min_size=1, max_size=3).map(tuple),
    reps_in_reserve=st.floats(0.0, 9.0),
    rest_s=_seconds,
    set_s=_seconds,
    load_is=st.sampled_from(["straps", "hands", "largest share"]),
    load=_ranges,
    strap_n=_ranges,
    demand=_shares,
    capacity=_shares,
    action=_names,
    under_load_s=_seconds,
    work_j=_seconds,
    impulse_ns=_seconds,
    easier=_steps,
    harder=_steps,
    spotter=st.booleans(),
    pinned=st.booleans(),
    why=st.lists(_names, max_size=2).map(tuple),
)


@st.composite
def _sessions(draw: st.DrawFn, key: str, number: int, weeks: int, zone: str) -> Session:
    start = dt.datetime.fromtimestamp(draw(st.integers(*_INSTANTS)), ZoneInfo(zone))
    offset = start.utcoffset()
    assert offset is not None
    return Session(
        uid=f"{key}-{number}",
        number=number,
        week=draw(st.integers(1, weeks)),
        starts=start.replace(tzinfo=dt.timezone(offset), fold=0),
        minutes=_in_order(sorted(draw(st.tuples(*[st.floats(1.0, 180.0)] * 3)))),
        wave=draw(st.floats(0.0, 1.0)),
        wanted=draw(st.floats(0.0, 1.0)),
        deload=draw(st.booleans()),
        stages=draw(st.lists(_stages, max_size=3, unique=True).map(tuple)),
        strap_changes=draw(st.integers(0, 9)),
        lines=draw(st.lists(_lines, max_size=2).map(tuple)),
    )


@st.composite
def cycles(draw: st.DrawFn) -> Cycle:
    """Any cycle that the form allows, small, with ugly names; numbers need not fit together."""
    weeks, zone = draw(st.integers(1, 16)), draw(st.sampled_from(ZONES))
    trainees = draw(st.lists(_names.filter(str.strip), max_size=2, unique=True))
    plans = tuple(
        Plan(
            trainee=trainee,
            sessions=tuple(
                draw(_sessions(f"t{at}", number, weeks, zone))
                for number in range(1, draw(st.integers(0, 2)) + 1)
            ),
            left_out=draw(
                st.lists(
                    st.builds(LeftOut, _names, st.lists(_names, max_size=2).map(tuple), st.booleans()),
                    max_size=2,
                ).map(tuple)
            ),
            goals=draw(
                st.lists(
                    st.builds(GoalScore, _names, _seconds, st.integers(0, 100), _seconds, _seconds),
                    max_size=1,
                ).map(tuple)
            ),
            objective=draw(_seconds),
            bound=draw(_seconds),
            notes=draw(st.lists(_names, max_size=2).map(tuple)),
        )
        for at, trainee in enumerate(trainees)
    )
    pins = st.builds(
        Pin,
        _names,
        st.integers(0, 48),
        st.sampled_from(["keep", "drop", "swap", "dose"]),
        _names,
        other=_names,
        sets=st.integers(0, 10),
        reps=st.integers(0, 60),
        mark_m=st.none() | _marks,
    )
    return Cycle(
        uid=draw(st.uuids().map(str)),
        name=draw(_names),
        squad=draw(_names),
        squad_text=draw(_words),
        zone=zone,
        starts=draw(st.dates(dt.date(2020, 1, 1), dt.date(2037, 12, 31))),
        weeks=weeks,
        seed=draw(st.integers(0, 2**31)),
        plans=plans,
        pins=draw(st.lists(pins, max_size=2).map(tuple)),
        revision=draw(st.integers(0, 9)),
    )
