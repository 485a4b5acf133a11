"""The base of support in words, read from a rung's contacts and holds."""

from __future__ import annotations

from typing import Final

from leanmark.moves.schema import Contact, Hold, Move, Rung

_PATCH_WORDS: Final[dict[str, tuple[str, str]]] = {
    "sole": ("sole", "soles"),
    "forefoot": ("ball of the foot", "balls of the feet"),
    "toe": ("tip of the toes", "tips of the toes"),
    "heel": ("heel", "heels"),
    "palm": ("palm", "palms"),
    "hand": ("hand", "hands"),
    "forearm": ("forearm", "forearms"),
    "elbow": ("elbow", "elbows"),
    "knee": ("knee", "knees"),
    "shin": ("shin", "shins"),
    "shoulder_back": ("upper back", "upper back"),
    "head": ("back of the head", "back of the head"),
    "pelvis": ("back of the pelvis", "back of the pelvis"),
}
FEET: Final = ("sole", "forefoot", "toe", "heel")
_WIDTHS: Final = ((0.25, "in line"), (0.8, "close together"), (1.5, "hip-wide"), (2.6, "shoulder-wide"))
"""Up to which width of stance, in half distances between the hip joints, each word is used: hip-wide around
1, shoulder-wide around 2.1, where the shoulder joints are; own figures."""
_HELD_WORDS: Final = {
    "grip": ("hand", "hands"), "armpit": ("arm", "arms"), "knee_front": ("knee", "knees"),
}  # fmt: skip


def contacts_of(move: Move, rung: Rung) -> list[Contact]:
    """The rung's contacts, its own or the move's."""
    return rung.contacts if rung.contacts is not None else move.contacts


def holds_of(move: Move, rung: Rung) -> list[Hold]:
    """What the rung's straps hold, its own or the move's."""
    return rung.holds if rung.holds is not None else move.holds


def bearing(contacts: list[Contact]) -> list[Contact]:
    """The contacts that can take weight: not those that only touch, slide or tap."""
    return [contact for contact in contacts if not (contact.touching or contact.slides or contact.taps)]


def base_words(move: Move, rung: Rung) -> str:
    """What bears and holds the body, ``both soles, hip-wide; hands in the handles``."""
    contacts = bearing(contacts_of(move, rung))
    patches = dict.fromkeys(contact.patch for contact in contacts)
    parts = [_patch_words([one for one in contacts if one.patch == patch]) for patch in patches]
    return "; ".join([*parts, *map(_hold_words, holds_of(move, rung))])


def _patch_words(members: list[Contact]) -> str:
    """All contacts of one kind."""
    first = members[0]
    one, many = _PATCH_WORDS[first.patch]
    sides = {side for contact in members for side in contact.sides}
    if one == many:
        text = one
    elif len(sides) == 2:
        text = f"both {many}{_stance(members)}"
    else:
        text = f"{first.sides[0]} {one}"
    height = f" on a box of {100.0 * first.height_m:.0f} cm" if first.height_m else ""
    return text + height


def _stance(members: list[Contact]) -> str:
    """How two feet stand to each other."""
    if members[0].patch not in FEET or any(contact.found for contact in members):
        return ""
    if len({contact.ahead_m for contact in members}) > 1:
        return ", one ahead of the other"
    width = sum(abs(contact.width) for contact in members) / len(members)
    return f", {next((word for most, word in _WIDTHS if width < most), 'wide')}"


def _hold_words(hold: Hold) -> str:
    one, many = _HELD_WORDS.get(hold.point, ("foot", "feet"))
    if hold.end == "none":
        return f"straps under the {many}"
    if hold.together:
        return f"{many} together on one {hold.end}"
    if len(hold.sides) == 2:
        return f"{many} in the {hold.end}s"
    return f"{hold.sides[0]} {one} in one {hold.end}"
