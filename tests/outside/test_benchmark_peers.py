"""The benchmarks' peers give the engine's answers: a ratio against a peer that does other work means nothing.

Nothing is timed here. Grounds of the tolerances stand in the benchmarks beside them.
"""

from __future__ import annotations

import subprocess

import mujoco
import numpy as np
import pytest
from benchmarks import commands, given_poses, memory, whole_solves
from benchmarks.batches import batch
from benchmarks.settling import model_of, settled
from tests.outside.mujoco_model import person_spec

from leanmark.mechanics.reasons import FINE


def test_mujoco_comes_to_rest_with_a_strap_force_that_the_engine_allows() -> None:
    rep = batch(1).solved()
    whole_solves.check(rep, 0, settled(model_of(rep, 0), rep, 0))


def test_a_wrong_strap_force_of_the_peer_is_seen() -> None:
    rep = batch(1).solved()
    heavier = rep.bodies.mass_kg * 1.5
    rest = settled(model_of(rep, 0), rep, 0)
    rep.bodies.mass_kg[:], rep.bodies.body_mass_kg[:] = heavier, heavier.sum(axis=1)
    with pytest.raises(AssertionError, match="position 0"):
        whole_solves.check(rep, 0, rest)


def test_mujocos_loop_finds_the_engines_joint_moments() -> None:
    rep = batch(3, people=1).solved()
    loads = rep.static_loads()
    data = mujoco.MjData(person_spec(rep.bodies, 0).compile())
    given_poses.check(rep, loads, data, given_poses.given(rep, loads, data))


def test_every_position_of_a_batch_can_be_taken_and_is_the_same_every_time() -> None:
    positions = batch(200)
    assert (whole_solves.solve(positions).reason == FINE).all()
    assert np.array_equal(memory.answers(positions), memory.answers(batch(200)))


def test_the_timed_command_runs(tmp_path: pytest.TempPathFactory) -> None:
    found = subprocess.run(
        commands.commands(str(tmp_path))["leanmark load"], capture_output=True, check=False, text=True
    )
    assert found.returncode == 0, found.stderr
    assert "%" in found.stdout
