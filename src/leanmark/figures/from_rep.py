"""From a solved rep to scenes ready to draw."""

from __future__ import annotations

from typing import Final

import numpy as np

from leanmark.body.points import POINTS
from leanmark.body.segments import PARENT, SEGMENT_COUNT, SEGMENT_INDEX, SEGMENTS
from leanmark.figures.scene import FloorForce, Scene, StrapLine, Surface
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.kinematics import place
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.position import Rep
from leanmark.moves.report import floor_reports
from leanmark.moves.schema import Move
from leanmark.moves.stand import Stand
from leanmark.moves.translate import mark_of

_HAND_LENGTH: Final = 0.108  # share of stature, Drillis and Contini 1966
_BOX_MARGIN_M: Final = 0.15
_MIDDLE: Final = {"pelvis": "lower_trunk", "lower_trunk": "upper_trunk", "upper_trunk": "head"}
_NEXT: Final = {SEGMENT_INDEX[low]: SEGMENT_INDEX[high] for low, high in _MIDDLE.items()} | {
    PARENT[child]: child
    for child in range(SEGMENT_COUNT)
    if SEGMENTS[PARENT[child]] not in (*_MIDDLE, "") and PARENT[child] >= 0
}
"""The segment whose joint ends each segment; head, hands and toes end in a point of their own."""


def scene_of(
    rep: Rep, loads: Loads, row: int, move: Move, mark_label: str, interval: tuple[float, float] | None = None
) -> Scene:
    """The scene at one row of a rep. ``interval``: least and greatest total strap tension [N]."""
    bodies = rep.bodies.take(np.array([row]))
    placement = place(bodies, rep.solution.pose.take(np.array([row])))
    names = list(POINTS)
    points = placement.point_m(bodies, np.arange(len(names)))[0]
    total = float(loads.strap_tension_n[row].sum())
    low, high = interval or (total, total)
    return Scene(
        joint_m=placement.joint_m[0],
        rotation=placement.rotation[0],
        tip_m=_tips(
            placement.joint_m[0],
            placement.rotation[0],
            dict(zip(names, points, strict=True)),
            bodies.stature_m[0],
        ),
        radius_m=bodies.radius_m[0],
        point_m=dict(zip(names, points, strict=True)),
        straps=tuple(
            StrapLine(
                np.broadcast_to(strap.anchor_m, (len(loads.outcome), 3))[row],
                loads.strap_end_m[row, k],
                strap.side,
                float(loads.strap_tension_n[row, k]),
                float(loads.strap_tension_n[row, k] * low / max(total, 1e-9)),
                float(loads.strap_tension_n[row, k] * high / max(total, 1e-9)),
            )
            for k, strap in enumerate(rep.supports.straps)
        ),
        floor_forces=tuple(
            FloorForce(np.array(f.pressure_m), np.array(f.force_n), f.contact)
            for f in floor_reports(rep, loads, row)
        ),
        surfaces=_boxes(rep, loads, row),
        body_weight_n=float(loads.body_weight_n[row]),
        floor_mark_m=float(rep.geometry.mark_m[row]),
        mark_label=mark_label,
        stature_m=float(bodies.stature_m[0]),
        kit=move.kit,
    )


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


def _boxes(rep: Rep, loads: Loads, row: int) -> tuple[Surface, ...]:
    """A box under every group of raised contacts."""
    uses = [use for use in rep.task.patches if use.height_m > 0.0]
    if not uses:
        return ()
    height = uses[0].height_m
    points = loads.contact_point_m[row]
    raised = points[np.abs(points[:, 2] - height) < 0.02]
    low, high = raised.min(axis=0) - _BOX_MARGIN_M, raised.max(axis=0) + _BOX_MARGIN_M
    return (Surface(float(low[0]), float(high[0]), float(low[1]), float(high[1]), height, "box"),)


def rep_scenes(standing: Stand, rep: Rep, loads: Loads, row: int) -> tuple[Scene, ...]:
    """Start and end of one person's rep, the end last; a hold's single scene."""
    steps = len(rep.nodes)
    label = mark_of(standing.move, standing.rung).of
    rows = [row * steps] if steps == 1 else [row * steps, row * steps + steps - 1]
    return tuple(scene_of(rep, loads, at, standing.move, label) for at in rows)
