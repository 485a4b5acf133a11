"""Which field a person most likely meant by a name that is not known."""

from __future__ import annotations

from collections.abc import Sequence

from leanmark.squad.tables import OTHER_WORDS
from leanmark.squad.text import nearest
from leanmark.units import UNITS


def likely_fields(key: str, known: Sequence[str]) -> list[str]:
    """The known fields that ``key`` most likely meant: one, or all spellings of one, or none."""
    by_stem = stems(known)
    meant = _in_our_words(key)
    if meant in known:
        return [meant]
    words = {word: field for word, field in OTHER_WORDS.items() if field in by_stem or field in known}
    close = meant if meant in by_stem else nearest(meant, [*known, *by_stem, *words])
    if close is None:
        return []
    close = words.get(close, close)
    return by_stem.get(close, [close])


def stems(known: Sequence[str]) -> dict[str, list[str]]:
    """Field names without their unit suffix, each with all its spellings."""
    spelled: dict[str, list[str]] = {}
    for name in known:
        spelled.setdefault(_stem(name), []).append(name)
    return spelled


def _in_our_words(key: str) -> str:
    """The key with another word for a field replaced: ``height_cm`` becomes ``stature_cm``."""
    plain = key.casefold()
    stem = _stem(plain)
    return OTHER_WORDS.get(plain) or OTHER_WORDS.get(stem, stem) + plain.removeprefix(stem)


def _stem(name: str) -> str:
    stem, _, suffix = name.rpartition("_")
    return stem if stem and suffix in UNITS else name
