"""The one table of rules that a dose obeys, each with its values, its unit and its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from leanmark.errors import FieldError
from leanmark.moves.schema import COMMON_PRACTICE

OWN: Final = "own figure"
ACSM_2009: Final = (
    "American College of Sports Medicine 2009 (Ratamess and others), Med Sci Sports Exerc 41(3):687"
)
ACSM_2011: Final = (
    "American College of Sports Medicine 2011 (Garber and others), Med Sci Sports Exerc 43(7):1334"
)
WHO_2020: Final = "World Health Organization 2020, guidelines on physical activity and sedentary behaviour"
SCHOENFELD_2017: Final = "Schoenfeld, Ogborn and Krieger 2017, J Sports Sci 35(11):1073"


@dataclass(frozen=True)
class Rule:
    """One rule. values: one number, or several in the order that ``says`` gives; unit: of all of them, a word
    or ``share``; source: a publication, common practice, or an own figure."""

    name: str
    values: tuple[float, ...]
    unit: str
    says: str
    source: str


_ROWS: Final[tuple[Rule, ...]] = (
    Rule(
        "load rise",
        (0.02, 0.10),
        "share",
        "least and most by which the load rises in one step, once target reps are passed",
        f"{ACSM_2009}, abstract",
    ),
    Rule(
        "reps over target",
        (1, 2),
        "reps",
        "how many reps above the target open the next step: least, most",
        f"{ACSM_2009}, abstract",
    ),
    Rule(
        "strengthening days",
        (2,),
        "days a week",
        "least days a week on which all major muscle groups are trained",
        f"{WHO_2020}; the number second-hand, from a paper's table",
    ),
    Rule(
        "recovery",
        (48,),
        "hours",
        "least time between two sessions that train the same move family",
        f"{ACSM_2011}, from memory; second-hand on a page of the College's guidelines",
    ),
    Rule(
        "quick recovery",
        (24,),
        "hours",
        "the same for trunk, calf, shoulder care and mobility",
        COMMON_PRACTICE,
    ),
    Rule(
        "weekly sets",
        (2, 20),
        "sets a week",
        "least and most sets a week for a muscle group that is trained at all; goals narrow it",
        f"{SCHOENFELD_2017}, abstract: more weekly sets, more muscle; bounds: {OWN}s",
    ),
    Rule(
        "sessions before fast",
        (3,),
        "sessions",
        "sessions of a cycle done before fast reps open",
        COMMON_PRACTICE,
    ),
    Rule(
        "sessions before ballistic",
        (6,),
        "sessions",
        "sessions of a cycle done before ballistic reps open; never in a deload, for somebody "
        "new, or in return after a break",
        COMMON_PRACTICE,
    ),
    Rule(
        "ballistic reps",
        (40,),
        "reps a session",
        "most ballistic reps in a session, all moves together",
        COMMON_PRACTICE,
    ),
    Rule(
        "shares of stages",
        (4, 3, 2),
        "parts",
        "how a set's reps are shared out over the open stages: controlled, fast, ballistic",
        OWN,
    ),
    Rule(
        "wave rise",
        (1 / 3,),
        "share",
        "most that the load wave rises from one week to the next, of its whole height; it keeps every goal's "
        "rise of load below that of the first rule",
        OWN,
    ),
    Rule("loading weeks", (3,), "weeks", "weeks that climb before a deload", COMMON_PRACTICE),
    Rule("deload sets", (0.6,), "share", "sets of a deload as a share of the usual", COMMON_PRACTICE),
    Rule(
        "undulating heights",
        (1.0, 0.4, 0.7),
        "share",
        "sessions of an undulating week, heavy, light, medium, as shares of the week's height",
        OWN,
    ),
    Rule(
        "undulating start",
        (0.5,),
        "share",
        "height of an undulating wave's first heavy session",
        OWN,
    ),
    Rule(
        "share of hold limit",
        (0.5, 0.8),
        "share",
        "how much of the time that could be held is held, at the foot and at the top of the wave",
        OWN,
    ),
    Rule("side change", (5,), "seconds", "to turn from one side to the other within a set", OWN),
    Rule("strap change", (20, 60), "seconds", "to set the strap to another length: quick, slow", OWN),
    Rule("walk", (5, 20), "seconds", "to walk to the next station: quick, slow", OWN),
    Rule("warm-up", (5, 8), "minutes", "before the first set: short, long", COMMON_PRACTICE),
    Rule("cool-down", (3, 5), "minutes", "after the last set: short, long", COMMON_PRACTICE),
    Rule(
        "time per rep",
        (0.85, 1.25),
        "share",
        "how long a set takes as a share of what its tempo says: quick, slow",
        OWN,
    ),
    Rule("rest kept", (1.0, 1.25), "share", "how long a rest lasts, of what is written: quick, slow", OWN),
    Rule("rest rounding", (5,), "seconds", "rests are written in steps of this", OWN),
    Rule("hold rounding", (5,), "seconds", "holds are written in steps of this", OWN),
)
RULES: Final[dict[str, Rule]] = {rule.name: rule for rule in _ROWS}


def rule(name: str) -> Rule:
    """The rule of that name. Raises FieldError when there is none."""
    if name not in RULES:
        raise FieldError("rule", name, ", ".join(RULES), "name a rule of the table")
    return RULES[name]


def value(name: str) -> float:
    """The number of a rule that has one. Raises FieldError for a rule with several, or for none."""
    values = rule(name).values
    if len(values) != 1:
        raise FieldError("rule", name, "a rule with one value", "ask for its bounds or its values")
    return values[0]


def bounds(name: str) -> tuple[float, float]:
    """Low and high of a rule that has two numbers. Raises FieldError for any other."""
    values = rule(name).values
    if len(values) != 2:
        raise FieldError("rule", name, "a rule with two values", "ask for its value or its values")
    return values[0], values[1]


def middle(name: str) -> float:
    """The mean of a rule's low and high. Raises FieldError like ``bounds``."""
    low, high = bounds(name)
    return (low + high) / 2.0


def rounded(seconds: float, rounding: str) -> float:
    """A time [s] to the nearest step of a rounding rule, at least one step."""
    step = value(rounding)
    return float(max(1, round(seconds / step)) * step)
