"""SVG text, written by hand: numbers that are always finite, strings that are always escaped."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable
from xml.sax.saxutils import escape

import numpy as np

from leanmark.mechanics.arrays import Floats

_QUOTES = {'"': "&quot;", "'": "&#39;"}


def number(value: float) -> str:
    """A coordinate to a hundredth of a pixel, as short as it goes.

    Raises:
        ValueError: the value is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a figure's coordinate is {value}; it must be finite")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def clean(text: str) -> str:
    """The text without characters that XML forbids (control and unpaired surrogate characters)."""
    if text.isprintable():  # path data is long, and plain
        return text
    return "".join(c for c in text if unicodedata.category(c) not in ("Cc", "Cs") and c not in "\ufffe\uffff")


def attributes(**values: str | float | None) -> str:
    """XML attributes; underscores become hyphens, None is left out."""
    parts = []
    for name, value in values.items():
        if value is None:
            continue
        shown = escape(clean(value), _QUOTES) if isinstance(value, str) else number(value)
        parts.append(f' {name.rstrip("_").replace("_", "-")}="{shown}"')
    return "".join(parts)


def element(tag: str, content: str = "", **values: str | float | None) -> str:
    """One element; ``content`` is markup already."""
    opened = f"<{tag}{attributes(**values)}"
    return f"{opened}>{content}</{tag}>" if content else f"{opened}/>"


def words(tag: str, text: str, **values: str | float | None) -> str:
    """One element that holds plain text, escaped."""
    return element(tag, escape(clean(text)), **values)


def path_data(points_px: Floats, closed: bool = True) -> str:
    """Path commands through pixel points, (N, 2), to a tenth of a pixel.

    Raises:
        ValueError: a coordinate is not finite.
    """
    if not np.all(np.isfinite(points_px)):
        raise ValueError("a figure's path has a coordinate that is not finite")
    tenths = np.round(np.asarray(points_px) * 10.0).astype(np.int64)
    keep = np.ones(len(tenths), dtype=bool)
    keep[1:] = np.any(tenths[1:] != tenths[:-1], axis=1)
    pairs = [f"{_tenth(x)} {_tenth(y)}" for x, y in tenths[keep].tolist()]
    return "M" + "L".join(pairs) + ("Z" if closed else "")


def _tenth(value: int) -> str:
    whole, part = divmod(abs(value), 10)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def path(points_px: Floats, closed: bool = True, **values: str | float | None) -> str:
    """A path through pixel points, (N, 2)."""
    return element("path", "", d=path_data(points_px, closed), **values)


def line(start: tuple[float, float], end: tuple[float, float], **values: str | float | None) -> str:
    """A straight line between two pixel points."""
    return element("line", "", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **values)


def document(
    width_px: float, height_px: float, title: str, description: str, ground: str, content: Iterable[str]
) -> str:
    """A whole SVG picture with its words for those who cannot see it."""
    inside = (
        words("title", title)
        + words("desc", description)
        + element("rect", width=width_px, height=height_px, fill=ground)
        + "".join(content)
    )
    return element(
        "svg",
        inside,
        xmlns="http://www.w3.org/2000/svg",
        width=width_px,
        height=height_px,
        viewBox=f"0 0 {number(width_px)} {number(height_px)}",
        role="img",
        aria_label=title,
    )
