"""What is printed on terminals that lack our signs."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from tests.cli.ask import HER, ask
from tests.cli.squads import write_squad

from leanmark.cli.printed import print_json, table, whole_range
from leanmark.cli.terminal import PLAIN_SIGNS, say_what_it_can


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252", "cp437"])
def test_a_minus_sign_is_never_lost(encoding: str) -> None:
    said = ask("load", "row", "--mark", "-70 cm", *HER, encoding=encoding)
    assert said.code == 0
    assert "heels at -70 cm from" in said.out


@pytest.mark.parametrize("sign", PLAIN_SIGNS)
def test_every_sign_has_a_plain_one(sign: str) -> None:
    stream = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    say_what_it_can(stream)
    stream.write(f"a{sign}b å")
    stream.flush()
    assert stream.buffer.getvalue() == f"a{PLAIN_SIGNS[sign]}b ?".encode("ascii")  # type: ignore[attr-defined]


def test_streams_that_cannot_be_set_are_left_alone() -> None:
    stream = io.StringIO()
    say_what_it_can(stream)
    stream.write("−")
    assert stream.getvalue() == "−"


def test_data_is_utf_8_whatever_the_terminal(tmp_path: Path) -> None:
    words = ("cards", write_squad(tmp_path), "--out", tmp_path / "out", "--json")
    said = ask(*words, encoding="latin-1")
    names = {
        answer["trainee"] for answer in json.loads(said.out.encode("latin-1").decode("utf-8"))["answers"]
    }
    assert names == {"Asta", "Birk Å"}


def test_not_a_number_is_null(capsys: pytest.CaptureFixture[str]) -> None:
    print_json({"load": float("nan")})
    assert capsys.readouterr().out == '{"load":null}\n'


def test_columns_line_up() -> None:
    lines = table(("a", "bb"), [("long cell", "1"), ("x", "22")]).splitlines()
    assert lines == ["a          bb", "---------  --", "long cell  1", "x          22"]


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [(-0.4, 9.2, "0 to 9 %"), (-12.6, -1.0, "−13 to −1 %"), (40.0, 40.4, "40 to 40 %")],
)
def test_ranges_have_a_real_minus_and_no_negative_zero(low: float, high: float, shown: str) -> None:
    assert whole_range(low, high, "%") == shown
