"""From a solved rep to scenes ready to draw."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.points import POINTS
from leanmark.body.segments import PARENT, SEGMENT_COUNT, SEGMENT_INDEX, SEGMENTS
from leanmark.figures.scene import FloorForce, Scene, StrapLine, Surface
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import Placement, place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.patches import PATCHES
from leanmark.mechanics.position import Rep
from leanmark.moves.readings import floor_reports
from leanmark.moves.schema import Move
from leanmark.moves.stand import Stand
from leanmark.moves.translate import mark_of

_HAND_LENGTH: Final = 0.108  # share of stature, Drillis and Contini 1966
_BOX_MARGIN_M: Final = 0.15
_LEAST_N: Final = 1e-9
_MIDDLE: Final = {"pelvis": "lower_trunk", "lower_trunk": "upper_trunk", "upper_trunk": "head"}
_NEXT: Final = {SEGMENT_INDEX[low]: SEGMENT_INDEX[high] for low, high in _MIDDLE.items()} | {
    PARENT[child]: child
    for child in range(SEGMENT_COUNT)
    if SEGMENTS[PARENT[child]] not in (*_MIDDLE, "") and PARENT[child] >= 0
}
"""The segment whose joint ends each segment; head, hands and toes end in a point of their own."""


def scene_of(rep: Rep, loads: Loads, row: int, move: Move, mark_label: str, limits: Floats) -> Scene:
    """The scene at one row of a rep. limits: least and greatest total strap tension [N], (2,)."""
    bodies = rep.bodies.take(np.array([row]))
    placement = place(bodies, rep.solution.pose.take(np.array([row])))
    points = dict(zip(POINTS, placement.point_m(bodies, np.arange(len(POINTS)))[0], strict=True))
    return Scene(
        joint_m=placement.joint_m[0],
        rotation=placement.rotation[0],
        tip_m=_tips(placement.joint_m[0], placement.rotation[0], points, bodies.stature_m[0]),
        radius_m=bodies.radius_m[0],
        point_m=points,
        straps=_straps(rep, loads, row, limits),
        floor_forces=_forces(rep, loads, row, placement, bodies),
        surfaces=_boxes(rep, points),
        body_weight_n=float(loads.body_weight_n[row]),
        floor_mark_m=float(rep.geometry.mark_m[row]),
        mark_axis=int(rep.task.mark_across),
        mark_label=mark_label,
        stature_m=float(bodies.stature_m[0]),
        kit=move.kit,
    )


def _straps(rep: Rep, loads: Loads, row: int, limits: Floats) -> tuple[StrapLine, ...]:
    """Each strap's line, its tension and its part of the interval of all straps together."""
    tension = loads.strap_tension_n[row]
    part = tension / max(float(tension.sum()), _LEAST_N)
    low, high = np.fmin(limits[0], tension.sum()), np.fmax(limits[1], tension.sum())
    return tuple(
        StrapLine(
            np.broadcast_to(strap.anchor_m, (len(loads.outcome), 3))[row],
            loads.strap_end_m[row, k],
            strap.side,
            float(tension[k]),
            float(part[k] * low),
            float(part[k] * high),
        )
        for k, strap in enumerate(rep.supports.straps)
    )


def _forces(rep: Rep, loads: Loads, row: int, placement: Placement, bodies: Bodies) -> tuple[FloorForce, ...]:
    """Contact forces at their centres of pressure, and outside forces of known size."""
    found = [
        FloorForce(np.array(report.pressure_m), np.array(report.force_n), report.contact)
        for report in floor_reports(rep, loads, row)
    ]
    for known in rep.supports.known:
        at = placement.point_m(bodies, np.array([known.point]))[0, 0]
        force = np.broadcast_to(known.force_n, (len(loads.outcome), 3))[row]
        found.append(FloorForce(at, force, "given"))
    return tuple(found)


def _tips(joint_m: Floats, rotation: Floats, points: dict[str, Floats], stature_m: float) -> Floats:
    """Distal ends: the next joint, or the end point of head, hands and toes."""
    tips = joint_m.copy()
    for segment, beyond in _NEXT.items():
        tips[segment] = joint_m[beyond]
    tips[SEGMENT_INDEX["head"]] = points["head_top"]
    for side in ("left", "right"):
        hand = SEGMENT_INDEX[f"{side}_hand"]
        tips[hand] = joint_m[hand] - _HAND_LENGTH * stature_m * rotation[hand][:, 2]
        tips[SEGMENT_INDEX[f"{side}_toes"]] = points[f"{side}_toe_tip"]
    return tips


def _boxes(rep: Rep, points: dict[str, Floats]) -> tuple[Surface, ...]:
    """A box under all contacts of one height above the floor."""
    boxes = []
    for height_m in sorted({use.height_m for use in rep.task.patches if use.height_m > 0.0}):
        on_it = [use for use in rep.task.patches if use.height_m == height_m]
        names = [f"{use.side}_{name}".strip("_") for use in on_it for name in PATCHES[use.kind].bearing]
        at = np.array([points[name] for name in names])
        low, high = at.min(axis=0) - _BOX_MARGIN_M, at.max(axis=0) + _BOX_MARGIN_M
        boxes.append(Surface(float(low[0]), float(high[0]), float(low[1]), float(high[1]), height_m, "box"))
    return tuple(boxes)


def rep_scenes(standing: Stand, rep: Rep, row: int, nodes: Sequence[int] | None = None) -> tuple[Scene, ...]:
    """Start and end of one person's rep, the end last, or the scenes at ``nodes``; a hold's single scene."""
    steps = len(rep.nodes)
    label = mark_of(standing.move, standing.rung).of
    shown = [0] if steps == 1 else [0, steps - 1] if nodes is None else list(nodes)
    part = rep.at(np.array([row * steps + node for node in shown]))
    balance = part.balance()
    loads, *limits = part.loads_within(balance)
    total_n = np.stack([limit.strap_tension_n.sum(axis=1) for limit in limits], axis=1)
    return tuple(scene_of(part, loads, k, standing.move, label, total_n[k]) for k in range(len(shown)))
