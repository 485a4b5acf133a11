"""Moves posed by hand on the mannequin, near enough to the real thing to judge a drawing by."""

from __future__ import annotations

import numpy as np
from tests.figures.mannequin import posed, turn

from leanmark.figures.scene import FloorForce, Scene, Surface
from leanmark.mechanics.rotation import about


def lean(degrees: float) -> np.ndarray:
    """The whole body tipped forward (positive) or back."""
    return about("y", np.radians(degrees))


def both_feet(x_m: float, up_n: float, along_n: float) -> tuple[FloorForce, ...]:
    return tuple(
        FloorForce(np.array([x_m, y, 0.0]), np.array([along_n, 0.0, up_n]), f"{side} foot")
        for side, y in (("left", 0.085), ("right", -0.085))
    )


def standing() -> Scene:
    return posed({}, fixed=("left_foot.heel".replace("_foot", ""), (-0.2, 0.085, 0.0)), mark=(-0.2, "heel"))


def row(bent: bool = False) -> Scene:
    arm = {"upper_arm": turn(75), "hand": turn(0, 0, -70)}
    if bent:
        arm = {"upper_arm": turn(-15, 15), "forearm": turn(115), "hand": turn(0, 0, -70)}
    return posed(
        {**arm, "foot": turn(-20)},
        root=lean(-40),
        fixed=("left.heel", (-0.35, 0.085, 0.0)),
        kit="handles",
        straps_from=("left_hand", "right_hand"),
        forces=both_feet(-0.30, 270, -60),
        mark=(-0.35, "heel"),
    )


def press(bent: bool = False) -> Scene:
    arm = {"upper_arm": turn(80), "hand": turn(60, 0, 90)}
    if bent:
        arm = {"upper_arm": turn(20, 45), "forearm": turn(100), "hand": turn(40, 0, 90)}
    return posed(
        {**arm, "foot": turn(15), "toes": turn(30)},
        root=lean(48),
        fixed=("left_toes", (-0.9, 0.085, 0.02)),
        kit="handles",
        straps_from=("left_hand", "right_hand"),
        forces=both_feet(-0.87, 200, 30),
        mark=(-0.9, "ball of foot"),
    )


def plank() -> Scene:
    return posed(
        {"upper_arm": turn(87), "forearm": turn(90), "head": turn(-12), "foot": turn(-5)},
        root=lean(87),
        fixed=("left_forearm", (-1.65, 0.18, 0.04)),
        kit="cradles",
        straps_from=("left_foot", "right_foot"),
        forces=tuple(
            FloorForce(np.array([-1.5, y, 0.0]), np.array([0.0, 0.0, 230.0]), f"{side} forearm")
            for side, y in (("left", 0.18), ("right", -0.18))
        ),
        mark=(-1.65, "elbow"),
    )


def squat() -> Scene:
    return posed(
        {
            "thigh": turn(105, 8),
            "shank": turn(-110),
            "foot": turn(32),
            "upper_trunk": turn(5),
            "upper_arm": turn(105),
            "forearm": turn(25),
            "hand": turn(0, 0, 80),
        },
        root=lean(27),
        fixed=("left.heel", (-0.75, 0.085, 0.0)),
        kit="handles",
        straps_from=("left_hand", "right_hand"),
        forces=both_feet(-0.68, 330, -12),
        mark=(-0.75, "heel"),
    )


def side_plank() -> Scene:
    return posed(
        {
            "left_upper_arm": turn(0, 92),
            "left_forearm": turn(90),
            "right_upper_arm": turn(0, 0),
            "foot": turn(0),
        },
        root=np.array([[0.0, 0.0, 1.0], [-1.0, 0.0, 0.0], [0.0, -1.0, 0.0]]) @ about("x", np.radians(-8)),
        fixed=("left_forearm", (1.5, 0.0, 0.04)),
        kit="cradles",
        straps_from=("left_foot", "right_foot"),
        forces=(FloorForce(np.array([1.5, 0.0, 0.0]), np.array([0.0, 0.0, 400.0]), "left forearm"),),
        mark=(1.5, "elbow"),
    )


def lunge() -> Scene:
    return posed(
        {
            "left_thigh": turn(90),
            "left_shank": turn(-95),
            "left_foot": turn(12),
            "right_thigh": turn(-5),
            "right_shank": turn(-80),
            "right_foot": turn(-30),
            "upper_arm": turn(35),
            "forearm": turn(80),
        },
        root=lean(8),
        fixed=("left.heel", (0.55, 0.085, 0.0)),
        kit="cradles",
        straps_from=("right_foot",),
        strap_force_n=150,
        forces=(FloorForce(np.array([0.62, 0.085, 0.0]), np.array([-40.0, 0.0, 580.0]), "left foot"),),
        mark=(0.55, "heel"),
    )


def hip_press() -> Scene:
    return posed(
        {
            "thigh": turn(8),
            "shank": turn(-88),
            "foot": turn(0),
            "head": turn(15),
            "upper_arm": turn(-20, 25),
        },
        root=lean(-98) @ about("y", np.radians(-25)),
        fixed=("head", (-1.45, 0.0, 0.12)),
        kit="cradles",
        straps_from=("left_foot", "right_foot"),
        forces=(FloorForce(np.array([-1.35, 0.0, 0.0]), np.array([0.0, 0.0, 500.0]), "shoulders"),),
        mark=(-1.45, "shoulder"),
    )


def box_press() -> Scene:
    return posed(
        {"upper_arm": turn(85), "hand": turn(75), "foot": turn(10), "toes": turn(60)},
        root=lean(70),
        fixed=("left_hand.tip", (-0.2, 0.18, 0.45)),
        surfaces=(Surface(-0.45, -0.05, -0.3, 0.3, 0.42, "box"),),
        mark=(-0.35, "hand"),
    )


def fly() -> Scene:
    return posed(
        {"upper_arm": turn(40, 70), "forearm": turn(15), "hand": turn(0), "foot": turn(15), "toes": turn(30)},
        root=lean(35),
        fixed=("left_toes", (-0.7, 0.085, 0.02)),
        kit="handles",
        straps_from=("left_hand", "right_hand"),
        mark=(-0.7, "ball of foot"),
    )


def one_arm_row() -> Scene:
    return posed(
        {
            "left_upper_arm": turn(75),
            "left_hand": turn(0, 0, -70),
            "right_upper_arm": turn(-5, 8),
            "right_forearm": turn(20),
            "foot": turn(-20),
        },
        root=about("z", np.radians(-20)) @ lean(-32),
        fixed=("left.heel", (-0.45, 0.085, 0.0)),
        kit="single handle",
        straps_from=("left_hand",),
        strap_force_n=230,
        mark=(-0.45, "heel"),
    )


def under_arms() -> Scene:
    return posed(
        {"upper_arm": turn(20, 25), "forearm": turn(60), "thigh": turn(15), "shank": turn(-20)},
        root=lean(15),
        fixed=("left.heel", (-0.5, 0.085, 0.0)),
        kit="under the arms",
        straps_from=("left_upper_arm", "right_upper_arm"),
        mark=(-0.5, "heel"),
    )


ALL = {
    pose.__name__: pose
    for pose in (
        standing,
        row,
        press,
        plank,
        squat,
        side_plank,
        lunge,
        hip_press,
        box_press,
        fly,
        one_arm_row,
        under_arms,
    )
}
