"""What each field of a cycle's JSON means, in one line with its unit: for the schema and the docs."""

from __future__ import annotations

from typing import Final

from leanmark.cycle.form import Cycle, GoalScore, LeftOut, Line, Part, Pin, Plan, Session, Step
from leanmark.moves.report_form import Range

_SHARE: Final = "share of reference strength, 1 is all of it"
_BOTH: Final = "; both sides together, where it is done on each"

FIELD_WORDS: Final[dict[type, dict[str, str]]] = {
    Cycle: {
        "uid": "stable name of the cycle: an edit keeps it",
        "name": "the cycle's name",
        "squad": "the squad's name",
        "squad_text": "the squad file that it was built from, as written",
        "zone": "time zone of the place, as in the IANA time zone database",
        "starts": "first day",
        "weeks": "how many weeks",
        "seed": "the seed that it was built with: same squad file, edits and seed, same cycle",
        "plans": "one plan for each trainee",
        "pins": "edits made by hand, in the order they were made",
        "revision": "rises with each edit; calendars tell a newer issue by it",
        "form": "version of this form",
    },
    Plan: {
        "trainee": "the trainee's name, as in the squad file",
        "sessions": "the trainee's sessions, in order",
        "left_out": "moves that the trainee does not do, with every reason",
        "goals": "how far each soft goal is missed",
        "objective": "what all soft goals cost together",
        "bound": "what they cost at least, whatever the plan",
        "notes": "what the coach must know: wishes that could not be met, pain that bars moves",
    },
    Session: {
        "uid": "stable name of the session, its own within the cycle",
        "number": "place among the trainee's sessions, from 1",
        "week": "week of the cycle, from 1",
        "starts": "local time with its offset",
        "minutes": "how long it takes, in minutes",
        "wave": "how high the load wave stands, 0 to 1",
        "wanted": "load wanted at that height, share of capacity",
        "deload": "a planned easier session",
        "stages": "the speed stages that are open",
        "strap_changes": "how often the strap is set anew",
        "lines": "the moves, in the order in which they are done",
    },
    Line: {
        "uid": "stable name of the line within the cycle",
        "move": "the move, as in the library",
        "rung": "the rung of the move's ladder",
        "family": "the move family",
        "strap": "strap setting by name; empty where no strap is used",
        "strap_m": "strap length from anchor to strap end, in metres; 0 where none is used",
        "mark_of": "the contact that is put on the floor mark",
        "mark_m": "floor mark from the plumb point, in metres, positive the way the trainee faces",
        "tolerance_m": "how far off the mark the load is still as wanted, in metres",
        "each_side": "each set is done on one side, then on the other: parts are of one side",
        "sets": "how many sets, all alike",
        "parts": "what a set holds, in order: reps at a speed stage, or a hold",
        "reps_in_reserve": "reps that could still be done at the end of a set",
        "rest_s": "rest after each set, in seconds",
        "set_s": f"time of one set, in seconds{_BOTH}",
        "load_is": "what the load is a share of: straps, hands (body weight), largest share (strength)",
        "load": "the expected load, a share, 1 is all of it",
        "strap_n": "force of all straps, in newtons; 0 where none is used",
        "demand": f"largest joint moment of the rep held still, {_SHARE}",
        "capacity": f"what the trainee is taken to manage once, {_SHARE}",
        "action": "the joint action that takes the largest share",
        "under_load_s": f"time under load of one set, in seconds{_BOTH}",
        "work_j": f"work against gravity of one set, in joules{_BOTH}",
        "impulse_ns": f"impulse of the straps of one set, in newton seconds{_BOTH}",
        "easier": "the next easier mark, where there is one",
        "harder": "the next harder mark, where there is one",
        "spotter": "somebody stands by",
        "pinned": "the coach fixed the line",
        "why": "the rules that led to the dose, in order",
    },
    Part: {
        "stage": "speed stage",
        "rung": "the rung on which it is done",
        "tempo_s": "eccentric, pause, concentric, pause, in seconds",
        "reps": "how many reps; 0 for a hold",
        "hold_s": "how long it is held, in seconds; 0 for reps",
    },
    Step: {
        "rung": "the rung",
        "mark_m": "floor mark, in metres",
        "demand": f"its demand, {_SHARE}",
    },
    LeftOut: {
        "move": "the move",
        "reasons": "every reason",
        "chosen": "nothing bars the move: the plan is better without it",
    },
    GoalScore: {
        "goal": "the soft goal",
        "amount": "by how many units it is missed",
        "weight": "cost of one unit",
        "cost": "amount times weight",
        "baseline": "what it costs in the plan made greedily",
    },
    Pin: {
        "trainee": "whose plan is edited",
        "session": "the session's number; 0 for all of the trainee's",
        "what": "keep the move there, drop it, swap it for another, or dose it",
        "move": "the move that is edited",
        "other": "the move that it is swapped for",
        "sets": "sets wanted; 0 where left to the builder",
        "reps": "reps wanted; 0 where left to the builder",
        "mark_m": "floor mark wanted, in metres; null where left to the builder",
    },
    Range: {
        "value": "the value",
        "low": "low end of the interval it lies in",
        "high": "high end of the interval",
    },
}
