"""Floor presets: what each row must have."""

from __future__ import annotations

import pytest

from leanmark.errors import FieldError
from leanmark.rig.floors import CAUTION_FRICTION, DEFAULT_FLOOR, FLOORS, floor
from leanmark.rig.ranges import RIG_RANGES


def test_every_preset_is_a_friction_that_a_rig_accepts_and_names_its_source() -> None:
    allowed = RIG_RANGES["floor_friction"]
    for name, row in FLOORS.items():
        assert name == row.name
        assert allowed.low <= row.friction <= allowed.high
        assert row.source
        assert row.stands_for


def test_the_default_floor_holds_more_than_the_caution_asks() -> None:
    assert floor(DEFAULT_FLOOR).friction > CAUTION_FRICTION


def test_unknown_floor() -> None:
    with pytest.raises(FieldError, match=r"floor = 'ice'.*give your own floor_friction"):
        floor("ice")
