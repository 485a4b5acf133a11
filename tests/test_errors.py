"""Errors read as one line a person can act on."""

from __future__ import annotations

import pickle

import numpy as np
import pytest

from leanmark.errors import FieldError, one_line


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("rwo", "'rwo'"),
        (178, "178"),
        (178.0, "178"),
        (0.1 + 0.2, "0.3"),
        (float("nan"), "nan"),
        ([95.0, 20.0], "95, 20"),
        (("a", "b"), "'a', 'b'"),
        ([], "nothing"),
        (np.float64(2.5), "2.5"),
        (np.array([1.0, 2.0]), "1, 2"),
        (None, "None"),
    ],
)
def test_values_are_shown_as_a_person_writes_them(value: object, shown: str) -> None:
    message = str(FieldError("field", value, "little", "give less"))
    assert message == f"field = {shown} is not allowed (allowed: little); give less"


@pytest.mark.parametrize("hostile", ["a\nb", "\x1b[31mred", "x" * 10_000, "\u202eback", ["y\n" * 500]])
def test_no_value_breaks_the_line_or_fills_the_screen(hostile: object) -> None:
    message = str(FieldError("field", hostile, "plain text", "type it again"))
    assert message.isprintable()
    assert len(message) < 200


def test_an_error_survives_the_way_back_from_another_process() -> None:
    error = FieldError("mass_kg", -1.0, "20–300", "give the body mass")
    assert str(pickle.loads(pickle.dumps(error))) == str(error)


def test_one_line_keeps_what_prints() -> None:
    assert one_line("Lindvåg −3 ½") == "Lindvåg −3 ½"
    assert one_line("tab\there") == "tab\\u0009here"
    assert one_line("abcdef", longest=4) == "abc…"
