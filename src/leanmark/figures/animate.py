"""A rep as a moving figure: one SVG without script that repeats the rep at its tempo.

Every pose is drawn once and shown in turn by style-sheet animation. Two links at the top pause and resume it
(the paused state is the link's target, so keyboard and screen reader reach it), and where the reader's
settings ask for less motion the still figure stands instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from leanmark.figures.draw import describe, figure_parts, ghost_parts, ground_parts, style_for
from leanmark.figures.floor import paint_floor
from leanmark.figures.labels import text
from leanmark.figures.scene import Scene
from leanmark.figures.style import Style
from leanmark.figures.svg import document, element
from leanmark.mechanics.arrays import Floats
from leanmark.mechanics.dynamics import Tempo
from leanmark.mechanics.rep import time_at_course
from leanmark.units import UnitSystem

PHASES: Final = ("concentric", "pause", "eccentric", "pause")
"""In the order in which a rep is shown: from its start to its end and back."""
LEAST_PAUSE_S: Final = 0.3
"""Shortest rest at either end of the moving figure, so that the eye finds the ends; own figure."""

HEADER: Final = 3.0
"""Height of the strip with the links and the phase's name, in letter heights: room for a finger."""


@dataclass(frozen=True)
class Shown:
    """When something is to be seen in each cycle: spans of shares of the cycle, (from, to)."""

    spans: tuple[tuple[float, float], ...]


def animate(
    scenes: Sequence[Scene],
    nodes: Floats,
    tempo: Tempo,
    view: str = "side",
    width_px: float = 640.0,
    height_px: float | None = None,
    *,
    key: str,
    theme: str = "light",
    units: UnitSystem = "metric",
    font_px: float = 12.0,
    title: str = "",
) -> str:
    """One moving figure as SVG text.

    scenes: K poses along a rep; nodes: (K,) their places on the path, 0 the start and 1 the end; tempo: its
    times, of which the pauses are shown no shorter than ``LEAST_PAUSE_S``; key: letters, digits and hyphens
    that no other figure of the page has. The rest as in ``draw``.

    Raises:
        ValueError: fewer than two scenes, or what ``draw`` refuses.
    """
    if len(scenes) < 2:
        raise ValueError("a hold does not move; draw it as a still figure")
    style = style_for(scenes, view, width_px, height_px, theme, units, font_px, False, HEADER * font_px)
    frames, phases, cycle_s = schedule(nodes, tempo)
    parts = [
        element("style", _sheet(key, frames, phases, cycle_s)),
        element("g", id=f"{key}-paused"),
        *_links(key, style),
        *ground_parts(scenes[-1], style),
        paint_floor(style),
    ]
    for number, scene in enumerate(scenes):
        drawn = "".join(figure_parts(scene, style, forces=False))
        parts.append(element("g", drawn, class_=f"{key}-moves {key}-pose{number}", aria_hidden="true"))
    for number, (name, seconds) in enumerate(phases_in_words(tempo)):
        parts.append(_phase_words(f"{name} {seconds:g} s", f"{key}-moves {key}-phase{number}", style))
    still = [*ghost_parts(scenes[:1], style), *figure_parts(scenes[-1], style, forces=False)]
    parts.append(element("g", "".join(still), class_=f"{key}-still", aria_hidden="true"))
    name = title or f"A rep on the rig from the {view}"
    said = f"The rep, repeated at its tempo. At its end: {describe(scenes[-1], units)}"
    return document(style.frame.width_px, style.frame.height_px, name, said, style.theme.ground, parts)


def phases_in_words(tempo: Tempo) -> list[tuple[str, float]]:
    """The four phases in the order in which they are shown, with their times [s] as the tempo has them."""
    times = (tempo.concentric_s, tempo.high_pause_s, tempo.eccentric_s, tempo.low_pause_s)
    return list(zip(PHASES, times, strict=True))


def schedule(nodes: Floats, tempo: Tempo) -> tuple[list[Shown], list[Shown], float]:
    """When each pose and each phase is seen, and how long the cycle is [s].

    A pose is seen from half way after the pose before it to half way to the next, in time, on the way to the
    end and on the way back. Poses follow the minimum-jerk course in time.
    """
    times = [seconds for _, seconds in phases_in_words(tempo)]
    lasting = [times[0], max(times[1], LEAST_PAUSE_S), times[2], max(times[3], LEAST_PAUSE_S)]
    begins = np.concatenate([[0.0], np.cumsum(lasting)])
    cycle_s = float(begins[-1])
    there = time_at_course(nodes) * lasting[0]
    back = begins[2] + time_at_course(1.0 - nodes) * lasting[2]
    frames = []
    for number in range(len(nodes)):
        spans = [_span(there, number, 0.0, begins[2]), _span(back[::-1], -1 - number, begins[1], cycle_s)]
        if number == len(nodes) - 1:
            spans = [(spans[0][0], spans[1][1])]
        frames.append(Shown(tuple((low / cycle_s, high / cycle_s) for low, high in spans)))
    phases = [Shown(((begins[k] / cycle_s, begins[k + 1] / cycle_s),)) for k in range(4)]
    return frames, phases, cycle_s


def _span(times_s: Floats, number: int, first_s: float, last_s: float) -> tuple[float, float]:
    """From half way after the one before to half way to the next; the outer ones to the ends given."""
    number %= len(times_s)
    low = first_s if number == 0 else 0.5 * (times_s[number - 1] + times_s[number])
    high = last_s if number == len(times_s) - 1 else 0.5 * (times_s[number] + times_s[number + 1])
    return float(low), float(high)


def _sheet(key: str, frames: Sequence[Shown], phases: Sequence[Shown], cycle_s: float) -> str:
    rules = [
        f".{key}-moves{{visibility:hidden;animation:{cycle_s:g}s step-end infinite}}",
        f".{key}-still{{visibility:hidden}}",
        f"#{key}-paused:target~.{key}-moves{{animation-play-state:paused}}",
        f"#{key}-paused:target~.{key}-pause,.{key}-play{{visibility:hidden}}",
        f"#{key}-paused:target~.{key}-play{{visibility:visible}}",
        f"@media (prefers-reduced-motion:reduce){{.{key}-moves{{animation:none}}"
        f".{key}-still{{visibility:visible}}.{key}-pause,.{key}-play{{visibility:hidden}}}}",
    ]
    for kind, shown in (("pose", frames), ("phase", phases)):
        for number, one in enumerate(shown):
            name = f"{key}-{kind}{number}"
            rules.append(f".{name}{{animation-name:{name}}}@keyframes {name}{{{_keyframes(one)}}}")
    return "".join(rules)


def _keyframes(shown: Shown) -> str:
    stops = {0.0: "hidden"}
    for low, high in shown.spans:
        if high > low:
            stops[low], stops[high] = "visible", "hidden"
    return "".join(
        f"{100.0 * share:.2f}%{{visibility:{what}}}" for share, what in sorted(stops.items()) if share < 1.0
    )


def _links(key: str, style: Style) -> list[str]:
    """Pause and play in the upper left corner; only one of the two is seen."""
    found = []
    font_px, theme = style.font_px, style.theme
    for word, target in (("pause", f"#{key}-paused"), ("play", f"#{key}-playing")):
        room = element("rect", width=5.0 * font_px, height=HEADER * font_px, fill="transparent")
        label = text(word, 0.8 * font_px, 1.9 * font_px, font_px, theme, theme.accent, "start", bold=True)
        link = element("a", room + label, href=target, aria_label=f"{word} the rep")
        found.append(element("g", link, class_=f"{key}-{word}"))
    return found


def _phase_words(said: str, classes: str, style: Style) -> str:
    right = style.frame.width_px - 0.8 * style.font_px
    label = text(said, right, 1.9 * style.font_px, style.font_px, style.theme, style.theme.soft_ink, "end")
    return element("g", label, class_=classes, aria_hidden="true")
