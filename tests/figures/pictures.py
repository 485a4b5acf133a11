"""Reads an SVG picture back: its texts, its shapes and every coordinate in it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def parsed(text: str) -> ElementTree.Element:
    """The picture's root; raises when it is not well-formed XML."""
    return ElementTree.fromstring(text)


def size(root: ElementTree.Element) -> tuple[float, float]:
    """Width and height of the viewbox, which must be the picture's own size."""
    left, top, width, height = (float(value) for value in root.attrib["viewBox"].split())
    assert (left, top) == (0.0, 0.0)
    assert (width, height) == (float(root.attrib["width"]), float(root.attrib["height"]))
    return width, height


def path_points(path: ElementTree.Element) -> list[tuple[float, float]]:
    """All points of a path, moves and lines alike."""
    numbers = [float(value) for value in _NUMBER.findall(path.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def points(root: ElementTree.Element) -> Iterator[tuple[float, float]]:
    """Every point that the picture draws, texts' places included."""
    for one in root.iter():
        if one.tag == f"{SVG}path":
            yield from path_points(one)
        elif one.tag == f"{SVG}line":
            yield float(one.attrib["x1"]), float(one.attrib["y1"])
            yield float(one.attrib["x2"]), float(one.attrib["y2"])
        elif one.tag == f"{SVG}circle":
            yield float(one.attrib["cx"]), float(one.attrib["cy"])
        elif one.tag == f"{SVG}text":
            yield float(one.attrib["x"]), float(one.attrib["y"])


def texts(root: ElementTree.Element) -> list[str]:
    """The words set in the picture."""
    return [one.text or "" for one in root.iter(f"{SVG}text")]


def text_boxes(root: ElementTree.Element, letter: float) -> list[tuple[str, float, float, float, float]]:
    """Words with left, top, right and bottom, a letter taken as ``letter`` times its size wide."""
    boxes = []
    for one in root.iter(f"{SVG}text"):
        shown, font = one.text or "", float(one.attrib["font-size"])
        width = letter * font * len(shown)
        x, y = float(one.attrib["x"]), float(one.attrib["y"])
        left = x - width * {"middle": 0.5, "end": 1.0}.get(one.attrib.get("text-anchor", "start"), 0.0)
        boxes.append((shown, left, y - 0.8 * font, left + width, y + 0.25 * font))
    return boxes
