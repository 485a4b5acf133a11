"""The question that the builder answers for a trainee: which moves, in which sessions of a block of weeks,
for how many sets. Weeks of a block are alike, so a *frame* stands for its sessions on one day of the week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from leanmark.cycle.weights import LEAST_MOVES

BALLISTIC: Final = 0
MAIN: Final = 1
STRETCHES: Final = 2
"""Parts of a session, in their order."""
MOBILITY: Final = "mobility"
Sets = Mapping[tuple[int, int], int]
"""Frame and option by number to sets; what is not named is not done."""


@dataclass(frozen=True)
class Frame:
    """Sessions that are planned as one. sessions: their numbers in the cycle; seconds: for sets, rests and
    strap changes; tired: no ballistic reps here."""

    sessions: tuple[int, ...]
    seconds: int


@dataclass(frozen=True)
class Option:
    """One move as an option. setting: of the strap, empty where none is used; halves: half sets that a set
    counts by muscle group; like: 1 liked, -1 disliked; quick: it holds ballistic reps; least, most: sets.
    set_s: seconds of one set with its rest, by frame; setup_s: once, to get there and back; misfit: per cent
    by which the load or the reps miss what the frame wants, by frame; None where it cannot be dosed there at
    all. barred: what the coach said that keeps it out, empty where it is open."""

    move: str
    family: str
    pattern: str
    setting: str
    halves: Mapping[str, int]
    set_s: tuple[int, ...]
    misfit: tuple[int | None, ...]
    least: int
    most: int
    setup_s: int = 0
    like: int = 0
    grips: bool = False
    one_sided: bool = False
    quick: bool = False
    barred: tuple[str, ...] = ()

    @property
    def hangs(self) -> tuple[str, int]:
        """The strap's setting and the part of the session it is needed in: 0 ballistic work, 1 all else, 2
        stretches. Parts keep their order, so that one setting may have to be hung once in each."""
        part = STRETCHES if self.pattern == MOBILITY else BALLISTIC if self.quick else MAIN
        return self.setting, part


@dataclass(frozen=True)
class Block:
    """All of one block.

    weeks: the frames of each kind of week, and how many such weeks there are. close: pairs of frames too near
    in time for a family to be trained in both, by family. bands: least and most weekly half sets by muscle
    group. shares: wanted per cent of the week's sets by pattern. must: options that have to be in; kept: sets
    fixed by hand; dropped: frames and options ruled out by hand. before: what the plan held before the edit,
    None where there was none. change_s: seconds of a strap change. least_moves: in a
    session.
    """

    frames: tuple[Frame, ...]
    options: tuple[Option, ...]
    weeks: tuple[tuple[tuple[int, ...], int], ...]
    close: Mapping[str, frozenset[tuple[int, int]]]
    bands: Mapping[str, tuple[int, int]]
    shares: Mapping[str, int]
    change_s: int
    least_moves: int = LEAST_MOVES
    must: frozenset[int] = frozenset()
    kept: Sets = field(default_factory=dict)
    dropped: frozenset[tuple[int, int]] = frozenset()
    before: Sets | None = None

    def places(self) -> list[tuple[int, int]]:
        """Frames and options that can go together, whatever the coach said of the option."""
        return [
            (frame, number)
            for frame in range(len(self.frames))
            for number, option in enumerate(self.options)
            if option.misfit[frame] is not None and (frame, number) not in self.dropped
        ]
