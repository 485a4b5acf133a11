"""Printing on terminals that lack a sign: a plain one stands in, so that nothing is lost or stops."""

from __future__ import annotations

import codecs
import io
from typing import Final, TextIO

PLAIN_SIGNS: Final[dict[str, str]] = {
    "−": "-", "–": "-", "—": "-", "°": " deg", "±": "+-", "×": "x", "·": "*", "…": "...", "’": "'",
}  # fmt: skip
"""What is printed where the encoding lacks a sign of ours; letters that it lacks become a question mark."""
_HANDLER: Final = "leanmark-plain-signs"


def _plain(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lacking = error.object[error.start : error.end]
    return "".join(PLAIN_SIGNS.get(char, "?") for char in lacking), error.end


codecs.register_error(_HANDLER, _plain)


def say_what_it_can(*streams: TextIO) -> None:
    """Let streams print plain signs for those that their encoding lacks."""
    for stream in streams:
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=_HANDLER)
