"""A squad file becomes a squad: the demo, defaults, units, and what is the same."""

from __future__ import annotations

import copy
import pickle
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.squad.files import EDDA, TOP, problem_of

from leanmark.rig.rig import standard_rig
from leanmark.squad.problems import SquadFileError
from leanmark.squad.read import read_squad, squad_from_bytes
from leanmark.squad.squad import Squad, check_moves
from leanmark.units import UNITS

DEMO = Path(__file__).resolve().parents[2] / "demo" / "squad.toml"


@pytest.fixture(scope="module")
def demo() -> Squad:
    return read_squad(DEMO)


def test_the_demo_squad_is_ten_people_of_different_build(demo: Squad) -> None:
    builds = [trainee.build for trainee in demo.trainees]
    assert len(builds) == 10
    assert (min(b.stature_m for b in builds), max(b.stature_m for b in builds)) == (1.55, 1.98)
    assert (min(b.mass_kg for b in builds), max(b.mass_kg for b in builds)) == (50, 105)
    assert {build.sex for build in builds} == {"female", "male", None}
    assert [dict(build.lengths_m) for build in builds if build.lengths_m] == [{"thigh": 0.46}]


def test_the_demo_rig_has_four_rated_anchors(demo: Squad) -> None:
    assert demo.rig.anchor_count == 4
    assert demo.rig.rated_load_n == 12_000
    assert demo.rig.settings_m["long"] == 2.15


def test_wanted_loads_are_fractions_and_left_out_mean_the_moves_own(demo: Squad) -> None:
    assert demo.wanted_load_fractions == ()
    assert demo.moves == ()
    with_loads = squad_from_bytes((TOP + "[cards]\nloads_percent = [25, 40]\n" + EDDA).encode())
    assert with_loads.wanted_load_fractions == (0.25, 0.4)


def test_the_shortest_file_takes_every_default() -> None:
    squad = squad_from_bytes((TOP + EDDA).encode())
    assert squad.rig == standard_rig(2.45, name="Rig")
    assert squad.units == "metric"
    assert squad.wanted_load_fractions == ()
    assert squad.trainees[0].build.sex is None
    assert squad.trainees[0].build.lengths_m == {}


def test_all_units_give_the_same_squad() -> None:
    metric = TOP + EDDA
    other = metric.replace("anchor_height_m = 2.45", "anchor_height_cm = 245").replace(
        "stature_m = 1.7", "stature_cm = 170"
    )
    assert squad_from_bytes(metric.encode()) == squad_from_bytes(other.encode())


def test_pounds_and_inches() -> None:
    text = (
        TOP + '[[trainee]]\nname = "Birk"\nstature_in = 70\nmass_lb = 200\n[trainee.lengths_in]\nthigh = 17\n'
    )
    build = squad_from_bytes(text.encode()).trainees[0].build
    # exact factors of NIST SP 811 and one rounding to a float: 70 in, 200 lb, 17 in
    assert build.stature_m == 1.778
    assert build.mass_kg == 90.718474
    assert build.lengths_m == {"thigh": 0.4318}


@pytest.mark.parametrize("suffix", ["n", "kn", "kgf", "lbf"])
def test_the_rating_in_every_unit_of_force(suffix: str) -> None:
    value = 12_000 / float(UNITS[suffix].factor)
    text = f"{TOP}rated_load_{suffix} = {value!r}\n{EDDA}"
    # two roundings of a float: 2 half-units in the last place
    assert squad_from_bytes(text.encode()).rig.rated_load_n == pytest.approx(12_000, rel=2**-51)


def test_byte_order_mark_and_line_ends_of_any_editor() -> None:
    plain = (TOP + EDDA).encode()
    assert squad_from_bytes(b"\xef\xbb\xbf" + plain) == squad_from_bytes(plain)
    assert squad_from_bytes(plain.replace(b"\n", b"\r\n")) == squad_from_bytes(plain)


def test_names_are_tidied_and_keep_their_script() -> None:
    text = TOP + EDDA.replace("Edda", "  Asa\u030a  ") + EDDA.replace("Edda", "\u0633\u200c\u0645")
    names = [trainee.name for trainee in squad_from_bytes(text.encode()).trainees]
    assert names == ["Aså", "\u0633\u200c\u0645"]


def test_notes_may_have_line_breaks() -> None:
    text = 'notes = """one\n\ttwo"""\n' + TOP + EDDA
    assert squad_from_bytes(text.encode()).notes == "one\n\ttwo"


def test_a_squad_survives_copies(demo: Squad) -> None:
    assert pickle.loads(pickle.dumps(demo)) == demo == copy.deepcopy(demo)


@given(
    stature_mm=st.integers(1000, 2500),
    mass_hg=st.integers(200, 3000),
    name=st.text(alphabet=st.characters(categories=["L", "N"]), min_size=1, max_size=20),
)
def test_what_is_written_is_what_is_read(stature_mm: int, mass_hg: int, name: str) -> None:
    text = f'{TOP}[[trainee]]\nname = "{name}"\nstature_m = {stature_mm / 1000}\nmass_kg = {mass_hg / 10}\n'
    build = squad_from_bytes(text.encode()).trainees[0].build
    assert (build.stature_m, build.mass_kg) == (stature_mm / 1000, mass_hg / 10)


def test_unknown_moves_are_named_with_their_line_and_the_nearest_move() -> None:
    text = TOP + '[cards]\nmoves = [\n  "row",\n  "chest pres",\n  "cartwheel",\n]\n' + EDDA
    squad = squad_from_bytes(text.encode(), "club.toml")
    with pytest.raises(SquadFileError) as caught:
        check_moves(squad, {"row", "chest press", "front plank"})
    assert str(caught.value).split("\n") == [
        'club.toml:7: cards: "chest pres" is not a move of the library; write "chest press"',
        'club.toml:8: cards: "cartwheel" is not a move of the library; '
        "name a move of the library, or delete it",
    ]
    check_moves(squad, {"row", "chest pres", "cartwheel"})


def test_the_sample_of_the_page_reads_and_its_error_line_is_real() -> None:
    page = (DEMO.parents[1] / "docs" / "squad-file.md").read_text(encoding="utf-8")
    sample = page.split("```toml\n")[1].split("```")[0]
    assert len(squad_from_bytes(sample.encode()).trainees) == 2
    shown = page.split("```text\n")[1].split("\n")[0]
    others = EDDA.replace("Edda", "Asta") + EDDA.replace("Edda", "Birk")
    assert problem_of(TOP + others + EDDA.replace("1.7", "178")) == shown
