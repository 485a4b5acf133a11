"""Turns a template and plain data into a PDF."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib import resources

import typst


def typeset(template: str, name: str, data: Mapping[str, object]) -> bytes:
    """One PDF of a template of this package; ``data`` reaches it as JSON under ``name``."""
    pdf = _compiler().compile(_template(template), format="pdf", sys_inputs={name: json.dumps(data)})
    if not isinstance(pdf, bytes):
        raise TypeError(f"the typesetter returned {type(pdf).__name__} instead of one PDF")
    return pdf


@cache
def _compiler() -> typst.Compiler:
    """One compiler for all, so that fonts are read and figures are decoded once."""
    return typst.Compiler()


@cache
def _template(name: str) -> bytes:
    return resources.files(__package__).joinpath(name).read_bytes()
