"""From what was asked on the command line to a stand: one person, one rig, one rung."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from leanmark.body.added_mass import AddedMass
from leanmark.body.build import Build
from leanmark.cli.options import length_m, mass_kg, stated_sex
from leanmark.errors import FieldError
from leanmark.mechanics.task import PushUse
from leanmark.moves.library import find_rung, load_move, move_names
from leanmark.moves.people import people_of
from leanmark.moves.schema import Move, Rung
from leanmark.moves.stand import Stand, stand
from leanmark.rig.floors import DEFAULT_FLOOR
from leanmark.rig.rig import STRAP_MODES, Rig, StrapMode, standard_rig
from leanmark.squad.read import read_squad
from leanmark.squad.squad import Squad, Trainee, check_moves

ANCHOR_M = 2.4
"""Anchor height where none is given [m]: a door frame's or a low beam's; own figure."""


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

    def standing(self) -> Stand:
        """The stand asked for. Raises FieldError, or the squad file's own error, for what cannot be used."""
        move = load_move(self.move)
        rung = find_rung(move, self.rung) if self.rung else middle_rung(move)
        squad = read_checked(self.squad) if self.squad else None
        build = self._build(squad)
        rig = self._rig(squad)
        strap_m = length_m("--strap", self.strap)
        people = people_of([build])
        return stand(move, rung, rig, people, strap_m, self.setting, self.added, self.pushes)

    def _build(self, squad: Squad | None) -> Build:
        base = find_trainee(squad, self.trainee).build if squad else None
        stature_m = length_m("--stature", self.stature, base.stature_m if base else None)
        mass = mass_kg("--mass", self.mass, base.mass_kg if base else None)
        if stature_m is None or mass is None:
            missing = "--stature" if stature_m is None else "--mass"
            raise FieldError(missing, "nothing", "a stature and a mass", "give both, or a --squad file")
        if base and not (self.stature or self.mass or self.sex):
            return base
        sex = stated_sex(self.sex) if self.sex else base.sex if base else None
        return Build(mass_kg=mass, stature_m=stature_m, sex=sex)

    def _rig(self, squad: Squad | None) -> Rig:
        if squad and not (self.anchor or self.floor or self.straps):
            return squad.rig
        anchor_m = length_m("--anchor", self.anchor, squad.rig.anchor_height_m if squad else ANCHOR_M)
        assert anchor_m is not None
        base = squad.rig if squad else None
        return standard_rig(
            anchor_m,
            floor_name=self.floor or (base.floor_name if base else DEFAULT_FLOOR),
            strap_mode=strap_mode(self.straps or (base.strap_mode if base else "independent")),
            rated_load_n=base.rated_load_n if base else None,
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
    """A squad file whose moves are in the library."""
    squad = read_squad(path)
    check_moves(squad, move_names())
    return squad


def find_trainee(squad: Squad, name: str | None) -> Trainee:
    """A trainee by name, or the first. Raises FieldError for a name that the file lacks."""
    if name is None:
        return squad.trainees[0]
    for trainee in squad.trainees:
        if trainee.name.lower() == name.lower():
            return trainee
    listed = ", ".join(trainee.name for trainee in squad.trainees[:20])
    raise FieldError("--trainee", name, listed, "write the name as in the squad file")
