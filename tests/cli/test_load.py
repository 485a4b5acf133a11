"""``leanmark load`` tells the load of a position, as a table, as data and as a figure."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.cli.ask import DEMO, HER, ask
from tests.cli.squads import write_squad


def test_the_table_names_rung_mark_and_phases() -> None:
    said = ask("load", "row", "--mark", "-70 cm", *HER)
    lines = said.out.splitlines()
    assert said.code == 0
    assert lines[0].startswith("row, ")
    assert "at −70 cm from the plumb point, strap 118 cm, anchor 240 cm" in lines[0]
    assert lines[2].split()[:3] == ["held", "at", "lean"]
    assert [line.split()[0] for line in lines[4:7]] == ["start", "middle", "end"]
    assert "caution: " in lines[-1]
    assert max(map(len, lines[1:-1])) <= 100


def test_data_holds_what_the_table_shows_and_more() -> None:
    data = ask("load", "row", "--mark", "-70 cm", *HER, "--json").data
    assert data["feasible"] is True
    assert data["reasons"] == []
    assert data["mark_m"] == pytest.approx(-0.7)
    assert data["body_mass_kg"] == 74.0
    assert {"moving", "anchor", "load_is", "strap_m", "mark_of"} <= set(data)
    start = data["phases"][0]
    assert {"straps", "floor", "joints", "friction_needed", "grip_margin", "lean_deg"} <= set(start)
    total = start["strap_total_n"]
    assert total["low"] <= total["value"] <= total["high"]
    assert sum(strap["tension_n"] for strap in start["straps"]) == pytest.approx(total["value"])
    share = start["load_percent"]["value"] / 100.0
    assert total["value"] == pytest.approx(share * 74.0 * 9.80665)  # standard gravity, CGPM 1901


def test_us_units_show_feet_inches_and_pounds_of_the_same_load() -> None:
    metric, us = (
        ask("load", "row", "--mark", "-70 cm", *HER, "--units", units) for units in ("metric", "us")
    )
    assert "−2 ft 3.5 in" in us.out
    kgf, lbf = (float(said.out.splitlines()[4].split(" %  ")[2].split()[0]) for said in (metric, us))
    assert kgf == pytest.approx(lbf * 0.45359237, abs=0.8)  # both rounded to the whole: half of each unit


def test_data_is_in_si_units_whatever_is_shown() -> None:
    metric, us = (ask("load", "row", *HER, "--json", "--units", units).out for units in ("metric", "us"))
    assert metric == us


def test_a_squad_files_rig_person_and_units_are_used(tmp_path: Path) -> None:
    squad = write_squad(tmp_path, units="us")
    first = ask("load", "row", "--squad", squad, "--json").data
    second = ask("load", "row", "--squad", squad, "--trainee", "BIRK  å", "--json").data
    assert (first["body_mass_kg"], second["body_mass_kg"]) == (61.5, 79.0)
    assert first["strap_m"] == 1.23
    assert "12 kN" in first["anchor"]
    assert " in" in ask("load", "row", "--squad", squad).out.splitlines()[0]
    assert " cm" in ask("load", "row", "--squad", squad, "--units", "metric").out.splitlines()[0]


def test_what_is_typed_counts_more_than_the_squad_file(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    data = ask("load", "row", "--squad", squad, "--mass", "90 kg", "--anchor", "2.2 m", "--json").data
    assert data["body_mass_kg"] == 90.0
    assert data["stature_m"] == 1.64
    assert data["anchor_height_m"] == 2.2
    assert data["strap_m"] == 1.23


def test_another_floor_changes_the_grip_and_keeps_the_settings() -> None:
    dry, wet = (
        ask("load", "row", "--squad", DEMO, "--floor", floor, "--json").data
        for floor in ("dry gym floor", "wet or dusty floor")
    )
    assert dry["strap_m"] == wet["strap_m"] == 1.23
    starts = [data["phases"][0] for data in (dry, wet)]
    grips = [start["grip_margin"] + start["friction_needed"] for start in starts]
    assert grips == pytest.approx([0.60, 0.30])  # the presets of docs/rig.md


@pytest.mark.parametrize("name", ["row.svg", "row-front.svg"])
def test_the_figure_is_written_whole(tmp_path: Path, name: str) -> None:
    said = ask("load", "row", *HER, "--figure", tmp_path / name)
    assert said.code == 0
    drawn = (tmp_path / name).read_text("utf-8")
    assert drawn.startswith("<svg")
    assert drawn.rstrip().endswith("</svg>")
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert f"figure: {tmp_path / name}" in said.out


def test_data_stays_data_when_a_figure_is_written(tmp_path: Path) -> None:
    assert ask("load", "row", *HER, "--figure", tmp_path / "row.svg", "--json").data["move"] == "row"
    assert (tmp_path / "row.svg").exists()


def test_a_position_out_of_reach_is_an_answer_with_a_reason_and_no_numbers() -> None:
    words = ("load", "row", "--mark", "2 m", *HER)
    said, data = ask(*words), ask(*words, "--json").data
    assert said.code == 0
    assert "cannot be done (start, middle, end): strap too short" in said.out
    assert said.out.splitlines()[5].split() == ["start", *["—"] * 7]
    assert data["feasible"] is False
    assert data["phases"][0]["load_percent"] == {"value": None, "low": None, "high": None}
    assert data["moving"] is None


def test_forces_that_cannot_be_are_not_printed() -> None:
    said = ask("load", "row", *HER, "--push", "150 n left at left grip")
    assert "cannot be done (start" in said.out
    assert "the strap goes slack" in said.out
    start = next(line for line in said.out.splitlines() if line.startswith("start"))
    assert start.split() == ["start", *["—"] * 7]


def test_a_strap_that_slips_through_its_loop_says_so() -> None:
    push = ("--push", "80 n left at chest", "--mark", "-80 cm", "--floor", "dry rubber mat")
    independent, loop = (
        ask("load", "row", *HER, *push, "--straps", mode, "--json").data
        for mode in ("independent", "slipping loop")
    )
    assert independent["reasons"] == []
    assert any("slip through its loop" in reason for reason in loop["reasons"])


def test_a_worn_mass_loads_the_straps_more_and_a_lift_less() -> None:
    plain, vest, lifted = (
        ask("load", "row", *HER, *extra, "--json").data["phases"][0]["strap_total_n"]["value"]
        for extra in ((), ("--add", "10 kg on upper trunk"), ("--push", "40 n up at chest"))
    )
    assert lifted < plain < vest


def test_two_people_on_one_anchor_count_twice() -> None:
    peaks = [
        float(ask("load", "row", *HER, "--people", people, "--json").data["anchor"].split()[1])
        for people in ("1", "2")
    ]
    assert peaks[1] == pytest.approx(2.0 * peaks[0], abs=0.011)  # both printed to 0.01 kN


def test_a_quick_tempo_peaks_higher_than_a_slow_one() -> None:
    quick, slow = (
        ask("load", "row", *HER, "--tempo", tempo, "--json").data["moving"]
        for tempo in ("2-0-1-0", "5-0-5-0")
    )
    assert quick["peak_to_held"] > slow["peak_to_held"] >= 1.0


def test_an_absurdly_quick_rep_is_answered_not_refused() -> None:
    said = ask("load", "row", *HER, "--tempo", "0.2-0-0.2-0")
    assert said.code == 0
    assert "too fast: the strap goes slack" in said.out


def test_a_move_without_straps_says_nothing_of_straps() -> None:
    said = ask("load", "push-up", *HER)
    assert said.code == 0
    assert "anchor" not in said.out
    assert "tempo" not in said.out
    assert "share of body weight on the hands" in said.out


def test_numbers_are_numbers() -> None:
    def numbers(value: object) -> list[float]:
        if isinstance(value, dict):
            return [found for item in value.values() for found in numbers(item)]
        if isinstance(value, list):
            return [found for item in value for found in numbers(item)]
        return [value] if isinstance(value, float) else []

    found = numbers(ask("load", "row", *HER, "--json").data)
    assert len(found) > 50
    assert all(map(math.isfinite, found))
