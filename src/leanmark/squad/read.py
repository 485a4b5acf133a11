"""Reads a squad file into a Squad, or says everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Final

import msgspec
from msgspec import UNSET, UnsetType

from leanmark.body.build import Build
from leanmark.errors import FieldError
from leanmark.moves.known import Known
from leanmark.rig.rig import Rig, standard_rig
from leanmark.squad.contradictions import check_cycle, check_trainee
from leanmark.squad.cycle_table import CycleTable
from leanmark.squad.lines import LineIndex
from leanmark.squad.paths import ValuePath, field_name
from leanmark.squad.person_table import CalibrationTable
from leanmark.squad.problems import SquadFileError, show
from leanmark.squad.reader import Reader
from leanmark.squad.repeats import check_repeats
from leanmark.squad.resolve import cycle_from, wishes_from
from leanmark.squad.rig_table import RigTable
from leanmark.squad.source import file_label, parse, read_bytes
from leanmark.squad.squad import Origin, Squad, Trainee
from leanmark.squad.tables import CardsTable, SquadTable
from leanmark.squad.trainee_table import TraineeTable
from leanmark.squad.wishes import DEFAULT_KIT
from leanmark.units import si_unit_of

_FILE_WORDS: Final[dict[str, str]] = {
    "strap_mode": "straps",
    "anchor_count": "anchors",
    "floor_name": "floor",
}
"""Fields of the code that the file spells otherwise."""


def read_squad(path: Path) -> Squad:
    """Read the squad file at ``path``.

    Raises:
        SquadFileError: the file cannot be read or used; it lists every problem, one line each.
    """
    return squad_from_bytes(read_bytes(path), str(path))


def squad_from_bytes(data: bytes, file: str = "squad.toml") -> Squad:
    """Read a squad from the bytes of a TOML file; ``file`` is what the problems call it.

    Raises:
        SquadFileError: the bytes cannot be used; it lists every problem, one line each.
    """
    label = file_label(file)
    text, values = parse(data, label)
    lines = LineIndex(text)
    assembly = _Assembly()
    reader = Reader(label, values, lines, assembly.take)
    assembly.reader = reader
    reader.read(SquadTable)
    check_repeats(reader)
    assembly.check_wishes()
    if reader.problems:
        raise SquadFileError(reader.problems)
    return assembly.squad(Origin(label, lines))


class _Assembly:
    """Collects the tables that were read and turns them into a rig and trainees."""

    reader: Reader
    _rig: Rig
    _top: SquadTable

    def __init__(self) -> None:
        self._tables: dict[ValuePath, TraineeTable] = {}
        self._trainees: list[Trainee] = []
        self._kit = DEFAULT_KIT
        self._cycle: CycleTable | None = None

    def take(self, table: msgspec.Struct, path: ValuePath) -> None:
        try:
            match table:
                case RigTable():
                    self._kit = DEFAULT_KIT if isinstance(table.kit, UnsetType) else frozenset(table.kit)
                    self._rig = _rig_from(table)
                case TraineeTable():
                    self._tables[path] = table
                    self._trainees.append(_trainee_from(table))
                case CycleTable():
                    self._cycle = table
                case SquadTable():
                    self._top = table
        except FieldError as error:
            self._report(path, error)

    def check_wishes(self) -> None:
        """Report wishes that clash with one another."""
        if self._cycle:
            check_cycle(self.reader, self._cycle)
        for path, table in self._tables.items():
            check_trainee(self.reader, path, table, self._cycle)

    def squad(self, origin: Origin) -> Squad:
        cards: CardsTable = self._top.cards
        loads = cards.loads_percent
        return Squad(
            name=self._top.squad,
            units=self._top.units,
            rig=self._rig,
            wanted_load_fractions=() if isinstance(loads, UnsetType) else tuple(load / 100 for load in loads),
            moves=() if isinstance(cards.moves, UnsetType) else tuple(cards.moves),
            trainees=tuple(self._with_wishes()),
            notes=self._top.notes,
            kit=self._kit,
            cycle=cycle_from(self._cycle, self._top.squad) if self._cycle else None,
            origin=origin,
        )

    def _with_wishes(self) -> Iterator[Trainee]:
        for table, trainee in zip(self._tables.values(), self._trainees, strict=True):
            yield replace(trainee, wishes=wishes_from(table, self._cycle))

    def _report(self, path: ValuePath, error: FieldError) -> None:
        """A problem that only the whole table shows, such as a strap longer than the anchor is high."""
        first, *rest = error.field.split(".", 1)
        si_path = (*path, _FILE_WORDS.get(first, first))
        written = (*self.reader.written.get(si_path, si_path), *rest)
        raw = self.reader.value_at(written)
        unit = si_unit_of(first)
        given = show(error.value if raw is None else raw)
        if raw is None:
            given += " (the default)"
        elif unit and raw != error.value:
            given += f" ({show(error.value)} {unit.symbol})"
        problem = f"{field_name(written)} = {given} is not allowed (allowed: {error.allowed})"
        self.reader.report(written, problem, error.remedy)


def _rig_from(table: RigTable) -> Rig:
    return standard_rig(
        table.anchor_height_m,
        name=table.name,
        strap_mode=table.straps,
        loop_friction=table.loop_friction,
        strap_shortest_m=_or_none(table.strap_shortest_m),
        strap_longest_m=_or_none(table.strap_longest_m),
        settings_m=table.settings_m,
        handle_offset_m=table.handle_offset_m,
        cradle_offset_m=table.cradle_offset_m,
        floor_name=table.floor,
        floor_friction=_or_none(table.floor_friction),
        rated_load_n=_or_none(table.rated_load_n),
        anchor_count=table.anchors,
    )


def _trainee_from(table: TraineeTable) -> Trainee:
    lengths_m = {
        name: length
        for name, length in msgspec.structs.asdict(table.lengths_m).items()
        if length is not UNSET
    }
    build = Build(
        mass_kg=table.mass_kg,
        stature_m=table.stature_m,
        sex=None if isinstance(table.sex, UnsetType) else table.sex,
        age_years=_or_none(table.age_years),
        lengths_m=lengths_m,
    )
    return Trainee(table.name, build, _known_from(table.calibration))


def _known_from(table: CalibrationTable | UnsetType) -> Known | None:
    return None if isinstance(table, UnsetType) else Known(**msgspec.structs.asdict(table))


def _or_none(value: float | UnsetType) -> float | None:
    return None if isinstance(value, UnsetType) else value
