"""How errors of every kind are put into one line."""

from __future__ import annotations

from concurrent.futures.process import BrokenProcessPool

import pytest
import typer

from leanmark.cli.interrupt import came_of_ctrl_c
from leanmark.cli.refusal import is_interrupt, refusal
from leanmark.errors import FieldError


def test_fields_of_the_engine_are_called_as_the_command_line_calls_them() -> None:
    said, ours = refusal(FieldError("strap_m", 3.0, "0.8 to 2.3", "give another"))
    assert (said, ours) == ("--strap = 3 is not allowed (allowed: 0.8 to 2.3); give another", False)


def test_an_error_of_the_system_names_the_path() -> None:
    said, ours = refusal(PermissionError(13, "Permission denied", "/x\n/y"))
    assert said == "Permission denied (/x\\u000A/y); check the path, and whether you may use it"
    assert not ours


def test_a_fault_of_ours_says_so_and_where() -> None:
    try:
        {}["gone"]
    except KeyError as error:
        said, ours = refusal(error)
    assert ours
    assert said.startswith("a fault of the program, not of your input: KeyError: 'gone' at ")
    assert said.isprintable()


def test_a_lost_helper_process_is_put_down_to_memory() -> None:
    said, ours = refusal(BrokenProcessPool())
    assert "not enough memory" in said
    assert not ours


def test_ctrl_c_comes_as_an_abort_too() -> None:
    assert is_interrupt(typer.Abort())
    assert not is_interrupt(ValueError())


def test_ctrl_c_amid_an_import_is_no_fault() -> None:
    class Pressed:
        def __set_name__(self, owner: type, name: str) -> None:
            raise KeyboardInterrupt

    # Up to Python 3.11 an error of its own stands before it; later releases pass it on as it is.
    with pytest.raises((RuntimeError, KeyboardInterrupt)) as told:
        type("Owner", (), {"field": Pressed()})
    assert came_of_ctrl_c(told.value)
