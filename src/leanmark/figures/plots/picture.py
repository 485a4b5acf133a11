"""From an Altair chart to SVG text of exact size, with its words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal, TypedDict, Unpack

import altair as alt
import vl_convert

from leanmark.figures.plots.look import Look
from leanmark.figures.svg import attributes, clean, words

Rows = Sequence[dict[str, Any]]
"""Records of a layer: column to value."""
Align = Literal["left", "center", "right"]


class TextStyle(TypedDict, total=False):
    """How words are set; sizes in px."""

    baseline: Literal["top", "middle", "bottom"]
    dx: float
    dy: float
    color: str
    fontSize: float
    fontWeight: Literal["bold"]
    limit: float
    stroke: str
    strokeWidth: float
    strokeJoin: Literal["round"]


_HEAD: Final = 'class="marks"'


@dataclass(frozen=True)
class Canvas:
    """Where a chart is drawn: its look, the height of the drawn part and the room around it [px], all rounded
    to whole pixels, and the values at its edges. Axes run from ``across`` left to right and from ``up``
    bottom to top."""

    look: Look
    height_px: float
    left_px: float
    right_px: float
    top_px: float
    bottom_px: float
    across: tuple[float, float]
    up: tuple[float, float]

    @property
    def width_px(self) -> int:
        """Width of the drawn part."""
        return round(self.look.width_px) - round(self.left_px) - round(self.right_px)

    def x(self, field: str) -> alt.X:
        """A column on the axis across."""
        return alt.X(f"{field}:Q", scale=alt.Scale(domain=list(self.across), nice=False), axis=None)

    def y(self, field: str) -> alt.Y:
        """A column on the axis up."""
        return alt.Y(f"{field}:Q", scale=alt.Scale(domain=list(self.up), nice=False), axis=None)

    def boxes(self, rows: Rows, fill: str, stroke: str | None, stroke_px: float) -> alt.Chart:
        """Rectangles between the columns x, x2 and y, y2."""
        marked = alt.Chart(data_of(rows)).mark_rect(fill=fill, stroke=stroke, strokeWidth=stroke_px)
        found: alt.Chart = marked.encode(x=self.x("x"), x2="x2:Q", y=self.y("y"), y2="y2:Q")
        return found

    def lines(self, rows: Rows, colour: str, width_px: float, dash: Sequence[float] = ()) -> alt.Chart:
        """Straight lines between the columns x, y and x2, y2."""
        marked = alt.Chart(data_of(rows)).mark_rule(
            color=colour, strokeWidth=width_px, strokeDash=[*dash] or [1, 0], opacity=1
        )
        found: alt.Chart = marked.encode(x=self.x("x"), x2="x2:Q", y=self.y("y"), y2="y2:Q")
        return found

    def texts(self, rows: Rows, align: Align, **style: Unpack[TextStyle]) -> alt.Chart:
        """The column ``words`` at the columns x and y."""
        marked: alt.Chart = alt.Chart(data_of(rows)).mark_text(align=align, clip=False, **style)
        found: alt.Chart = marked.encode(x=self.x("x"), y=self.y("y"), text=alt.Text("words:N"))
        return found

    def halos(self, rows: Rows, align: Align, **style: Unpack[TextStyle]) -> alt.Chart:
        """The words in thick lines of the ground's colour, to be set under ``texts`` alike."""
        width, colour = 0.3 * self.look.font_px, self.look.colours.ground
        thick: TextStyle = {**style, "stroke": colour, "strokeWidth": width, "strokeJoin": "round"}
        return self.texts(rows, align, **thick)

    def svg(self, layers: Sequence[alt.Chart], title: str, said: str) -> str:
        """The layers as one picture; said: what it shows, in words."""
        chart = alt.layer(*layers).properties(
            width=self.width_px,
            height=round(self.height_px),
            autosize=alt.AutoSizeParams(type="none"),
            padding={
                "left": round(self.left_px),
                "right": round(self.right_px),
                "top": round(self.top_px),
                "bottom": round(self.bottom_px),
            },
        )
        spec = chart.to_dict(validate=False) | {"config": self.look.config()}
        return _said(vl_convert.vegalite_to_svg(spec), title, said, self.look)


def data_of(rows: Rows) -> alt.Data:
    """Records as a layer's own data, their words cleared of what XML forbids."""
    shown = [
        {key: clean(value) if isinstance(value, str) else value for key, value in row.items()} for row in rows
    ]
    return alt.Data(values=shown)  # type: ignore[no-untyped-call]


def _said(svg: str, title: str, said: str, look: Look) -> str:
    """The picture with title, description and patterns."""
    head, _, body = svg.partition(_HEAD)
    opened, _, inside = body.partition(">")
    named = attributes(role="img", aria_label=title)
    return (
        f"{head}{_HEAD}{opened}{named}>{words('title', title)}{words('desc', said)}{look.patterns()}{inside}"
    )
