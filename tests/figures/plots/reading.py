"""Reads charts back: their words, and the boxes of one fill."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"


def root_of(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def words_of(svg: str) -> list[str]:
    """Everything that is written on the chart."""
    return ["".join(one.itertext()) for one in root_of(svg).iter(f"{SVG}text")]


def said(svg: str) -> tuple[str, str]:
    """Title and description."""
    root = root_of(svg)
    return root.findtext(f"{SVG}title") or "", root.findtext(f"{SVG}desc") or ""


def boxes(svg: str, fill: str) -> list[tuple[float, float, float, float]]:
    """Left, top, width and height of the rectangles of a fill, in the drawn part's pixels."""
    found = []
    for one in root_of(svg).iter(f"{SVG}path"):
        if one.get("fill") != fill:
            continue
        number = r"(-?[\d.]+(?:e-?\d+)?)"
        match = re.fullmatch(rf"M{number},{number}h{number}v{number}h-?[\d.]+Z", one.get("d") or "")
        assert match is not None, one.get("d")
        left, top, width, height = (float(part) for part in match.groups())
        found.append((left, min(top, top + height), abs(width), abs(height)))
    return found


def placed_words(svg: str) -> Iterator[tuple[str, float, float]]:
    """Each word with its place in the drawn part [px]."""
    for one in root_of(svg).iter(f"{SVG}text"):
        match = re.match(r"translate\((-?[\d.]+),(-?[\d.]+)\)", one.get("transform") or "")
        assert match is not None
        yield "".join(one.itertext()), float(match[1]), float(match[2])
