"""``leanmark cards`` writes PDFs for each trainee and for all, every figure, and tells who stands where."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.cli.ask import ask, files_in
from tests.cli.squads import write_squad

MADE = [
    "01-asta.pdf",
    "02-birk-å.pdf",
    "figures",
    "figures/01-chest-press.svg",
    "figures/01-row.svg",
    "figures/02-chest-press.svg",
    "figures/02-row.svg",
    "squad-cards.pdf",
]


def test_every_trainee_gets_a_pdf_and_figures(tmp_path: Path) -> None:
    said = ask("cards", write_squad(tmp_path), "--out", tmp_path / "new" / "out")
    assert said.code == 0
    assert said.err == ""
    assert files_in(tmp_path / "new" / "out") == MADE
    for pdf in (tmp_path / "new" / "out").glob("*.pdf"):
        assert pdf.read_bytes().startswith(b"%PDF-")


def test_the_overview_has_a_row_for_each_trainee_and_a_column_for_each_move(tmp_path: Path) -> None:
    lines = ask("cards", write_squad(tmp_path), "--out", tmp_path / "out").out.splitlines()
    head, asta, birk = (next(k for k, line in enumerate(lines) if line.startswith(name)) for name in
                        ("trainee", "Asta", "Birk Å"))  # fmt: skip
    assert lines[head].split() == ["trainee", "40", "%", "40", "%"]
    assert "press" in lines[head - 1]
    assert "row" in lines[head - 1]
    for row in (asta, birk):
        assert len(re.findall(r"−?\d+ cm", lines[row])) == 2
    assert f"all cards: {tmp_path / 'out' / 'squad-cards.pdf'}" in lines
    assert max(map(len, lines[: birk + 1])) <= 100


def test_the_overviews_marks_are_those_that_mark_gives(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    data = ask("cards", squad, "--out", tmp_path / "out", "--json").data
    (alone,) = ask("mark", "row", "--load", "40", "--squad", squad, "--trainee", "Birk Å", "--json").data
    (card,) = [
        answer
        for answer in data["answers"]
        if (answer["trainee"], answer["move"], answer["wanted_percent"]) == ("Birk Å", "row", 40.0)
    ]
    # Marks are refined until the load meets the wanted one within 1e-5; a centimetre of mark is worth 0.4 %.
    assert card["mark_m"] == pytest.approx(alone["marks"][0]["mark_m"], abs=1e-4)
    for end in ("low_percent", "high_percent"):
        assert card[end] == pytest.approx(alone["marks"][0][end], abs=0.05)


def test_data_lists_every_answer_and_every_file(tmp_path: Path) -> None:
    data = ask("cards", write_squad(tmp_path), "--out", tmp_path / "out", "--json").data
    assert len(data["answers"]) == 2 * 2 * 2
    fields = "trainee move rung load_of wanted_percent mark_m load_percent low_percent high_percent reason"
    assert set(data["answers"][0]) == set(fields.split())
    listed = [data["squad_pdf"], *data["pdfs"], *data["figures"]]
    assert sorted(listed) == [str(tmp_path / "out" / name) for name in MADE if name != "figures"]


def test_units_of_the_command_line_count_more_than_the_files(tmp_path: Path) -> None:
    said = ask(
        "cards", write_squad(tmp_path), "--out", tmp_path / "out", "--units", "us", "--paper", "letter"
    )
    assert re.search(r"Asta .*−\d ft \d", said.out)


def test_loads_out_of_reach_are_counted_with_their_reason(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    squad.write_text(squad.read_text("utf-8").replace("[30, 40]", "[95]"), encoding="utf-8")
    said = ask("cards", squad, "--out", tmp_path / "out")
    assert said.code == 0
    assert "row: no mark for 2 of 2, such as Asta: out of reach here: " in said.out
    assert re.search(r"Asta +— +—", said.out)


def test_moves_that_the_rig_has_no_setting_for_are_left_out_with_a_word(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    low = squad.read_text("utf-8").replace("2.45", "1.9").replace("short = 1.23", "")
    squad.write_text(low, encoding="utf-8")
    said = ask("cards", squad, "--out", tmp_path / "out")
    assert said.code == 0
    assert "row: left out, the rig has no setting 'short': add it to [rig.settings_m]" in said.out
    assert ask("cards", squad, "--out", tmp_path / "out", "--json").data["left_out"] == {"row": "short"}


def test_cards_made_again_replace_the_old_ones(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    for _ in range(2):
        ask("cards", squad, "--out", tmp_path / "out")
    assert files_in(tmp_path / "out") == MADE


def test_a_fault_half_way_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("leanmark.sheets.cards.joined", fails)
    said = ask("cards", write_squad(tmp_path), "--out", tmp_path / "out")
    assert said.code == 2
    assert said.err == "leanmark: not enough memory for this many people and moves at once; ask for fewer\n"
    assert [name for name in files_in(tmp_path) if name.endswith((".pdf", ".svg", ".part"))] == []
