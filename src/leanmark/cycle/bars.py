"""What bars a rung for a trainee: restrictions, pain, gates, kit, and what the body on this rig cannot hold.
Nothing here is a diagnosis; bars only keep moves out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from leanmark.cycle.offers import RungOffer
from leanmark.moves.find import joint_words
from leanmark.moves.gates import gate_words
from leanmark.moves.schema import Gate, Move, Stage
from leanmark.squad.wishes import GatePassed, PainNote, TrainingWishes

SORE_SHARE: Final = 0.15
"""A sore or spared joint is left alone by rungs that ask less than this share of its reference strength;
own figure, about the share that quiet standing and steadying take."""
STAGE_ORDER: Final[tuple[Stage, ...]] = ("controlled", "fast", "ballistic")

BarKind = Literal["avoid", "pain", "gate", "kit", "rig"]


@dataclass(frozen=True)
class Bar:
    """One reason against a rung. wish: what the coach said that leads to it, the same words for every rung
    that it bars; reason: in plain words, for this rung."""

    kind: BarKind
    wish: str
    reason: str


def bars(offer: RungOffer, wishes: TrainingWishes, kit: frozenset[str]) -> tuple[Bar, ...]:
    """Everything that bars a rung for a trainee; empty where it is open."""
    return (
        *_cannot_be_held(offer),
        *_lacks_kit(offer, kit),
        *_avoided(offer, wishes.avoid),
        *_sore(offer, wishes.pain),
        *_closed_gates(offer, wishes.gates),
    )


def closed_in_words(offer: RungOffer, wishes: TrainingWishes, kit: frozenset[str]) -> bool:
    """Whether a rung is barred by what its texts alone tell: kit, gates, its move or family left out."""
    named = {offer.move.move, offer.move.family} & set(wishes.avoid)
    if offer.move.move in wishes.must:
        return False
    return bool(named or offer.kit - kit or any(True for _ in _closed_gates(offer, wishes.gates)))


def _cannot_be_held(offer: RungOffer) -> Iterator[Bar]:
    if offer.reason:
        yield Bar("rig", "this body on this rig", f"cannot be held here: {offer.reason}")


def _lacks_kit(offer: RungOffer, kit: frozenset[str]) -> Iterator[Bar]:
    for missing in sorted(offer.kit - kit):
        yield Bar("kit", f"no kit '{missing}'", f"needs {missing}, which is not at hand")


def _avoided(offer: RungOffer, avoid: Sequence[str]) -> Iterator[Bar]:
    joints = set(joint_words())
    for word in avoid:
        if word in (offer.move.move, offer.move.family):
            yield Bar("avoid", f"avoid '{word}'", "the coach leaves it out")
        elif word in offer.asks:
            yield Bar("avoid", f"avoid '{word}'", f"asks for {word}, which this trainee is to avoid")
        elif word in joints and _loads(offer, word):
            asked = f"loads the {word} ({100.0 * offer.joint_share(word):.0f} % of reference strength)"
            yield Bar("avoid", f"avoid '{word}'", f"{asked}, which this trainee is to avoid")


def _loads(offer: RungOffer, word: str) -> bool:
    trained = any(word in (action, action.split()[0]) for action in offer.move.works)
    return trained or offer.joint_share(word) > SORE_SHARE


def _sore(offer: RungOffer, pain: Sequence[PainNote]) -> Iterator[Bar]:
    for note in pain:
        if _loads(offer, note.joint):
            reason = f"loads the {note.joint} while pain in the {note.place} is noted"
            yield Bar(
                "pain",
                f"pain in the {note.place}",
                f"{reason}; a licensed practitioner decides when it is open again",
            )


def _closed_gates(offer: RungOffer, passed: Sequence[GatePassed]) -> Iterator[Bar]:
    for gate in offer.rung.gates:
        if not any(_opens(gate, offer.move, test) for test in passed):
            words = gate_words(offer.move, gate)
            yield Bar("gate", words.replace("opens after", "no test passed of"), words)


def _opens(gate: Gate, move: Move, test: GatePassed) -> bool:
    """Whether a passed test is what a gate asks: the same rung, at least as long or as often, at its speed or
    a quicker one."""
    same = (gate.move or move.move, gate.rung) == (test.move, test.rung)
    if gate.hold_s is not None:
        enough = (test.hold_s or 0.0) >= gate.hold_s
    else:
        enough = (test.reps or 0) >= (gate.reps or 0)
    return same and enough and STAGE_ORDER.index(test.stage) >= STAGE_ORDER.index(gate.stage)
