"""Work on several processors gives what work on one gives, in order, and ends with its block."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Iterator

import pytest

from leanmark import each as module
from leanmark.each import WORTH_IT, processors


@pytest.fixture
def two(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def test_little_work_stays_here() -> None:
    with processors(WORTH_IT - 1) as each:
        assert each is map


def test_one_processor_stays_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    with processors(10 * WORTH_IT) as each:
        assert each is map


@pytest.mark.usefixtures("two")
def test_results_come_in_order_and_the_processes_end() -> None:
    with processors(WORTH_IT) as each:
        assert list(each(abs, range(-20, 20))) == list(map(abs, range(-20, 20)))
        assert list(each(abs, [])) == []
    assert multiprocessing.active_children() == []


@pytest.mark.usefixtures("two")
def test_an_error_of_a_job_comes_back_and_the_processes_end() -> None:
    with pytest.raises(ValueError, match="invalid literal"), processors(WORTH_IT) as each:
        list(each(int, ["1", "x", *["2"] * 50]))
    assert multiprocessing.active_children() == []


@pytest.mark.usefixtures("two")
def test_an_interruption_ends_the_processes_at_once() -> None:
    def interrupted() -> Iterator[int]:
        yield from range(5)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt), processors(WORTH_IT) as each:
        list(each(abs, interrupted()))
    assert multiprocessing.active_children() == []


def test_no_more_processes_than_stated(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 64)
    monkeypatch.setattr(module, "_MOST", 2)
    with processors(WORTH_IT) as each:
        list(each(abs, range(8)))
        assert len(multiprocessing.active_children()) == 2
