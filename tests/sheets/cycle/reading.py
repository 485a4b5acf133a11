"""Reads sheets back: words, page sizes and alternative texts of a PDF."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader
from pypdf.generic import PdfObject


def texts(pdf: bytes) -> list[str]:
    """Each page's words, with single spaces."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


def sizes_pt(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of each page."""
    boxes = [page.mediabox for page in PdfReader(BytesIO(pdf)).pages]
    return [(float(box.width), float(box.height)) for box in boxes]


def alts(pdf: bytes) -> list[str]:
    """The alternative texts of pictures, in reading order."""
    found: list[str] = []

    def walk(node: PdfObject) -> None:
        one = node.get_object()
        if isinstance(one, list):
            for part in one:
                walk(part)
        elif hasattr(one, "get"):
            if "/Alt" in one:
                found.append(str(one["/Alt"]))
            if "/K" in one:
                walk(one["/K"])

    walk(PdfReader(BytesIO(pdf)).trailer["/Root"]["/StructTreeRoot"])
    return found
