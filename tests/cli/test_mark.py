"""``leanmark mark`` tells where to stand for a wanted load, and where one may stand at all."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import HER, ask, refused
from tests.cli.squads import write_squad


def test_a_mark_asked_for_gives_the_wanted_load_back() -> None:
    (answer,) = ask("mark", "row", "--load", "40", *HER, "--json").data
    (mark,) = answer["marks"]
    report = ask("load", "row", "--mark", f"{mark['mark_m']!r} m", *HER, "--json").data
    peak = max(phase["load_percent"]["value"] for phase in report["phases"])
    assert answer["wanted_percent"] == 40.0
    assert mark["load_percent"] == pytest.approx(40.0, abs=0.01)  # the inverse's own tolerance, 1e-5
    assert mark["low_percent"] < 40.0 < mark["high_percent"]
    # the report looks at the rep's ends and its middle node, as the inverse does
    assert peak == pytest.approx(40.0, abs=0.05)


def test_every_wanted_load_is_answered_in_order_also_one_out_of_reach() -> None:
    said = ask("mark", "row", "--load", "30", "--load", "45 %", "--load", "95", *HER)
    lines = said.out.splitlines()
    assert said.code == 0
    assert lines[0].split("  ")[0] == "wanted"
    assert [line.split(" %")[0] for line in lines[2:5]] == ["30", "45", "95"]
    assert "none" in lines[4]
    assert "out of reach: marks that can be held give" in lines[4]


def test_feasible_stretches_come_with_what_ends_them() -> None:
    said = ask("mark", "row", "--load", "40", *HER)
    (answer,) = ask("mark", "row", "--load", "40", *HER, "--json").data
    stretch = answer["feasible"][0]
    assert stretch["low_m"] < answer["marks"][0]["mark_m"] < stretch["high_m"]
    assert stretch["least_percent"] <= 40.0 <= stretch["greatest_percent"]
    assert f"below −{-100 * stretch['low_m']:.0f} cm: {stretch['low_reason']}" in said.out
    assert stretch["low_reason"]
    assert "caution: " in said.out.splitlines()[-1]


def test_a_load_out_of_reach_is_refused_with_what_can_be_had() -> None:
    line = refused("mark", "row", "--load", "95", *HER)
    assert line.startswith("--load = 95 is not allowed (allowed: marks that can be held give ")
    assert line.endswith("ask for another, or change strap or rung")


def test_a_load_out_of_reach_is_still_answered_as_data() -> None:
    said = ask("mark", "row", "--load", "95", *HER, "--json")
    assert said.code == 2
    assert said.data[0]["marks"] == []
    assert said.data[0]["reason"].startswith("out of reach: ")
    assert said.err.startswith("leanmark: --load = 95 ")


def test_marks_in_us_units_can_be_typed_as_they_were_printed(tmp_path: Path) -> None:
    squad = write_squad(tmp_path, units="us")
    cells = ask("mark", "row", "--load", "40", "--squad", squad).out.splitlines()[2].split("  ")
    printed = [cell.strip() for cell in cells if cell.strip()][1]
    assert printed.startswith("−")
    assert printed.endswith(" in")
    report = ask("load", "row", "--mark", printed, "--squad", squad, "--json").data
    (answer,) = ask("mark", "row", "--load", "40", "--squad", squad, "--json").data
    half_step_m = 0.5 * 0.5 * 0.0254  # marks are shown to the nearest half inch
    assert report["mark_m"] == pytest.approx(answer["marks"][0]["mark_m"], abs=half_step_m)
