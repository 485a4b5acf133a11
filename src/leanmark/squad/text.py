"""Names and notes: tidied, and free of characters that do not print."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Hashable, Iterable, Sequence
from typing import Final

_JOINERS: Final = "\u200c\u200d"  # zero-width joiners, letters' own in Persian and Indic names
_LINE_BREAKS: Final = "\n\t"


def tidy(text: str) -> str:
    """Without spaces around it, and in the composed form that makes equal names compare equal (NFC)."""
    return unicodedata.normalize("NFC", text.strip())


def same_name_key(name: str) -> str:
    """What two names share when nobody could tell them apart on a card: case and spacing do not count."""
    return " ".join(tidy(name).casefold().split())


def first_unprintable(text: str, *, line_breaks: bool) -> str | None:
    """The first character that must not stand in a name, as ``U+0007``; None when there is none.

    Control, surrogate, unassigned and formatting characters (the writing-direction switches among them) are
    refused; line breaks and tabs are fine in notes.
    """
    for char in text:
        fine = char in _JOINERS or (line_breaks and char in _LINE_BREAKS)
        if not fine and unicodedata.category(char) in ("Cc", "Cf", "Cs", "Cn", "Zl", "Zp"):
            return f"U+{ord(char):04X}"
    return None


def nearest(word: str, known: Sequence[str]) -> str | None:
    """The known word that was most likely meant, or None."""
    plain = word.casefold()
    starting = [name for name in known if plain and name.casefold().startswith(plain)]
    if len(starting) == 1:
        return starting[0]
    by_fold = {name.casefold(): name for name in known}
    close = difflib.get_close_matches(plain[:80], by_fold, n=1, cutoff=0.6)
    return by_fold[close[0]] if close else None


def repeated(keys: Iterable[Hashable]) -> dict[int, int]:
    """Position of every key that stood there before, mapped to its first position; None never counts."""
    first: dict[Hashable, int] = {}
    return {
        at: first[key] for at, key in enumerate(keys) if key is not None and first.setdefault(key, at) != at
    }
