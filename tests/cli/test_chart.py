"""``leanmark chart`` draws the load over the marks and over the rep."""

from __future__ import annotations

from pathlib import Path

from tests.cli.ask import HER, ask, files_in


def test_both_charts_are_written_whole_into_a_new_folder(tmp_path: Path) -> None:
    out = tmp_path / "new" / "charts"
    said = ask("chart", "row", *HER, "--out", out)
    assert said.code == 0
    assert files_in(out) == ["row-over-mark.svg", "row-over-rep.svg"]
    for path in out.iterdir():
        assert path.read_text("utf-8").rstrip().endswith("</svg>")
        assert str(path) in said.out


def test_a_hold_has_no_rep_to_draw(tmp_path: Path) -> None:
    said = ask("chart", "front-plank", *HER, "--out", tmp_path)
    assert said.code == 0
    assert files_in(tmp_path) == ["front-plank-over-mark.svg"]


def test_curves_as_data_have_as_many_loads_as_places(tmp_path: Path) -> None:
    data = ask("chart", "row", *HER, "--json", "--out", tmp_path).data
    over_mark, over_rep = data["over_mark"], data["over_rep"]
    count = len(over_mark["mark_m"])
    assert {len(over_mark[name]) for name in ("load", "low", "high", "reason")} == {count}
    assert {len(over_rep[name]) for name in ("moving", "held", "phase")} == {len(over_rep["time_s"])}
    assert files_in(tmp_path) == []
    fine = [k for k, reason in enumerate(over_mark["reason"]) if not reason]
    assert fine
    assert all(over_mark["low"][k] <= over_mark["load"][k] <= over_mark["high"][k] for k in fine)


def test_the_tempo_sets_the_time_of_the_rep() -> None:
    data = ask("chart", "row", *HER, "--json", "--tempo", "3-1-2-0").data
    assert data["over_rep"]["time_s"][-1] == 3.0 + 2.0  # down and up; the pauses are left out
