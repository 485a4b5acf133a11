"""What a check found wrong with a move, in words that its author can act on."""

from __future__ import annotations

from msgspec import Struct


class Finding(Struct, frozen=True):
    """One thing that does not hold: the move, the rung (empty where it is the whole move), the name of the
    check, what is wrong, and what to do about it."""

    move: str
    rung: str
    check: str
    wrong: str
    remedy: str

    def words(self) -> str:
        """The finding as one line."""
        where = f"{self.move} / {self.rung}" if self.rung else self.move
        return f"{where}: {self.wrong}; {self.remedy}"
