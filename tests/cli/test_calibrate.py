"""``leanmark calibrate`` turns readings into lines for the squad file, which then change what is answered."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.ask import ask, refused
from tests.cli.squads import write_squad

from leanmark.moves.known import Known

BIRK = ("--trainee", "Birk Å")


def readings(squad: Path, factor: float = 1.03) -> list[str]:
    """What a scale would show if Birk pulled a little more than the model expects."""
    words = []
    for mark in ("-100 cm", "-80 cm", "-60 cm"):
        start = ask("load", "row", "--mark", mark, "--squad", squad, *BIRK, "--json").data["phases"][0]
        words += ["--reading", f"{mark} = {factor * start['strap_total_n']['value']:.1f} n"]
    return words


def test_readings_become_lines_that_a_squad_file_takes(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    said = ask("calibrate", "row", "--squad", squad, *BIRK, *readings(squad))
    assert said.code == 0
    pasted = "\n" + said.out[said.out.index("# paste below") :]
    calibrated = write_squad(tmp_path, pasted, name="calibrated.toml")
    before, after = (
        ask("load", "row", "--squad", file, *BIRK, "--json").data["phases"][0]["load_percent"]
        for file in (squad, calibrated)
    )
    assert after["value"] > before["value"]
    assert after["high"] - after["low"] < before["high"] - before["low"]


def test_the_table_shows_scale_and_model_before_and_after(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    lines = ask("calibrate", "row", "--squad", squad, *BIRK, *readings(squad)).out.splitlines()
    assert lines[0].split("  ")[0] == "mark"
    for line in lines[2:5]:
        _, scale, before, after = (cell.strip() for cell in line.split("  ") if cell.strip())
        read, was, now = (float(cell.removesuffix(" kg-force")) for cell in (scale, before, after))
        assert abs(read - now) < abs(read - was)


def test_the_same_as_data(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    data = ask("calibrate", "row", "--squad", squad, *BIRK, *readings(squad), "--json").data
    assert Known(**data["calibration"]).move == "row"
    assert [set(row) for row in data["readings"]] == [{"mark_m", "read_n", "before_n", "after_n"}] * 3


def test_calibrating_again_starts_from_no_readings(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    words = ("--squad", squad, *BIRK, *readings(squad))
    first = ask("calibrate", "row", *words)
    pasted = "\n" + first.out[first.out.index("# paste below") :]
    again = ask("calibrate", "row", "--squad", write_squad(tmp_path, pasted), *words[2:])
    assert again.out == first.out


def test_a_coarser_scale_tells_less(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    fine, coarse = (
        ask(
            "calibrate", "row", "--squad", squad, *BIRK, *readings(squad), "--scale-error", error, "--json"
        ).data
        for error in ("0.2 kgf", "3 kgf")
    )
    widths = [data["calibration"]["pressure_deviation"] for data in (fine, coarse)]
    assert widths[0] < widths[1]


def test_readings_that_do_not_fit_are_refused_with_what_would(tmp_path: Path) -> None:
    squad = write_squad(tmp_path)
    line = refused("calibrate", "row", "--squad", squad, *BIRK, *readings(squad, factor=2.0))
    assert line.startswith("--reading = '-")
    assert "as close as the model can come" in line
    assert "check mark, strap length, anchor and scale" in line


FIELDS = {
    "move": '"row"',
    "com_share": "0",
    "com_share_deviation": "0.01",
    "pressure": "0",
    "pressure_deviation": "0.5",
}


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("move", '"rwo"', '"rwo" is not a move of the library; write "row"'),
        (
            "pressure",
            "3",
            "calibration.pressure = 3 is outside -1 to 1; copy what leanmark calibrate printed",
        ),
        ("com_share", '"1 %"', 'calibration.com_share = "1 %" is not a number'),
        ("pressure_deviation", "nan", "calibration.pressure_deviation = nan is outside 0.0–0.5"),
        ("pressur", "0.1", '"pressur" is not a field here; write pressure'),
    ],
)
def test_a_wrong_calibration_table_is_named_with_its_line(
    tmp_path: Path, field: str, value: str, said: str
) -> None:
    lines = [f"{name} = {text}\n" for name, text in {**FIELDS, field: value}.items()]
    squad = write_squad(tmp_path, "".join(["[trainee.calibration]\n", *lines]))
    line = refused("cards", squad, "--out", tmp_path / "out")
    written = squad.read_text("utf-8").splitlines()
    number = written.index(f"{field} = {value}") + 1
    assert f'squad.toml:{number}: trainee 2 "Birk Å": {said}' in line
    assert not (tmp_path / "out").exists()
