"""``leanmark moves cards``, ``pictures`` and ``animate`` write what they say they write."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader
from tests.cli.ask import DEMO, HER, ask, files_in, refused
from tests.figures.pictures import parsed


def test_cards_of_named_moves_take_two_pages_each(tmp_path: Path) -> None:
    said = ask("moves", "cards", "row", "fly", "row", "--out", tmp_path / "cards.pdf", "--date", "2030-01-02")
    assert said.code == 0, said
    assert "cards of 2 moves" in said.out
    reader = PdfReader(tmp_path / "cards.pdf")
    assert len(reader.pages) == 4
    assert "2030-01-02" in reader.pages[0].extract_text()
    assert "50th-percentile woman / man" in reader.pages[1].extract_text()


def test_cards_are_for_the_trainee_named(tmp_path: Path) -> None:
    said = ask(
        "moves",
        "cards",
        "row",
        "--squad",
        DEMO,
        "--trainee",
        "Tuva Lindvåg",
        "--out",
        tmp_path / "cards.pdf",
        "--rung",
        "deep lean",
    )
    assert said.code == 0, said
    front, back = (page.extract_text() for page in PdfReader(tmp_path / "cards.pdf").pages)
    assert "This form: deep lean" in front
    assert "Tuva Lindvåg" in back


def test_pictures_of_a_family(tmp_path: Path) -> None:
    said = ask("moves", "pictures", "--family", "calf and foot", "--out", tmp_path / "all.pdf", *HER)
    assert said.code == 0, said
    assert "calf raise" in " ".join(page.extract_text() for page in PdfReader(tmp_path / "all.pdf").pages)


def test_a_moving_figure_is_written_whole(tmp_path: Path) -> None:
    said = ask("moves", "animate", "row", "--out", tmp_path / "row.svg", "--theme", "dark", *HER)
    assert said.code == 0, said
    assert files_in(tmp_path) == ["row.svg"]
    assert parsed((tmp_path / "row.svg").read_text("utf-8")).tag.endswith("svg")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("cards", "rwo"), "did you mean 'row'?"),
        (("cards", "--paper", "a5"), "--paper = 'a5'"),
        (("cards", "--family", "legs"), "--family = 'legs'"),
        (("cards", "row", "--family", "squat"), "a family of the moves named"),
        (("cards", "row", "--rung", "steep"), "rung of row = 'steep'"),
        (("cards", "row", "--mass", "70 kg"), "give both"),
        (("pictures", "row", "--out", "nowhere/all.pdf"), "make the folder first"),
        (("animate", "side plank"), "it is a hold"),
        (("animate", "row", "--view", "top"), "--view = 'top'"),
        (("animate", "row", "--theme", "sepia"), "--theme = 'sepia'"),
        (("animate", "row", "--tempo", "fast"), "--tempo = 'fast'"),
    ],
)
def test_what_cannot_be_made_is_refused_in_one_line(words: tuple[str, ...], expected: str) -> None:
    assert expected in refused("moves", *words)
