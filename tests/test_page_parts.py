"""Marks in a page are filled, everything else stays as it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from leanmark.page_parts import fill_file, filled, table

PAGE = "before\n<!-- generated: some part -->\nold\n<!-- end of generated -->\nafter\n"


def test_a_marked_part_is_replaced_and_the_rest_stays() -> None:
    new = "before\n<!-- generated: some part -->\n\nnew\n\n<!-- end of generated -->\nafter\n"
    assert filled(PAGE, {"some part": "new\n"}) == new
    assert filled(new, {"some part": "new\n"}) == new


def test_a_mark_without_a_part_is_refused() -> None:
    with pytest.raises(KeyError, match="some part"):
        filled(PAGE, {})


def test_a_file_is_filled_in_place(tmp_path: Path) -> None:
    path = tmp_path / "page.md"
    path.write_text(PAGE, encoding="utf-8")
    fill_file(path, {"some part": "über\n"})
    assert "\nüber\n" in path.read_text(encoding="utf-8")


def test_a_table_has_a_rule_under_its_heads() -> None:
    assert table(("a", "b"), [("1", "2")]) == "| a | b |\n| --- | --- |\n| 1 | 2 |\n"
