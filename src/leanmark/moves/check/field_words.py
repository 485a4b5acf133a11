"""What each field of a move file is for, in one line: for editors and the docs."""

from __future__ import annotations

from typing import Final

from leanmark.moves.schema import Balance, Contact, Fault, Gate, Hold, Mark, Move, Phases, Push, Rung

_ANGLES: Final = "joint angles in degrees, laid over"

FIELD_WORDS: Final[dict[type, dict[str, str]]] = {
    Move: {
        "move": "the move's name as the trade writes it; stands in the first line",
        "family": "the move family, which gives texts about who should not do it, stopping and breathing",
        "plane": "the plane of the body in which most of the movement lies",
        "purpose": "what the move is for, in one line",
        "works": "joint actions that the move trains, hardest-worked first, each with its prime movers",
        "helps": "joint actions that hold the body in place, each with the muscles that do them",
        "kit": "what of the straps is held or worn",
        "faces": "which way the person faces",
        "setup": "how to set up, as said to the trainee",
        "caution": "what to look out for, on every rung",
        "not-for": "who should not do it; added to the family's",
        "stop": "what ends a set; added to the family's",
        "breathing": "when to breathe in and out",
        "lever": "how the limbs lie: bent or straight, overhead, on the floor",
        "cues": "two to four short things to say",
        "faults": "two to four things that go wrong, each with its remedy",
        "strap": "the named strap setting",
        "mark": "the floor mark: what is put on it, where it starts, how far it may go",
        "contacts": "contact patches with the floor or a box",
        "holds": "what holds the straps",
        "balance": "where the mass centre is kept over a narrow base",
        "phases": "joint angles at the start and end of the rep",
        "firm": "how firmly joints keep their angles when straps and contacts ask otherwise",
        "load": "what a wanted load is a share of: strap force, hand force, or the largest joint moment",
        "loads-percent": "wanted loads that the move is printed with, in per cent",
        "tempo-s": "typical tempo: seconds down, pause, up, pause",
        "stages": "the speed stages that the move may be done at",
        "rungs": "the move's forms, from easier to harder",
    },
    Rung: {
        "rung": "the rung's name, its own within the move",
        "note": "what is different on this rung",
        "strap": "strap setting, where it is not the move's",
        "mark": "floor mark, where it is not the move's",
        "contacts": "contact patches, where they are not the move's",
        "holds": "what holds the straps, where it is not the move's",
        "balance": "where the mass centre is kept, where it is not the move's",
        "pushes": "a partner's pushes",
        "phases": "joint angles at start and end, where they are not the move's",
        "firm": "firmness of joints, laid over the move's",
        "angles": f"{_ANGLES} every phase",
        "start": f"{_ANGLES} the start",
        "key": f"{_ANGLES} the key pose",
        "end": f"{_ANGLES} the end",
        "harder-by": "what makes the rung harder than the one before",
        "lever": "how the limbs lie, where it is not as the move says",
        "gates": "tests that open the rung",
        "cues": "what to say, where it is not the move's",
        "faults": "what goes wrong, where it is not the move's",
        "caution": "what to look out for, in addition to the move's",
        "stages": "speed stages, where they are not the move's",
        "tempo-s": "typical tempo, where it is not the move's",
        "strap-runs": "on one strap that slips through a loop, the sides pull in turn and the strap runs",
    },
    Contact: {
        "patch": "the contact patch",
        "sides": "on which sides it touches",
        "ahead-m": "how far ahead of the floor mark it stands, in metres",
        "width": "half the stance in half distances between the hip joints: 1 is feet under the hips",
        "turned-out-deg": "how far it is turned outward; null leaves it free",
        "height-m": "height of the box it stands on, 0 for the floor",
        "found": "it comes down where the pose puts it, and stays there",
        "touching": "it touches but takes no force",
        "share-percent": "share of body weight that it carries, where that is given",
        "slides": "it touches all along, takes no force and stays nowhere in particular",
        "under": "the body point, without its side, that a found patch comes down under",
        "taps": "it touches where found patches come down, no longer, and takes no force",
    },
    Hold: {
        "point": "the body point that holds the strap, without its side",
        "sides": "on which sides",
        "end": "what it holds: a handle, a cradle, or the strap itself",
        "together": "both sides hold one handle",
        "in-line": "a body point, without its side, kept in line with the strap",
        "in-line-upright-only": "in line as seen from the side, free across",
        "plumb": "the strap hangs upright, straight under its anchor",
    },
    Mark: {
        "of": "what is put on the mark, in words",
        "start-m": "where the rung starts, in metres from the plumb point, positive the way the person faces",
        "low-m": "the lowest mark there is",
        "high-m": "the highest mark there is",
        "across": "the mark runs to the person's left instead of ahead",
    },
    Balance: {
        "axis": "which way: ahead or across",
        "over": "body points with their side, each with its weight; the weights add up to 1",
        "offset-m": "how far from there, in metres",
    },
    Push: {
        "point": "the body point with its side",
        "ahead-n": "newtons ahead",
        "left-n": "newtons to the left",
        "up-n": "newtons up",
    },
    Fault: {"fault": "what goes wrong", "remedy": "what to do about it"},
    Gate: {
        "rung": "the rung that the test is done on",
        "source": "a publication, or that it is common practice",
        "move": "the move that the test is done in, if not this one",
        "hold-s": "seconds held",
        "reps": "clean reps",
        "stage": "at which speed stage",
    },
    Phases: {
        "start": "joint angles in degrees at the start of the rep, or of a hold",
        "end": "joint angles in degrees at the end; left out in a hold",
        "key": "joint angles in degrees half way, where the straight path would not do",
        "comes-down": "in which of the two ends found patches come down",
    },
}

LIKE_WORDS: Final[dict[type, str]] = {
    Move: "a shared set-up or a move of the library to start from",
    Rung: "a rung further up the same file to start from",
}
POSE_LIKE_WORDS: Final = "one named pose to start from, or several"
