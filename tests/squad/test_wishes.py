"""What a squad file says of a cycle becomes plain wishes: defaults, the squad's values, a trainee's own."""

from __future__ import annotations

import copy
import datetime as dt
import json
import pickle
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.squad.files import EDDA, TOP

from leanmark.dose.goals import GOALS
from leanmark.dose.levels import LEVELS
from leanmark.dose.waves import WAVE_KINDS
from leanmark.squad.check import check_wishes, pain_places
from leanmark.squad.cycle_table import DAY_NAMES
from leanmark.squad.read import read_squad, squad_from_bytes
from leanmark.squad.schema import squad_schema
from leanmark.squad.squad import Squad
from leanmark.squad.wishes import CycleWishes, GatePassed, PainNote, TrainingWishes

CYCLE = '[cycle]\nstarts = 2026-11-30\nweeks = 8\ndays = ["mon", "fri", "wed"]\n'
ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo" / "squad.toml"


def read(*parts: str) -> Squad:
    return squad_from_bytes("".join(parts).encode())


def wishes(own: str, cycle: str = CYCLE) -> TrainingWishes:
    return read(TOP, cycle, EDDA, own).trainees[0].wishes


def test_a_file_without_a_cycle_wants_none() -> None:
    squad = read(TOP, EDDA)
    assert squad.cycle is None
    assert squad.trainees[0].wishes == TrainingWishes()
    assert squad.kit == {"handles", "cradles", "single handle", "under the arms", "box"}


def test_the_shortest_cycle_takes_every_default() -> None:
    assert read(TOP, CYCLE, EDDA).cycle == CycleWishes(
        name="S",
        starts=dt.date(2026, 11, 30),
        weeks=8,
        days=(0, 2, 4),
        sessions=3,
        time=dt.time(18, 0),
        zone="UTC",
        minutes=60,
        goal="general strength",
        wave=None,
        days_off=frozenset(),
        seed=1,
    )


def test_every_field_of_a_cycle() -> None:
    more = """name = "Winter"
sessions = 2
time = 07:05:00
zone = "America/Argentina/Buenos_Aires"
minutes = 37.5
goal = "power"
wave = "undulating"
days_off = [2028-02-29, 2026-12-25]
seed = 7
"""
    cycle = read(TOP, CYCLE, more, EDDA).cycle
    assert cycle is not None
    assert (cycle.name, cycle.sessions, cycle.time, cycle.minutes) == ("Winter", 2, dt.time(7, 5), 37.5)
    assert (cycle.zone, cycle.goal, cycle.wave) == ("America/Argentina/Buenos_Aires", "power", "undulating")
    assert cycle.days_off == {dt.date(2028, 2, 29), dt.date(2026, 12, 25)}
    assert cycle.seed == 7


def test_every_wish_of_a_trainee() -> None:
    own = """group = "early"
goal = "sport emphasis"
emphasis = ["hinge"]
level = "new"
levels = { hinge = "strong" }
avoid = ["kneeling", "shoulder"]
likes = ["row"]
dislikes = ["saw"]
must = ["front plank"]
days = ["sun", "tue"]
minutes = 45
sessions = 1
days_off = [2026-12-01]
[[trainee.gates]]
move = "front plank"
rung = "on the floor"
hold_s = 75
[[trainee.gates]]
move = "squat"
rung = "deep"
reps = 9
stage = "fast"
[[trainee.pain]]
place = "left knee"
note = "on stairs"
[[trainee.pain]]
place = "low back"
"""
    assert wishes(own) == TrainingWishes(
        group="early",
        goal="sport emphasis",
        emphasis=("hinge",),
        level="new",
        levels={"hinge": "strong"},
        gates=(
            GatePassed("front plank", "on the floor", hold_s=75.0),
            GatePassed("squat", "deep", reps=9, stage="fast"),
        ),
        avoid=("kneeling", "shoulder"),
        pain=(PainNote("left knee", "on stairs"), PainNote("low back")),
        likes=("row",),
        dislikes=("saw",),
        must=("front plank",),
        days=(1, 6),
        minutes=45,
        sessions=1,
        days_off=frozenset({dt.date(2026, 12, 1)}),
    )


def test_the_squads_values_count_where_a_trainee_says_nothing() -> None:
    cycle = CYCLE + 'minutes = 50\ngoal = "trunk"\nsessions = 2\ndays_off = [2026-12-24]\n'
    quiet = wishes("", cycle)
    assert (quiet.goal, quiet.minutes, quiet.sessions, quiet.days) == ("trunk", 50, 2, (0, 2, 4))
    assert quiet.days_off == {dt.date(2026, 12, 24)}
    own = wishes('goal = "power"\nminutes = 30\ndays_off = [2026-12-02]\n', cycle)
    assert (own.goal, own.minutes) == ("power", 30)
    assert own.days_off == {dt.date(2026, 12, 24), dt.date(2026, 12, 2)}


@pytest.mark.parametrize(
    ("squad_sessions", "own", "sessions"),
    [
        ("", 'days = ["mon"]\n', 1),
        ("", 'days = ["mon", "tue", "thu", "sat"]\n', 4),
        ("sessions = 2\n", 'days = ["mon", "tue", "thu"]\n', 2),
        ("sessions = 2\n", 'days = ["mon"]\n', 1),
        ("sessions = 2\n", "sessions = 3\n", 3),
        ("", 'days = ["mon", "tue"]\nsessions = 1\n', 1),
    ],
)
def test_sessions_are_ones_own_else_as_many_as_the_days_allow(
    squad_sessions: str, own: str, sessions: int
) -> None:
    assert wishes(own, CYCLE + squad_sessions).sessions == sessions


def test_wishes_may_stand_without_a_cycle() -> None:
    assert wishes('goal = "power"\ndays = ["mon"]\n', "") == TrainingWishes(goal="power", days=(0,))


@pytest.mark.parametrize(
    ("place", "joint", "side"),
    [("knee", "knee", None), ("left knee", "knee", "left"), ("low back", "trunk", None)],
)
def test_a_place_of_pain_is_a_joint_and_a_side(place: str, joint: str, side: str | None) -> None:
    note = PainNote(place)
    assert (note.joint, note.side) == (joint, side)


def test_kit_may_be_less_and_may_be_nothing() -> None:
    assert read(TOP, 'kit = ["handles", "partner"]\n', EDDA).kit == {"handles", "partner"}
    assert read(TOP, "kit = []\n", EDDA).kit == frozenset()


def test_the_text_of_a_file_is_kept_and_gives_the_same_squad_again() -> None:
    text = (TOP + CYCLE + EDDA).replace("\n", "\r\n")
    squad = squad_from_bytes(b"\xef\xbb\xbf" + text.encode())
    assert squad.text == text
    assert squad_from_bytes(squad.text.encode()) == squad


def test_the_demo_wants_eight_weeks_of_winter_in_two_groups_of_five() -> None:
    squad = read_squad(DEMO)
    check_wishes(squad)
    assert squad.cycle is not None
    assert (squad.cycle.starts, squad.cycle.weeks, squad.cycle.sessions) == (dt.date(2026, 11, 30), 8, 3)
    assert squad.cycle.starts.weekday() == 0
    assert (squad.cycle.zone, squad.cycle.minutes) == ("Europe/Oslo", 60)
    groups = [trainee.wishes.group for trainee in squad.trainees]
    assert sorted(map(groups.count, set(groups))) == [5, 5]
    assert pickle.loads(pickle.dumps(squad)) == squad == copy.deepcopy(squad)


def test_the_samples_of_the_page_read_and_name_what_the_library_has() -> None:
    page = (ROOT / "docs" / "squad-file.md").read_text(encoding="utf-8")
    samples = [part.split("```")[0] for part in page.split("```toml\n")[1:]]
    assert len(samples) == 3
    squad = read(TOP, *samples[1:])
    check_wishes(squad)
    assert squad.cycle is not None
    assert len(squad.trainees[0].wishes.gates) == len(squad.trainees[0].wishes.pain) == 1


def test_the_schema_lists_what_the_dose_tables_hold() -> None:
    tables = squad_schema()["$defs"]
    cycle, trainee = tables["CycleTable"]["properties"], tables["TraineeTable"]["properties"]
    assert set(cycle["goal"]["enum"]) == set(trainee["goal"]["enum"]) == set(GOALS)
    assert set(cycle["wave"]["enum"]) == set(WAVE_KINDS)
    assert set(trainee["level"]["enum"]) == set(LEVELS)
    assert cycle["minutes"]["exclusiveMinimum"] == 0


dates = st.dates(dt.date(1970, 1, 1), dt.date(2199, 12, 31))
day_lists = st.lists(st.sampled_from(DAY_NAMES), min_size=1, unique=True)
names = st.text(alphabet=st.characters(categories=["L", "N"]), min_size=1, max_size=20)
own_wishes = st.fixed_dictionaries(
    {},
    optional={
        "group": names,
        "goal": st.sampled_from([goal for goal in GOALS if goal != "sport emphasis"]),
        "level": st.sampled_from(list(LEVELS)),
        "emphasis": st.lists(names, unique=True, max_size=3),
        "minutes": st.integers(1, 180),
        "days": day_lists,
        "days_off": st.lists(dates, unique=True, max_size=4),
        "gates": st.lists(
            st.fixed_dictionaries({"move": names, "rung": names, "reps": st.integers(1, 100)}), max_size=2
        ),
        "pain": st.lists(
            st.fixed_dictionaries({"place": st.sampled_from(pain_places()), "note": names}), max_size=2
        ),
    },
)


def as_toml(value: object) -> str:
    match value:
        case dict():
            return "{" + ", ".join(f"{key} = {as_toml(item)}" for key, item in value.items()) + "}"
        case list():
            return "[" + ", ".join(map(as_toml, value)) + "]"
        case dt.date() | dt.time():
            return value.isoformat()
    return json.dumps(value, ensure_ascii=False)


@given(
    starts=dates,
    weeks=st.integers(1, 16),
    days=day_lists,
    time=st.times().map(lambda time: time.replace(microsecond=0)),
    seed=st.integers(0, 2**31 - 1),
    own=own_wishes,
)
def test_what_is_written_is_what_is_read(
    starts: dt.date, weeks: int, days: list[str], time: dt.time, seed: int, own: dict[str, Any]
) -> None:
    asked = {"starts": starts, "weeks": weeks, "days": days, "time": time, "seed": seed}
    cycle_text = "".join(f"{key} = {as_toml(value)}\n" for key, value in asked.items())
    own_text = "".join(f"{key} = {as_toml(value)}\n" for key, value in own.items())
    squad = read(TOP, "[cycle]\n", cycle_text, EDDA, own_text)
    cycle, wish = squad.cycle, squad.trainees[0].wishes
    assert cycle is not None
    assert (cycle.starts, cycle.weeks, cycle.time, cycle.seed) == (starts, weeks, time, seed)
    assert [DAY_NAMES[day] for day in cycle.days] == [day for day in DAY_NAMES if day in days]
    for field in ("group", "goal", "level", "minutes"):
        assert field not in own or getattr(wish, field) == own[field]
    assert wish.days_off == set(own.get("days_off", []))
    assert wish.emphasis == tuple(own.get("emphasis", []))
    assert [(gate.move, gate.rung, gate.reps) for gate in wish.gates] == [
        (gate["move"], gate["rung"], gate["reps"]) for gate in own.get("gates", [])
    ]
    assert [(pain.place, pain.note) for pain in wish.pain] == [
        (pain["place"], pain["note"]) for pain in own.get("pain", [])
    ]
    assert wish.sessions is not None
    assert wish.days is not None
    assert 1 <= wish.sessions <= len(wish.days)
