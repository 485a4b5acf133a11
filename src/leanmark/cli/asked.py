"""From what was asked on the command line to a stand: one person, one rig, one rung."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from leanmark.body.added_mass import AddedMass
from leanmark.body.build import Build
from leanmark.cli.options import given, stated_sex, unit_system
from leanmark.errors import FieldError
from leanmark.mechanics.task import PushUse
from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.library import find_rung, load_move, move_names, unreadable_moves
from leanmark.moves.people import People, people_of
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import Stand, stand
from leanmark.rig.floors import DEFAULT_FLOOR, floor
from leanmark.rig.rig import STRAP_MODES, Rig, StrapMode, standard_rig
from leanmark.rig.settings import longest_that_hangs_clear_m
from leanmark.squad.read import read_squad
from leanmark.squad.squad import Squad, Trainee, check_moves
from leanmark.squad.text import nearest, same_name_key
from leanmark.units import UnitSystem, show_length, show_mass

ANCHOR_M = 2.4
"""Anchor height where none is given [m]: a door frame's or a low beam's; own figure."""
LISTED_NAMES = 12
"""Trainees that a message lists; own figure."""


@dataclass(frozen=True)
class Asked:
    """What was asked, before it is known: texts as typed."""

    move: str
    rung: str | None
    squad: Path | None
    trainee: str | None
    stature: str | None
    mass: str | None
    sex: str | None
    anchor: str | None
    setting: str | None
    strap: str | None
    floor: str | None
    straps: str | None = None
    added: tuple[AddedMass, ...] = ()
    pushes: tuple[PushUse, ...] = ()

    @cached_property
    def _squad_as_read(self) -> Squad | None:
        return read_checked(self.squad) if self.squad else None

    def unit_system(self, units: str | None) -> UnitSystem:
        """The units asked for, else the squad file's, else metric. Raises FieldError for another word."""
        if units is None:
            return self._squad_as_read.units if self._squad_as_read else "metric"
        return unit_system(units)

    def standing(self, *, as_calibrated: bool = True) -> Stand:
        """The stand asked for, with what the squad file knows from scale readings unless that is not wanted.

        Raises FieldError, or the squad file's own error, for what cannot be used.
        """
        move = load_move(self.move)
        rung = find_rung(move, self.rung) if self.rung else middle_rung(move)
        squad = self._squad_as_read
        if self.trainee and squad is None:
            raise FieldError(
                "--trainee", self.trainee, "a name of a squad file", "give the file with --squad"
            )
        known = find_trainee(squad, self.trainee).known if squad and as_calibrated else None
        people = people_of([self._build(squad)], [known])
        strap_m = given("--strap", self.strap)
        return stand(move, rung, self._rig(squad), people, strap_m, self.setting, self.added, self.pushes)

    def people_and_rig(self) -> tuple[People, Rig, str]:
        """The person asked for, or, where neither a squad nor a size is given, the woman and the man of the
        50th percentile; the rig; and who and where in words."""
        squad = self._squad_as_read
        rig = self._rig(squad)
        if squad is None and self.stature is None and self.mass is None:
            people, who = typical_people(), "the 50th-percentile woman / man"
        else:
            trainee = find_trainee(squad, self.trainee) if squad else None
            people = people_of([self._build(squad)], [trainee.known if trainee else None])
            who = trainee.name if trainee else "this person"
        sizes = " / ".join(_size(build, self.unit_system(None)) for build in people.builds)
        height = show_length(rig.anchor_height_m, self.unit_system(None))
        return people, rig, f"Numbers are for {who} ({sizes}), anchor at {height}, {rig.floor_name}."

    def _build(self, squad: Squad | None) -> Build:
        stature_m, mass_kg = given("--stature", self.stature), given("--mass", self.mass)
        sex = stated_sex(self.sex)
        if squad:
            base = find_trainee(squad, self.trainee).build
            return replace(
                base,
                stature_m=stature_m or base.stature_m,
                mass_kg=mass_kg or base.mass_kg,
                sex=sex or base.sex,
            )
        if stature_m is None or mass_kg is None:
            missing = "--stature" if stature_m is None else "--mass"
            raise FieldError(missing, None, "a stature and a mass", "give both, or a file with --squad")
        return Build(mass_kg=mass_kg, stature_m=stature_m, sex=sex)

    def _rig(self, squad: Squad | None) -> Rig:
        anchor_m = given("--anchor", self.anchor)
        if squad:
            rig = under_anchor(squad.rig, anchor_m) if anchor_m else squad.rig
        else:
            rig = standard_rig(anchor_m or ANCHOR_M, floor_name=self.floor or DEFAULT_FLOOR)
        if self.floor:
            rig = replace(rig, floor_name=self.floor, floor_friction=floor(self.floor).friction)
        return replace(rig, strap_mode=strap_mode(self.straps)) if self.straps else rig


def _size(build: Build, units: UnitSystem) -> str:
    return f"{show_length(build.stature_m, units)}, {show_mass(build.mass_kg, units)}"


def under_anchor(rig: Rig, anchor_height_m: float) -> Rig:
    """The same straps under an anchor of another height: settings that would lie on the floor are left
    out, and the default ones of that height are added."""
    offset_m = max(rig.handle_offset_m, rig.cradle_offset_m)
    longest_m = min(rig.strap_longest_m, longest_that_hangs_clear_m(anchor_height_m, offset_m))
    kept_m = {name: length_m for name, length_m in rig.settings_m.items() if length_m <= longest_m}
    there = standard_rig(
        anchor_height_m,
        strap_shortest_m=rig.strap_shortest_m,
        strap_longest_m=longest_m,
        settings_m=kept_m,
        handle_offset_m=rig.handle_offset_m,
        cradle_offset_m=rig.cradle_offset_m,
    )
    return replace(
        rig, anchor_height_m=anchor_height_m, strap_longest_m=longest_m, settings_m=there.settings_m
    )


def strap_mode(word: str) -> StrapMode:
    """The kit's strap mode. Raises FieldError for another word."""
    for mode in STRAP_MODES:
        if word == mode:
            return mode
    raise FieldError("--straps", word, " or ".join(STRAP_MODES), "choose one of the two")


def middle_rung(move: Move) -> Rung:
    """The rung shown where none is named: the middle of the ladder."""
    return move.rungs[(len(move.rungs) - 1) // 2]


def read_checked(path: Path) -> Squad:
    """A squad file whose moves are in the library. An own move that cannot be read is refused only where it
    is needed."""
    squad = read_squad(path)
    check_moves(squad, (*move_names(), *unreadable_moves()))
    return squad


def find_trainee(squad: Squad, name: str | None) -> Trainee:
    """A trainee by name, or the first. Raises FieldError for a name that the file lacks."""
    if name is None:
        return squad.trainees[0]
    for trainee in squad.trainees:
        if same_name_key(trainee.name) == same_name_key(name):
            return trainee
    names = [trainee.name for trainee in squad.trainees]
    more = f" and {len(names) - LISTED_NAMES} more" if len(names) > LISTED_NAMES else ""
    meant = nearest(name, names)
    remedy = f"did you mean '{meant}'?" if meant else "write the name as in the squad file"
    raise FieldError("--trainee", name, ", ".join(names[:LISTED_NAMES]) + more, remedy)
