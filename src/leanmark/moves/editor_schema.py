"""The JSON Schema of move files as they are written, for editors that check while one types.

``msgspec`` gives the schema of the structs; this adds ``like`` and the names there are, and asks for no
field that may be inherited.
"""

from __future__ import annotations

import json
from typing import Any, Final

import msgspec

from leanmark.moves.check.field_words import FIELD_WORDS, LIKE_WORDS, POSE_LIKE_WORDS
from leanmark.moves.check.fields import INHERITING, LIKE, fields_of, required_of
from leanmark.moves.files import named_poses, to_start_from
from leanmark.moves.names import (
    ACTIONS_OF,
    LIMITS,
    MOST_ENTRIES,
    NAMES,
    POSE_FIELDS,
    FieldOf,
    angles_of,
    joint_names,
    muscles_of,
)
from leanmark.moves.schema import Move

Node = dict[str, Any]
"""One JSON Schema object."""
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def move_schema(*, whole: bool = True) -> Node:
    """The schema of a move file, JSON Schema draft 2020-12. whole: a move, which has a name, not a set-up."""
    plain = msgspec.json.schema(Move)
    structs = {kind.__name__: kind for kind in FIELD_WORDS}
    defs = {name: _struct(structs[name], node) for name, node in plain["$defs"].items()}
    defs["pose"] = _pose()
    if not whole:
        defs["Move"]["required"] = []
    return {"$schema": _DIALECT, "title": "Move file", "$ref": plain["$ref"], "$defs": defs}


def schema_text() -> str:
    """The schema as it is printed."""
    return json.dumps(move_schema(), indent=2, ensure_ascii=False) + "\n"


def _struct(kind: type[msgspec.Struct], node: Node) -> Node:
    """A struct's schema with names, limits and words; required is only what a file must write itself."""
    properties: Node = {}
    for name, field in fields_of(kind).items():
        own = _field((kind, field.name), node["properties"][name])
        properties[name] = {"description": FIELD_WORDS[kind][name], **own}
    if kind in LIKE_WORDS:
        known = {"enum": [*to_start_from()]} if kind is Move else {"type": "string"}
        properties[LIKE] = {"description": LIKE_WORDS[kind], **known}
    required = [*INHERITING.get(kind, required_of(kind))]
    return {
        "title": node["title"],
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _field(of: FieldOf, node: Node) -> Node:
    if of in POSE_FIELDS:
        pose: Node = {"$ref": "#/$defs/pose"}
        return {"anyOf": [pose, {"type": "null"}]} if "anyOf" in node else pose
    if of in ACTIONS_OF:
        least = {"minProperties": 1} if of[1] == "works" else {}
        actions = {action: _list_of(muscles_of(action)) for action in ACTIONS_OF[of]}
        return {"type": "object", "properties": actions, "additionalProperties": False, **least}
    node = {key: value for key, value in node.items() if key != "default"}
    if of in NAMES:
        node = _named(of, node)
    return _limited(node, LIMITS[of]) if of in LIMITS else _shortened(node)


def _list_of(names: tuple[str, ...]) -> Node:
    return {"type": "array", "items": {"enum": [*names]}, "maxItems": MOST_ENTRIES}


def _named(of: FieldOf, node: Node) -> Node:
    """The names there are instead of any text, or as the names of entries."""
    known = [*NAMES[of].known()]
    if node.get("type") == "object":
        return {**node, "propertyNames": {"enum": known}}
    empty = [""] if of[1] == "under" else []
    nothing = [None] if "anyOf" in node else []
    return {"enum": [*known, *empty, *nothing]}


def _limited(node: Node, limits: tuple[float, float]) -> Node:
    """Numbers anywhere in a node brought within limits."""
    if node.get("type") == "number":
        return {**node, "minimum": limits[0], "maximum": limits[1]}
    out = dict(node)
    for key in ("anyOf", "prefixItems"):
        if key in node:
            out[key] = [_limited(part, limits) for part in node[key]]
    if isinstance(node.get("items"), dict):
        out["items"] = _limited(node["items"], limits)
    return _shortened(out)


def _shortened(node: Node) -> Node:
    """Lists and mappings with no more entries than files may have."""
    if "anyOf" in node:
        return {**node, "anyOf": [_shortened(part) for part in node["anyOf"]]}
    most = {"array": "maxItems", "object": "maxProperties"}.get(str(node.get("type")))
    return {**node, most: min(node.get(most, MOST_ENTRIES), MOST_ENTRIES)} if most else node


def _pose() -> Node:
    """Joints with their angles."""
    name = {"enum": [*named_poses()]}
    joints: Node = {LIKE: {"description": POSE_LIKE_WORDS, "anyOf": [name, {"type": "array", "items": name}]}}
    for joint in joint_names():
        angles = {
            angle: {"type": "number", "minimum": low, "maximum": high}
            for angle, (low, high) in angles_of(joint).items()
        }
        joints[joint] = {"type": "object", "properties": angles, "additionalProperties": False}
    return {"type": "object", "properties": joints, "additionalProperties": False}
