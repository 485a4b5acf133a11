"""Strap and floor forces that MuJoCo finds by itself, against the engine's.

Reference: MuJoCo (Todorov, Erez and Tassa 2012, MuJoCo: a physics engine for model-based control, IROS),
PyPI ``mujoco``. The body is held stiff in the engine's pose and let go onto cords and dry floor
(``settled.py``); MuJoCo's forces at rest are compared.

What is determinate. A rigid body has six equations. Two straps and whole soles leave many more unknown forces
than that, and the engine then chooses by effort, MuJoCo by the give of its constraints: both are right, and
no single number can be compared. So each position is laid on fewer bearing points here, the engine solving
the same reduced position. Whatever still is not determinate lies in the null space of the six balance
equations: two points can squeeze the floor between them, and two straps and two bearing points that stand
alike left and right can trade load from side to side. Every number that the null space leaves alone is
determinate, and all of those are compared. Total strap tension and total upright floor force are always among
them: a position where they are not (one leg bent, one straight) is passed over. In the side plank, whose
straps end at different heights, both end at the middle between the feet instead.

Grounds of the tolerances:
  AGREE 1e-3 of body weight: the project's bar for settled forces. MuJoCo's constraints give way by some
    1e-6 m under load, which moves levers of a metre by a millionth.
  INVARIANT 1e-6: poses are met to 1e-6 m, so that two points meant to be level, or abreast, are so to that;
    a reading that the null space moves by less than that is determinate a thousand times finer than AGREE.
  RANGE 1e-3 of body weight: how finely the engine's range is computed (below 1e-4) and MuJoCo's give.
  STILL_M 1e-4: on the edge of its friction cone a contact creeps by some 1e-5 m while it settles;
    a body that tips or slips goes centimetres.
  SPEED 1e-5 m/s: what creep leaves; the damping of MuJoCo's constraints at that speed is below 1e-5 of body
    weight.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from tests.outside.panel import POINT_NAMES, solved
from tests.outside.settled import settle

from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.distribution import HOLDS
from leanmark.mechanics.interval import raised
from leanmark.mechanics.loads import Balance, Loads, balance_of, loads_of, tension_limits
from leanmark.mechanics.position import Rep
from leanmark.mechanics.reasons import FINE
from leanmark.mechanics.supports import StrapHold, Supports
from leanmark.moves.library import load_move, move_names

AGREE = 1e-3
INVARIANT = 1e-6
RANGE = 1e-3
STILL_M = 1e-4
SPEED = 1e-5
PHASES = 3
GRIP = 1.0  # friction of the reduced positions, so that grip decides nothing
NAMED = {"total strap", "total floor upright"}
WELL_INSIDE = 0.01  # share of body weight on every reduced contact and strap, so that none is about to lift


@dataclass(frozen=True)
class Reduced:
    """A move laid on two bearing points: those of its contacts whose names end so. one_strap: both straps end
    in one, at the middle of what they hold."""

    move: str
    bearing: tuple[str, ...]
    one_strap: bool = False


CLASSES = {
    "hands facing the anchor": Reduced("row", ("_heel",)),
    "hands facing away": Reduced("chest press", ("_ball_medial",)),
    "heels in cradles, on the back, knees bent": Reduced("hip press", ("_shoulder_back",)),
    "heels in cradles, on the back": Reduced("hamstring curl", ("_shoulder_back",)),
    "insteps in cradles, face down": Reduced("front plank", ("_elbow_tip",)),
    "one foot in a cradle, standing": Reduced("rear-foot split squat", ("_ball_medial", "_ball_lateral")),
    "side plank": Reduced("side plank", ("_elbow_tip", "_forearm_distal"), one_strap=True),
}


def reduced(rep: Rep, case: Reduced) -> Supports | None:
    """The rung's supports with only the case's bearing points, or None where these are not two or no strap
    holds."""
    contacts = [
        replace(contact, friction=GRIP)
        for contact in rep.supports.contacts
        if POINT_NAMES[contact.point].endswith(case.bearing)
    ]
    straps = rep.supports.straps
    if not straps:
        return None  # a rung on the floor
    if case.one_strap:
        points = tuple(point for strap in straps for point in strap.points)
        straps = (StrapHold(points, straps[0].anchor_m, "both"),)
    return replace(rep.supports, contacts=tuple(contacts), straps=straps) if len(contacts) == 2 else None


def readings(supports: Supports) -> dict[str, Floats]:
    """What may be read off a position, each as its coefficients on the unknown forces (G,)."""
    first, eye = supports.tension_count, np.eye(supports.unknown_count)
    out = {"total strap": eye[:first].sum(axis=0)}
    part = 0
    for strap in supports.straps:
        out[f"{strap.side} strap"] = eye[part : part + len(strap.points)].sum(axis=0)
        part += len(strap.points)
    for axis, name in enumerate(("forward", "leftward", "upright")):
        out[f"total floor {name}"] = eye[first + axis :: 3].sum(axis=0)
        for number in range(len(supports.contacts)):
            out[f"contact {number} {name}"] = eye[first + 3 * number + axis]
    return out


def determinate(balance: Balance, supports: Supports, row: int) -> list[str]:
    """Names of the readings that the balance equations alone decide, with a smooth loop's equal tensions."""
    equations = balance.programme.balance[row]
    if supports.loop_ratio == 1.0:
        named = readings(supports)
        equations = np.vstack([equations, named["left strap"] - named["right strap"]])
    _, sizes, basis = np.linalg.svd(equations)
    null = basis[int((sizes > INVARIANT).sum()) :]
    return [
        name
        for name, reading in readings(supports).items()
        if np.abs(null @ reading).max(initial=0.0) < INVARIANT
    ]


def values(strap_n: Floats, contact_n: Floats, supports: Supports) -> dict[str, float]:
    """The readings of strap tensions (S,) and contact forces (C, 3)."""
    out = {"total strap": float(strap_n.sum())}
    out |= {f"{strap.side} strap": float(n) for strap, n in zip(supports.straps, strap_n, strict=True)}
    for axis, name in enumerate(("forward", "leftward", "upright")):
        out[f"total floor {name}"] = float(contact_n[:, axis].sum())
        out |= {f"contact {k} {name}": float(force[axis]) for k, force in enumerate(contact_n)}
    return out


def standing_rows(rep: Rep, loads: Loads) -> list[int]:
    """Rows whose pose is met and whose reduced supports all bear well."""
    bears = np.concatenate([loads.strap_tension_n, loads.contact_force_n[..., 2]], axis=1)
    well = (bears > WELL_INSIDE * loads.body_weight_n[:, None]).all(axis=1)
    return np.flatnonzero((rep.reason.reshape(-1) == FINE) & (loads.outcome == HOLDS) & well).tolist()


def gaps(rep: Rep, loads: Loads, balance: Balance, supports: Supports, row: int) -> dict[str, float]:
    """Per determinate reading, MuJoCo's settled value less the engine's [share of body weight]."""
    found = settle(rep, loads, supports, row)
    assert found.drift_m < STILL_M
    assert found.speed < SPEED
    own = values(loads.strap_tension_n[row], loads.contact_force_n[row], supports)
    other = values(found.strap_n, found.contact_n, supports)
    names = determinate(balance, supports, row)
    return {name: (other[name] - own[name]) / float(loads.body_weight_n[row]) for name in names}


def positions(case: Reduced) -> list[tuple[Rep, Supports]]:
    """The move's rungs that bear on the case's points, each laid on those alone."""
    reps = [solved(case.move, rung, PHASES) for rung in load_move(case.move).rungs]
    pairs = [(rep, reduced(rep, case)) for rep in reps]
    return [(rep, supports) for rep, supports in pairs if supports is not None]


@pytest.mark.parametrize("position", CLASSES)
def test_settled_forces_agree_where_they_are_determinate(position: str) -> None:
    case, compared = CLASSES[position], 0
    for rep, supports in positions(case):
        balance = balance_of(rep.bodies, rep.solution.pose, supports)
        loads = loads_of(balance)
        for row in standing_rows(rep, loads):
            if not set(determinate(balance, supports, row)) >= NAMED:
                continue
            gap = gaps(rep, loads, balance, supports, row)
            assert max(map(abs, gap.values())) < AGREE, f"{case.move}, row {row}: {gap}"
            compared += 1
    assert compared, f"no rung of {case.move} is determinate on points {case.bearing} alone"


def test_a_strap_through_a_smooth_loop_agrees_with_one_leg_bent() -> None:
    # One cord for both sides, no friction at the loop: equal tensions make even uneven positions determinate.
    compared, uneven_m = 0, 0.0
    for rep, independent in positions(CLASSES["heels in cradles, on the back"]):
        supports = replace(independent, loop_ratio=1.0)
        balance = balance_of(rep.bodies, rep.solution.pose, supports)
        loads = loads_of(balance)
        for row in standing_rows(rep, loads):
            gap = gaps(rep, loads, balance, supports, row)
            assert {*NAMED, "left strap", "right strap", "contact 0 upright", "contact 1 upright"} <= set(gap)
            assert max(map(abs, gap.values())) < AGREE, f"row {row}: {gap}"
            compared += 1
            uneven_m = max(uneven_m, abs(np.diff(loads.strap_end_m[row, :, 0])[0]))
    assert compared
    assert uneven_m > 0.1


def test_a_mass_centre_one_percent_of_stature_too_high_is_seen() -> None:
    rep, supports = positions(CLASSES["hands facing the anchor"])[0]
    balance = balance_of(rep.bodies, rep.solution.pose, supports)
    row = standing_rows(rep, loads_of(balance))[0]
    wrong = loads_of(balance_of(raised(rep.bodies, 0.01), rep.solution.pose, supports))
    gap = gaps(rep, wrong, balance, supports, row)
    assert abs(gap["total strap"]) > AGREE


@pytest.mark.parametrize("move_name", move_names())
def test_what_the_engine_calls_held_stays_put_within_its_range(move_name: str) -> None:
    # Whole patches, at the floor's own grip. Indeterminate, so MuJoCo's tension need not be the engine's, but
    # a position that holds must stay, and its tension lie between the engine's least and greatest.
    for rung in load_move(move_name).rungs:
        rep = solved(move_name, rung, PHASES)
        balance = rep.balance()
        loads, limits = loads_of(balance), tension_limits(balance)
        for row in np.flatnonzero(rep.reasons(loads).reshape(-1) == FINE):
            found, weight = settle(rep, loads, rep.supports, row), loads.body_weight_n[row]
            where = f"{move_name}, {rung.rung}, row {row}"
            assert found.drift_m < STILL_M, where
            low, high = limits[row] / weight
            assert low - RANGE < found.strap_n.sum() / weight < high + RANGE, where
