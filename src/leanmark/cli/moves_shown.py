"""One move as text, within 80 columns, and as data."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from msgspec import to_builtins

from leanmark.body.build import Build
from leanmark.cli.printed import named_rows, table
from leanmark.moves import of_rung
from leanmark.moves.ladder.finer import FinerSteps
from leanmark.moves.ladder.panel import percentile_words, words_of
from leanmark.moves.ladder.steps import OTHER_STEPS
from leanmark.moves.ladder.table import RungLine
from leanmark.moves.people import People
from leanmark.moves.schema import Fault, Move
from leanmark.units import UnitSystem, show_length, show_mass

WIDTH: Final = 80
"""Columns within which everything is broken; a terminal's own."""
_LABEL: Final = 11
_NAME: Final = 22
_NONE: Final = "—"
_HELD: Final = "\u00a0"


@dataclass(frozen=True)
class Shown:
    """A move for some people under an anchor, with its ladder worked out."""

    move: Move
    people: People
    anchor_m: float
    lines: Sequence[RungLine]
    finer: Mapping[int, Sequence[FinerSteps]]
    system: UnitSystem

    def data(self) -> dict[str, Any]:
        """The move file's entries, for whom the ladder is, and the ladder."""
        people = [{"stature_m": b.stature_m, "mass_kg": b.mass_kg, "sex": b.sex} for b in self.people.builds]
        ladder = [
            to_builtins(line) | {"finer": to_builtins(self.finer.get(number, []))}
            for number, line in enumerate(self.lines)
        ]
        move: dict[str, Any] = to_builtins(self.move)
        return move | {"anchor_height_m": self.anchor_m, "people": people, "ladder": ladder}

    def text(self) -> str:
        """The whole move, rungs in short."""
        rungs = [self._short(number) for number in range(len(self.lines))]
        text = "\n".join([*self._head(), "", *self._ladder(), "", *(line for part in rungs for line in part)])
        return text.rstrip()

    def rung_text(self, number: int) -> str:
        """One rung, by its number from 0, with everything that is said on it."""
        move, rung = self.move, self.move.rungs[number]
        lines = [f"{move.move} / {rung.rung}, rung {number + 1} of {len(self.lines)}", *_wrapped(rung.note)]
        lines += ["", *_entry("purpose", move.purpose), *_entry("set-up", move.setup)]
        lines += [*self._facts(number), *_entry("breathing", move.breathing)]
        lines += ["", *_list("say", of_rung.cues_of(move, rung)), *_faults(of_rung.faults_of(move, rung))]
        lines += [
            *_list("caution", of_rung.cautions_of(move, rung)),
            *_list("not for", move.not_for),
            *_list("stop for", move.stop),
            "",
            *self._whom("Demand"),
        ]
        return "\n".join(lines)

    def _head(self) -> list[str]:
        move = self.move
        stages = list(dict.fromkeys(stage for rung in move.rungs for stage in of_rung.stages_of(move, rung)))
        lines = [f"{move.move}: {move.family}, {move.plane} plane", *_wrapped(move.purpose), ""]
        lines += [*_works("works", move.works), *_works("helps", move.helps)]
        lines += [
            *_entry("kit", f"{move.kit}; faces {move.faces}" if move.kit != "none" else "none"),
            *_entry("set-up", move.setup),
            *_entry("lever", move.lever),
            *_entry("tempo", _tempo_words(move)),
            *_entry("stages", ", ".join(stages)),
            *_entry("breathing", move.breathing),
            *_list("say", move.cues),
            *_faults(move.faults),
            *_entry("caution", move.caution),
        ]
        return [*lines, *_list("not for", move.not_for), *_list("stop for", move.stop)]

    def _whom(self, what: str) -> list[str]:
        words = [self._person(build) for build in self.people.builds]
        where = f"under an anchor at {show_length(self.anchor_m, self.system)}"
        return _wrapped(f"{what} for {' / '.join(words)}, {where}")

    def _person(self, build: Build) -> str:
        size = f"{show_length(build.stature_m, self.system)}, {show_mass(build.mass_kg, self.system)}"
        percentile = percentile_words(build)
        return f"{percentile} ({size})" if percentile else size

    def _ladder(self) -> list[str]:
        head = ("", "rung", "demand", "step", "straps", "floor", "mark")
        rows = [row for number in range(len(self.lines)) for row in self._rows(number)]
        note = (
            "demand: largest joint moment over the rep as a share of reference strength; step: its rise from "
            "the rung before; straps, floor: largest force as a share of body weight"
        )
        return [*self._whom("Ladder"), table(head, rows), *_wrapped(note)]

    def _rows(self, number: int) -> list[tuple[str, ...]]:
        line = self.lines[number]
        straps = self._each(line, line.strap_share) if line.strap else _NONE
        cells = (
            self._each(line, line.demand),
            self._step(number),
            straps,
            self._each(line, line.floor_share),
            show_length(line.mark_m, self.system),
        )
        return named_rows(line.rung, _NAME, *cells, before=(str(number + 1),))

    def _step(self, number: int) -> str:
        """Rise of demand, a dash for whom this rung or the one before cannot be held."""
        line = self.lines[number]
        if not line.step_percent:
            return _NONE
        before = self.lines[number - 1].reason
        return _percents(line.step_percent, "+", [a or b for a, b in zip(line.reason, before, strict=True)])

    def _each(self, line: RungLine, shares: Sequence[float]) -> str:
        return _percents([100.0 * share for share in shares], "", line.reason)

    def _short(self, number: int) -> list[str]:
        rung = self.move.rungs[number]
        lines = [f"{number + 1} {rung.rung}", *_wrapped(rung.note, "  "), *self._facts(number)]
        own = [
            *_list("say", rung.cues or ()),
            *_faults(rung.faults or ()),
            *_entry("caution", rung.caution or ""),
        ]
        return [*lines, *own, ""]

    def _facts(self, number: int) -> list[str]:
        """What the engine and the data say of a rung."""
        move, rung, line = self.move, self.move.rungs[number], self.lines[number]
        kind = "" if line.harder_by == "load" else OTHER_STEPS[line.harder_by]
        hardest = list(
            dict.fromkeys(
                f"{action} ({phase})" for action, phase in zip(line.action, line.phase, strict=True)
            )
        )
        lines = [
            *_entry("base", line.base),
            *_entry("lever", rung.lever or ""),
            *_entry("mark", self._mark(line)),
            *_entry("demand", f"{self._each(line, line.demand)}, {' / '.join(hardest)}"),
            *_entry("harder by", kind),
            *_entry(
                "tempo", "held" if of_rung.is_hold(move, rung) else _tempo(of_rung.tempo_s_of(move, rung))
            ),
            *_entry("stages", ", ".join(of_rung.stages_of(move, rung))),
            *_entry("asks for", ", ".join(line.asks)),
            *_entry("cannot", self._reasons(line)),
        ]
        lines += [part for gate in line.opens for part in _entry("gate", gate)]
        for build, steps in zip(self.people.builds, self.finer.get(number, []), strict=False):
            lines += _entry("finer", self._finer(words_of(build), steps))
        return lines

    def _mark(self, line: RungLine) -> str:
        low, high, own = (show_length(m, self.system) for m in (line.low_m, line.high_m, line.mark_m))
        span = f", {low} to {high}" if line.high_m > line.low_m else ""
        strap = f"; strap {line.strap}" if line.strap else ""
        return f"{line.mark_of} at {own}{span}{strap}"

    def _reasons(self, line: RungLine) -> str:
        told = zip(self.people.builds, line.reason, strict=True)
        return "; ".join(f"{words_of(build)}: {reason}" for build, reason in told if reason)

    def _finer(self, whom: str, steps: FinerSteps) -> str:
        """The finer steps of one person in words; empty where there are none."""
        who = f"{whom}: " if len(self.people) > 1 else ""
        if not steps.steps:
            return ""
        marks = ", ".join(
            f"{show_length(step.mark_m, self.system)} ({100.0 * step.demand:.0f} %)" for step in steps.steps
        )
        rise = f"{100.0 * (steps.ratio - 1.0):.0f} % each"
        towards = f"towards '{steps.harder}' at {100.0 * steps.to_demand:.0f} %"
        why = f", no further: {steps.why}" if steps.why else ""
        return f"{who}{marks}, {rise}, {towards}{why}"


def _tempo_words(move: Move) -> str:
    if all(of_rung.is_hold(move, rung) for rung in move.rungs):
        return "held, not repeated"
    return f"{_tempo(move.tempo_s)}, seconds down-pause-up-pause"


def _tempo(tempo_s: Sequence[float]) -> str:
    return "-".join(f"{part:g}" for part in tempo_s)


def _percents(values: Sequence[float], sign: str, reasons: Sequence[str]) -> str:
    """``58/43 %``, a dash for whom there is a reason against it."""
    shown = [
        _NONE if reason else f"{value:{sign}.0f}".replace("-", "−")
        for value, reason in zip(values, reasons, strict=True)
    ]
    return _NONE if {*shown} == {_NONE} else f"{'/'.join(shown)} %"


def _wrapped(text: str, first: str = "", hanging: str | None = None) -> list[str]:
    """Lines of the text; a number keeps its unit beside it."""
    held = re.sub(r"(?<=\d) (?=%|[a-z]{1,2}\b)", _HELD, text)
    lines = textwrap.wrap(
        held, WIDTH, initial_indent=first, subsequent_indent=hanging or first, break_on_hyphens=False
    )
    return [line.replace(_HELD, " ") for line in lines]


def _entry(label: str, text: str) -> list[str]:
    """A label and its text, wrapped beside it; nothing for no text."""
    if not text:
        return []
    head, hanging = f"  {label}".ljust(_LABEL + 1), " " * (_LABEL + 1)
    return _wrapped(text, head, hanging)


def _works(label: str, works: dict[str, tuple[str, ...]]) -> list[str]:
    return [
        line
        for k, (action, muscles) in enumerate(works.items())
        for line in _entry(label if k == 0 else "", f"{action}: {', '.join(muscles)}")
    ]


def _list(label: str, texts: Sequence[str]) -> list[str]:
    return [line for k, text in enumerate(texts) for line in _entry(label if k == 0 else "", text)]


def _faults(faults: Sequence[Fault]) -> list[str]:
    return _list("faults", [f"{one.fault} → {one.remedy}" for one in faults])
