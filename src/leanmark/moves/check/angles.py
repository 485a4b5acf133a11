"""Checks the joint angles of a pose as it is written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from leanmark.errors import one_line
from leanmark.moves.files import named_poses
from leanmark.moves.gathering import Gathering
from leanmark.moves.names import angles_of, joint_names
from leanmark.moves.problems import FieldPath, choice

_LIKE: Final = "like"


def pose_problems(check: Gathering, raw: object, path: FieldPath) -> None:
    """Joints and their angles [deg] within the ranges of healthy adults, and named poses under ``like``."""
    for joint, angles in check.mapping(raw, path).items():
        if joint == _LIKE:
            _named_poses(check, angles, (*path, joint))
        elif joint not in joint_names():
            check.report((*path, joint), f"'{one_line(joint)}' is not a joint", choice(joint, joint_names()))
        else:
            _angles(check, joint, angles, (*path, joint))


def _angles(check: Gathering, joint: str, raw: object, path: FieldPath) -> None:
    known = angles_of(joint)
    for angle, value in check.mapping(raw, path).items():
        if angle in known:
            check.number(value, (*path, angle), known[angle])
        else:
            check.report((*path, angle), f"'{one_line(angle)}' is not an angle here", choice(angle, known))


def _named_poses(check: Gathering, raw: object, path: FieldPath) -> None:
    names = raw if isinstance(raw, list) else [raw]
    for at, name in enumerate(check.entries(names, path)):
        place = (*path, at) if isinstance(raw, list) else path
        if not isinstance(name, str) or name not in named_poses():
            check.wrong(place, name, "a named pose", choice(name, named_poses()))
        elif not isinstance(named_poses()[name], Mapping):
            check.wrong(place, name, "a pose that can be read", "mend shared/poses.yaml")
