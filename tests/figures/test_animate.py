"""The moving figure: what is seen when, and what it says to those who cannot or will not watch."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.figures.pictures import SVG, parsed, points, size
from tests.figures.test_from_rep import standing_in

from leanmark.figures.animate import LEAST_PAUSE_S, animate, schedule
from leanmark.figures.from_rep import rep_scenes
from leanmark.mechanics.dynamics import Tempo
from leanmark.mechanics.rep import lobatto_nodes

SECONDS = st.floats(0.2, 6.0)
PAUSES = st.floats(0.0, 3.0)


def moving_row(poses: int = 5) -> str:
    standing = standing_in("row", 1)
    rep, _ = standing.rep(np.array([-0.6]), np.zeros(1, dtype=np.intp), poses)
    scenes = rep_scenes(standing, rep, 0, range(poses))
    return animate(scenes, rep.nodes, Tempo(2.0, 1.0, 1.5, 0.0), key="row", title="row, leaning")


@given(SECONDS, PAUSES, SECONDS, PAUSES, st.integers(2, 17), st.floats(0.0, 1.0, exclude_max=True))
def test_one_pose_and_one_phase_are_seen_at_any_time(
    down: float, low: float, up: float, high: float, poses: int, at: float
) -> None:
    frames, phases, _ = schedule(lobatto_nodes(poses), Tempo(down, low, up, high))
    for shown in (frames, phases):
        seen = [k for k, one in enumerate(shown) if any(a <= at < b for a, b in one.spans)]
        assert len(seen) == 1


def test_poses_follow_the_minimum_jerk_course_of_the_tempo() -> None:
    # Flash and Hogan 1985, J Neurosci 5:1688, from memory: x = 10 t^3 - 15 t^4 + 6 t^5. The pose shown is the
    # nearest in time, so its place is off by no more than half the widest gap between nodes.
    nodes = lobatto_nodes(33)
    frames, _, cycle_s = schedule(nodes, Tempo(2.0, 1.0, 1.5, 0.5))
    assert cycle_s == pytest.approx(5.0)
    for share in np.linspace(0.01, 0.99, 23):
        for begin, seconds, back in ((0.0, 1.5, False), (2.0, 2.0, True)):
            at = (begin + share * seconds) / cycle_s
            wanted = 10 * share**3 - 15 * share**4 + 6 * share**5
            seen = next(k for k, one in enumerate(frames) if any(a <= at < b for a, b in one.spans))
            assert abs(nodes[seen] - (1.0 - wanted if back else wanted)) < np.diff(nodes).max()


def test_pauses_of_no_time_are_still_shown_for_a_moment() -> None:
    assert schedule(lobatto_nodes(5), Tempo(1.0, 0.0, 1.0, 0.0))[2] == pytest.approx(2.0 + 2 * LEAST_PAUSE_S)


def test_the_picture_is_whole_and_within_its_frame() -> None:
    root = parsed(moving_row())
    width, height = size(root)
    for x, y in points(root):
        assert -1.0 <= x <= width + 1.0
        assert -1.0 <= y <= height + 1.0


def test_it_can_be_paused_by_keyboard_and_stands_still_for_those_who_ask() -> None:
    root = parsed(moving_row())
    links = {link.attrib["aria-label"]: link.attrib["href"] for link in root.iter(f"{SVG}a")}
    assert links == {"pause the rep": "#row-paused", "play the rep": "#row-playing"}
    assert any(one.attrib.get("id") == "row-paused" for one in root.iter())
    sheet = next(root.iter(f"{SVG}style")).text or ""
    assert "#row-paused:target~.row-moves{animation-play-state:paused}" in sheet
    still = re.search(r"@media \(prefers-reduced-motion:reduce\)\{(.*?)\}\}", sheet)
    assert still is not None
    assert ".row-moves{animation:none}" in still[1]
    assert ".row-still{visibility:visible" in still[1]
    assert "<script" not in moving_row()


def test_it_is_told_in_words() -> None:
    root = parsed(moving_row())
    assert root.findtext(f"{SVG}title") == "row, leaning"
    assert "repeated at its tempo" in (root.findtext(f"{SVG}desc") or "")
    said = {one.text for one in root.iter(f"{SVG}text")}
    assert {"concentric 1.5 s", "pause 0 s", "eccentric 2 s", "pause 1 s"} <= said


def test_every_pose_is_drawn_once() -> None:
    groups = re.findall(r'class="row-moves row-pose(\d+)"', moving_row(7))
    assert groups == [str(k) for k in range(7)]


def test_a_hold_is_refused() -> None:
    standing = standing_in("row", 1)
    rep, _ = standing.rep(np.array([-0.6]), np.zeros(1, dtype=np.intp), 3)
    with pytest.raises(ValueError, match="a hold does not move"):
        animate(rep_scenes(standing, rep, 0, [0]), rep.nodes[:1], Tempo(1, 0, 1, 0), key="x")
