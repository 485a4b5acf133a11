"""What stands in a cycle, in the words of its sheets."""

from __future__ import annotations

import datetime as dt
import re
from math import isfinite
from typing import Final

from leanmark.cycle.form import Line, Part, Session, Step
from leanmark.dose.effort import EFFORT_SCALE, rpe_of
from leanmark.moves.report_form import Range
from leanmark.units import UnitSystem, show_force, show_force_range, show_length

_TIED: Final = re.compile(r"(?<=[\d±]) (?=(?:%|cm|in|ft|lbf|kg-force|s|min|N)(?!\w))|(?<=RPE) | (?=± )")
WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
OF_WHAT: Final = {
    "straps": "of body weight on the straps",
    "hands": "of body weight on the hands",
    "largest share": "of reference strength at the hardest joint",
}
_MOST_RESERVE: Final = EFFORT_SCALE[-1][0]


def tied(words: str) -> str:
    """The words with number and unit kept on one line."""
    return _TIED.sub("\N{NO-BREAK SPACE}", words)


def day_words(day: dt.date) -> str:
    """``Monday 2027-01-11``."""
    return f"{WEEKDAYS[day.weekday()]} {day:%Y-%m-%d}"


def short_start_words(session: Session) -> str:
    """``Mon 2027-01-11, 18:00``, for tables."""
    return f"{WEEKDAYS[session.starts.weekday()][:3]} {session.starts:%Y-%m-%d, %H:%M}"


def start_words(session: Session) -> str:
    """Day and time at which a session starts."""
    return f"{day_words(session.starts.date())}, {session.starts:%H:%M}"


def minutes_words(minutes: Range) -> str:
    """``46 min (41 to 54)``."""
    return f"{minutes.value:.0f} min ({minutes.low:.0f} to {minutes.high:.0f})"


def stages_words(session: Session) -> str:
    """The speed stages that are open, and that the session is a deload where it is."""
    stages = ", then ".join(session.stages) or "no speed stage"
    return f"{stages}; deload" if session.deload else stages


def sets_words(line: Line) -> str:
    """``3 sets``, and that each is done on both sides where it is."""
    sets = f"{line.sets} set{'' if line.sets == 1 else 's'}"
    return f"{sets}, each side" if line.each_side else sets


def parts_words(line: Line) -> str:
    """What a set holds, in the order it is done: ``8 controlled, 6 fast, 4 ballistic``."""
    return ", ".join(_part_words(part, line.rung) for part in line.parts)


def _part_words(part: Part, rung: str) -> str:
    said = f"hold {part.hold_s:g} s" if part.hold_s else f"{part.reps} {part.stage}"
    return said if part.rung == rung else f"{said} as “{part.rung}”"


def tempo_words(line: Line) -> str:
    """The tempo of each part as the trade writes it; nothing for a hold."""
    moving = [part for part in line.parts if not part.hold_s]
    written = {part.stage: "-".join(f"{second:g}" for second in part.tempo_s) for part in moving}
    if len(set(written.values())) <= 1:
        return "".join(f"{tempo} s" for tempo in [*written.values()][:1])
    return ", ".join(f"{tempo} s {stage}" for stage, tempo in written.items())


def strap_words(line: Line, units: UnitSystem) -> str:
    """``short (123 cm)``, or that no strap is used."""
    return f"{line.strap} ({show_length(line.strap_m, units)})" if line.strap else "no straps"


def mark_words(line: Line, units: UnitSystem) -> str:
    """``heels at −62 cm ± 3 cm``; nothing where there is neither strap nor distance."""
    if not line.strap and not line.mark_m:
        return ""
    at = f"{line.mark_of} at {show_length(line.mark_m, units)}"
    exact = not isfinite(line.tolerance_m) or line.tolerance_m <= 0.0
    return at if exact else f"{at} ± {show_length(line.tolerance_m, units)}"


def load_words(line: Line, units: UnitSystem) -> str:
    """The expected load with its interval, and the straps' force where straps are used."""
    load = line.load
    said = f"{100 * load.value:.0f} % ({100 * load.low:.0f} to {100 * load.high:.0f}) "
    said += OF_WHAT.get(line.load_is, line.load_is)
    if line.strap_n.value <= 0.0:
        return said
    force = show_force(line.strap_n.value, units)
    between = show_force_range(line.strap_n.low, line.strap_n.high, units)
    return f"{said}; straps {force} ({between})"


def effort_words(line: Line) -> str:
    """``3 reps in reserve (RPE 7)``, the RPE to the nearest half."""
    left = line.reps_in_reserve
    said = f"{left:g} rep{'' if left == 1 else 's'} in reserve"
    if left > _MOST_RESERVE:
        return said
    return f"{said} (RPE {round(2.0 * float(rpe_of(left))) / 2.0:g})"


def step_words(line: Line, step: Step | None, units: UnitSystem) -> str:
    """The next mark: where it is and what it demands; the rung is named where it is another."""
    if step is None:
        return ""
    at = show_length(step.mark_m, units)
    where = at if step.rung == line.rung else f"“{step.rung}” at {at}"
    return f"{where} (demand {100 * step.demand:.0f} %)"


def demand_words(line: Line) -> str:
    """``42 % of reference strength; 60 % once``: asked, and what can be done once."""
    asked, once = 100 * line.demand, 100 * line.capacity
    return f"{asked:.0f} % of reference strength; {once:.0f} % once"
