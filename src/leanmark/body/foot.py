"""The foot's shape, and how a published one-piece foot is divided into foot and toes.

The frame's origin is the ankle joint; x runs from heel to toes, the sole lies at minus the ankle's height.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.body.arrays import Floats
from leanmark.body.drillis_contini_1966 import share

ANKLE_HEIGHT_SHARE: Final = share("ankle height")  # of stature; Drillis & Contini 1966
ANKLE_FROM_HEEL: Final = 0.25  # ankle joint in front of the heel's rear, share of foot length; own figure
TOE_JOINT_FROM_HEEL: Final = 0.72  # likewise, joints of the toes; own figure
TOE_JOINT_HEIGHT_SHARE: Final = 0.012  # above the sole, share of stature (about 2 cm); own figure
TOES_MASS_SHARE: Final = 0.10  # of the foot's mass; own figure
TOES_COM_FRACTION: Final = 0.45  # of the toes' length from their joint; own figure
TOES_RADII: Final = (
    0.35,
    0.29,
    0.45,
)  # of the toes' length: an even block as broad as 1.2 lengths; own figure
FOOT_COM_HEIGHT: Final = 0.5  # published foot's mass centre above the sole, share of ankle height; own figure


@dataclass(frozen=True)
class Piece:
    """Mass (B,), mass centre (B, 3) and principal moments (B, 3) of foot or toes, each in its own frame."""

    mass_kg: Floats
    com_m: Floats
    inertia_kg_m2: Floats


def toe_joint_m(foot_length_m: Floats, stature_m: Floats) -> Floats:
    """The toe joint in the foot's frame (B, 3) [m]."""
    ahead = (TOE_JOINT_FROM_HEEL - ANKLE_FROM_HEEL) * foot_length_m
    rise = (TOE_JOINT_HEIGHT_SHARE - ANKLE_HEIGHT_SHARE) * stature_m
    return np.stack([ahead, np.zeros_like(ahead), rise], axis=-1)


def whole_foot_com_m(com_fraction: float, foot_length_m: Floats, stature_m: Floats) -> Floats:
    """Mass centre of the undivided foot in the foot's frame (B, 3) [m]; com_fraction is from the heel."""
    ahead = (com_fraction - ANKLE_FROM_HEEL) * foot_length_m
    rise = (FOOT_COM_HEIGHT - 1.0) * ANKLE_HEIGHT_SHARE * stature_m
    return np.stack([ahead, np.zeros_like(ahead), rise], axis=-1)


def divided(
    mass_kg: Floats, com_m: Floats, inertia_kg_m2: Floats, foot_length_m: Floats, stature_m: Floats
) -> tuple[Piece, Piece]:
    """Foot and toes that together have the given mass (B,), mass centre (B, 3) and principal moments (B, 3)
    of the whole foot while the toes are straight. Products of inertia are left out."""
    joint = toe_joint_m(foot_length_m, stature_m)
    toes_length = (1.0 - TOE_JOINT_FROM_HEEL) * foot_length_m
    toes_mass = TOES_MASS_SHARE * mass_kg
    drop = -0.5 * TOE_JOINT_HEIGHT_SHARE * stature_m
    toes_com = np.stack([TOES_COM_FRACTION * toes_length, np.zeros_like(drop), drop], axis=-1)
    toes_inertia = toes_mass[:, None] * (np.array(TOES_RADII) * toes_length[:, None]) ** 2
    foot_mass = mass_kg - toes_mass
    foot_com = (mass_kg[:, None] * com_m - toes_mass[:, None] * (joint + toes_com)) / foot_mass[:, None]
    foot_inertia = (
        inertia_kg_m2
        - toes_inertia
        - shift_inertia(toes_mass, joint + toes_com - com_m)
        - shift_inertia(foot_mass, foot_com - com_m)
    )
    return Piece(foot_mass, foot_com, foot_inertia), Piece(toes_mass, toes_com, toes_inertia)


def shift_inertia(mass_kg: Floats, arm_m: Floats) -> Floats:
    """What a mass (B,) adds to the moments about x, y, z at a distance (B, 3): parallel-axis theorem."""
    square = arm_m**2
    added: Floats = mass_kg[:, None] * (square.sum(axis=-1, keepdims=True) - square)
    return added
