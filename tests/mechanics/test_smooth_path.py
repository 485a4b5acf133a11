"""Whether a rep's path bends, told from half its nodes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from leanmark.body.build import Build
from leanmark.mechanics.dynamics import Tempo, moving_loads
from leanmark.mechanics.position import Rep
from leanmark.mechanics.rotation import about
from leanmark.moves.library import find_rung, load_move
from leanmark.moves.people import people_of
from leanmark.moves.stand import stand
from leanmark.rig.rig import standard_rig

TEMPO = Tempo(2.0, 1.0, 1.0, 0.0)


def row_rep(nodes: int) -> Rep:
    move = load_move("row")
    people = people_of([Build(mass_kg=75.0, stature_m=1.78, sex="male")])
    standing = stand(move, find_rung(move, "leaning"), standard_rig(2.4), people)
    return standing.rep(np.array([-0.6]), np.zeros(1, dtype=np.intp), nodes)[0]


def test_a_row_is_smooth() -> None:
    assert moving_loads(row_rep(13), TEMPO).smooth.all()


def test_a_joint_that_stops_midway_bends_the_path() -> None:
    rep = row_rep(13)
    pose = rep.solution.pose
    stopped = np.minimum(rep.nodes, 0.43) * 0.5
    rotation = pose.rotation.copy()
    rotation[:, 1] = rotation[:, 1] @ about("y", stopped)
    bent = replace(rep, solution=replace(rep.solution, pose=replace(pose, rotation=rotation)))
    assert not moving_loads(bent, TEMPO).smooth.any()


def test_an_even_number_of_nodes_has_no_half_to_compare_with() -> None:
    assert moving_loads(row_rep(12), TEMPO).smooth.all()
