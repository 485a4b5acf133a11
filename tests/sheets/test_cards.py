from __future__ import annotations

import re
import time
from dataclasses import replace
from pathlib import Path

import pytest
from tests.sheets.samples import card

from leanmark.sheets import cards as sheets
from leanmark.sheets.cards import SAFETY, SQUAD_FILE, card_file_name, render_cards, write_cards

POINTS_PER_MM = 72.0 / 25.4


def pages(pdf: bytes) -> int:
    """How many pages a PDF says it has."""
    (count,) = re.findall(rb"/Type\s*/Pages[^>]*?/Count\s+(\d+)|/Count\s+(\d+)[^>]*?/Type\s*/Pages", pdf)
    return int(b"".join(count))


def media_boxes(pdf: bytes) -> set[tuple[float, float]]:
    """Widths and heights of the pages [pt]."""
    found = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    return {(float(width), float(height)) for width, height in found}


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("moves", [1, 4, 7, 14])
def test_up_to_fourteen_moves_stand_on_one_page(paper: sheets.Paper, moves: int) -> None:
    assert pages(render_cards([card(moves=moves)], paper)) == 1


def test_more_go_to_a_second_page_rather_than_shrink() -> None:
    assert pages(render_cards([card(moves=26)])) == 2


def test_long_words_go_to_a_second_page_too() -> None:
    assert pages(render_cards([card(moves=14, setup="Stand, hold, lean and look ahead. " * 20)])) == 2


def test_every_trainee_begins_on_a_new_page() -> None:
    assert pages(render_cards([card(f"Trainee {row}") for row in range(5)])) == 5


@pytest.mark.parametrize(
    ("paper", "width_mm", "height_mm"),
    [("a4", 210.0, 297.0), ("letter", 215.9, 279.4)],  # ISO 216 and ANSI/ASME Y14.1: from memory
)
def test_paper_sizes(paper: sheets.Paper, width_mm: float, height_mm: float) -> None:
    ((width, height),) = media_boxes(render_cards([card()], paper))
    assert width / POINTS_PER_MM == pytest.approx(width_mm, abs=0.1)
    assert height / POINTS_PER_MM == pytest.approx(height_mm, abs=0.1)


def test_the_same_cards_give_the_same_bytes() -> None:
    assert render_cards([card()]) == render_cards([card()])


def test_a_pdf_carries_no_time_of_making() -> None:
    pdf = render_cards([card()])
    assert b"CreationDate" not in pdf
    assert b"xmp:CreateDate" not in pdf


HOSTILE = [
    "#panic() *bold* _under_ $x$ @ref <label> `raw` \\ // /* = - + [x] {y}",
    '<svg onload="x"> & " \' ]]>',
    "שלום עולם مرحبا",
    "Zoë 😀🏋️",
    "x" * 300,
    "",
    "a\nb\tc\u0000d",
]


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_are_shown_and_not_obeyed(name: str) -> None:
    one = card(name, moves=2, title=name, setup=name, caution=name, cues=(name, name))
    rows = tuple(replace(row, floor_mark=name or "x", note=name, rung=name) for row in one.moves[0].rows)
    spoiled = replace(one, moves=(replace(one.moves[0], rows=rows), one.moves[1]))
    assert pages(render_cards([spoiled])) >= 1


def test_markup_in_a_name_reaches_the_page_letter_by_letter() -> None:
    # the document's title is plain text in the file, so what was read of the name can be seen there
    assert b"#upper[x] *y*" in render_cards([card("#upper[x] *y*")])


def test_a_move_without_figure_rows_or_cues_is_set() -> None:
    assert (
        pages(render_cards([card(moves=2, figure_svg="", rows=(), cues=(), setup="", strap_setting="")])) == 1
    )


def test_writing_makes_one_file_for_each_and_one_for_all(tmp_path: Path) -> None:
    out = tmp_path / "new" / "cards"
    written = write_cards([card("Anna Berg"), card("Bo Ek")], out)
    assert [path.name for path in written.each] == ["01-anna-berg.pdf", "02-bo-ek.pdf"]
    assert written.squad == out / SQUAD_FILE
    assert sorted(out.iterdir()) == sorted([*written.each, written.squad])
    assert pages(written.squad.read_bytes()) == 2
    assert written.each[0].read_bytes() == render_cards([card("Anna Berg")])


def test_writing_again_replaces_whole_files(tmp_path: Path) -> None:
    write_cards([card("Anna Berg")], tmp_path)
    written = write_cards([card("Anna Berg", moves=5)], tmp_path)
    assert written.each[0].read_bytes() == render_cards([card("Anna Berg", moves=5)])
    assert len(list(tmp_path.iterdir())) == 2


def test_a_failure_leaves_nothing_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(self: Path, target: Path) -> Path:
        raise OSError(28, "no space left")

    monkeypatch.setattr(Path, "replace", broken)
    with pytest.raises(OSError, match="no space left"):
        write_cards([card()], tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_broken_figure_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError, match="SVG"):
        write_cards([card("Anna"), card("Bo", figure_svg="<svg")], tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_folders_place_is_named(tmp_path: Path) -> None:
    taken = tmp_path / "cards"
    taken.write_text("not a folder")
    with pytest.raises(OSError, match=r"out_dir '.*cards' cannot be written to .*; name a folder"):
        write_cards([card()], taken)


def test_no_card_and_unknown_paper_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="there is no card to typeset"):
        write_cards([], tmp_path)
    with pytest.raises(ValueError, match="paper is 'a5'; it must be one of a4, letter"):
        render_cards([card()], "a5")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Anna Berg", "03-anna-berg.pdf"),
        ("../../etc/passwd", "03-etc-passwd.pdf"),
        ("CON", "03-con.pdf"),
        ("Åse Ørn", "03-åse-ørn.pdf"),
        ("😀", "03.pdf"),
        ("שלום", "03-שלום.pdf"),
        ("x" * 300, f"03-{'x' * 40}.pdf"),
    ],
)
def test_file_names_are_safe(name: str, file: str) -> None:
    assert card_file_name(3, card(name)) == file


def test_safety_names_anchor_feet_pain_and_ballistic_reps() -> None:
    said = " ".join(head + " " + words for head, words in SAFETY)
    for word in ("rating", "local codes", "cradles", "Pain", "stop", "licensed", "Ballistic"):
        assert word in said


def test_a_squad_of_ten_with_fourteen_moves_is_quick(tmp_path: Path) -> None:
    squad = [card(f"Trainee {row}", moves=14) for row in range(10)]
    start = time.perf_counter()
    write_cards(squad, tmp_path)
    # the aim is well under five seconds; about half a second was seen on two cores
    assert time.perf_counter() - start < 5.0
