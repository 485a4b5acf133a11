"""Contact sheets: every rung's start and end, seen from two sides."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from leanmark.moves.ladder.panel import typical_people
from leanmark.moves.library import load_move
from leanmark.rig.rig import standard_rig
from leanmark.sheets.contact_sheet import MovePictures, PicturesJob, move_pictures, render_contact_sheet

RIG = standard_rig(2.4)


def pictures_of(move: str) -> MovePictures:
    return move_pictures(PicturesJob(move, RIG, typical_people(), "metric"))


@pytest.mark.parametrize(("move", "each"), [("row", 4), ("front plank", 2), ("knee tuck and saw", 6)])
def test_every_rung_is_drawn_from_side_and_front(move: str, each: int) -> None:
    drawn = pictures_of(move)
    assert [rung.name for rung in drawn.rungs] == [rung.rung for rung in load_move(move).rungs]
    for rung in drawn.rungs:
        assert len(rung.pictures) == each
        assert len(set(rung.pictures)) == each


def test_the_sheet_names_moves_and_rungs() -> None:
    pdf = render_contact_sheet([pictures_of("row"), pictures_of("front plank")], "a4")
    said = " ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
    for name in ("row", "front plank"):
        for rung in load_move(name).rungs:
            assert rung.rung in said


def test_nothing_to_show_is_refused() -> None:
    with pytest.raises(ValueError, match="give at least one"):
        render_contact_sheet([], "a4")
