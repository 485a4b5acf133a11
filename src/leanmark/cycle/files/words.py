"""Sessions and lines in plain words, for calendars."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterator
from typing import Final

from leanmark.cycle.files.columns import tempo_words
from leanmark.cycle.form import Cycle, Line, Part, Session
from leanmark.moves.report_form import LOAD_WORDS, Range
from leanmark.units import UnitSystem, show_length

_NO_TEXT: Final = ("Cc", "Cs")
"""Control characters and halves of surrogate pairs."""
CAUTIONS: Final[tuple[str, ...]] = (
    "Pain, dizziness or numbness: stop and tell the coach; if it stays or comes back, see a licensed "
    "practitioner. This plan diagnoses nothing.",
    "Look over anchor, straps and handles each time; load them only as their makers and local codes allow.",
    "Marks and loads are computed for this person, these straps and this floor: on a wet or dusty floor, or "
    "in other shoes, test your grip at an easier mark first.",
)
"""Common practice, no published source, except where it defers to the makers, codes and licensed practice."""
BALLISTIC_CAUTION: Final = (
    "Ballistic reps only while the controlled and the fast ones before them stay clean."
)
"""Common practice, no published source."""


def cautions(*sessions: Session) -> tuple[str, ...]:
    """What to look out for in these sessions."""
    stages = {part.stage for session in sessions for line in session.lines for part in line.parts}
    return (*CAUTIONS, BALLISTIC_CAUTION) if "ballistic" in stages else CAUTIONS


def session_words(cycle: Cycle, session: Session) -> str:
    """``Week 2 of 8, session 5, about 47 minutes (41 to 54)``, and whether it is a deload."""
    easier = "; deload, a planned easier session" if session.deload else ""
    place = f"Week {session.week} of {cycle.weeks}, session {session.number}"
    return f"{place}, about {_minutes(session.minutes)}{easier}"


def line_words(line: Line, units: UnitSystem) -> str:
    """A line as a coach would say it: what, how often, where, how hard, and the rest."""
    return ". ".join([f"{named(line)}: {dose_words(line)}", *_where(line, units), *_how_hard(line)]) + "."


def named(line: Line) -> str:
    """Move and rung: ``row, leaning``."""
    return plain(f"{line.move}, {line.rung}")


def dose_words(line: Line) -> str:
    """Sets and what they hold: ``3 sets of 8 controlled (2-1-1.5-0), 6 fast (2-0-1-0), on each side``."""
    many = "1 set" if line.sets == 1 else f"{line.sets} sets"
    parts = ", ".join(_part_words(part, line.rung) for part in line.parts)
    return f"{many} of {parts}{', on each side' if line.each_side else ''}"


def plain(text: str) -> str:
    """Text on one line: spaces for line breaks and for characters that are none."""
    seen = (" " if unicodedata.category(char) in _NO_TEXT else char for char in text)
    return " ".join("".join(seen).split())


def _part_words(part: Part, of_line: str) -> str:
    elsewhere = f" on '{plain(part.rung)}'" if part.rung != of_line else ""
    if part.reps == 0:
        return f"a {part.hold_s:g} s hold{elsewhere}"
    return f"{part.reps} {part.stage} ({tempo_words(part.tempo_s)}){elsewhere}"


def _where(line: Line, units: UnitSystem) -> Iterator[str]:
    if not line.strap:
        return
    yield f"Strap {plain(line.strap)}, {show_length(line.strap_m, units)}"
    mark, off = show_length(line.mark_m, units), show_length(line.tolerance_m, units)
    yield f"{plain(line.mark_of).capitalize()} at {mark} from the plumb point, within {off}"


def _how_hard(line: Line) -> Iterator[str]:
    low, value, high = (f"{100.0 * share:.0f}" for share in (line.load.low, line.load.value, line.load.high))
    yield f"Load about {value} % ({low} to {high}), {LOAD_WORDS.get(line.load_is, plain(line.load_is))}"
    if any(part.reps for part in line.parts):
        yield f"Stop each set with {line.reps_in_reserve:.3g} reps in reserve"
    yield f"Rest {line.rest_s:.0f} s"
    if line.spotter:
        yield "Somebody stands by"


def _minutes(minutes: Range) -> str:
    return f"{math.ceil(minutes.value)} minutes ({math.floor(minutes.low)} to {math.ceil(minutes.high)})"
