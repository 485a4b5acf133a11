"""Lay out what a move file inherits, so that shared things are written once.

``like`` at the top of a file names a shared set-up or, in a coach's own file, a move to start from; in a
rung, an earlier rung of the same move; in a pose, one or more named poses. Every move also inherits its
family's texts. What a file says itself is laid over what it inherits: mappings entry by entry, anything
else replaced; only the lists of who should not do a move and what ends a set are added to.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from leanmark.errors import FieldError

Raw = dict[str, Any]
ADDED_TO: Final = ("not-for", "stop")
"""Lists that a file adds to instead of replacing."""
OWN_TO_EACH: Final = ("harder-by",)
"""Entries that a rung does not take over from the rung that it is like."""
POSES: Final = ("angles", "start", "key", "end")


def merged(base: Mapping[str, Any], over: Mapping[str, Any]) -> Raw:
    """``over`` laid over ``base``."""
    out = dict(base)
    for key, value in over.items():
        before = out.get(key)
        if isinstance(before, dict) and isinstance(value, dict):
            out[key] = merged(before, value)
        elif key in ADDED_TO and isinstance(before, list) and isinstance(value, list):
            out[key] = [*before, *(text for text in value if text not in before)]
        else:
            out[key] = value
    return out


def laid_out(
    raw: Raw,
    named: Callable[[str], Raw],
    families: Mapping[str, Raw],
    poses: Mapping[str, Raw],
) -> Raw:
    """A move file's mapping with everything inherited laid out.

    named: finds the mapping of a set-up or move by its name (and refuses unknown ones with FieldError);
    families: by name what each family's moves share; poses: the named poses.

    Raises FieldError for a rung or pose that is not there.
    """
    whole = _with_likes(raw, named)
    family = families.get(str(whole.get("family")), {})
    whole = merged(family, whole)
    whole["rungs"] = _laid_out_rungs(whole.get("rungs") or [])
    return _with_poses(whole, poses)


def _with_likes(raw: Raw, named: Callable[[str], Raw]) -> Raw:
    if "like" not in raw:
        return dict(raw)
    base = _with_likes(named(str(raw["like"])), named)
    own = {key: value for key, value in raw.items() if key != "like"}
    rungs = _joined_rungs(base.pop("rungs", None) or [], own.pop("rungs", None) or [])
    return {**merged(base, own), "rungs": rungs}


def _joined_rungs(base: list[Raw], own: list[Raw]) -> list[Raw]:
    """The base's rungs, each changed by the own rung of its name; other own rungs follow."""
    changes = {rung.get("rung"): rung for rung in own}
    kept = [merged(rung, changes.pop(rung.get("rung"), {})) for rung in base]
    return [*kept, *changes.values()]


def _laid_out_rungs(rungs: list[Raw]) -> list[Raw]:
    done: dict[str, Raw] = {}
    for rung in rungs:
        whole = rung
        if isinstance(rung, dict) and "like" in rung:
            model = done.get(str(rung["like"]))
            if model is None:
                known = ", ".join(done) or "none"
                remedy = "name a rung further up the same file"
                raise FieldError("like", rung["like"], f"an earlier rung: {known}", remedy)
            inherited = {key: value for key, value in model.items() if key not in OWN_TO_EACH}
            whole = merged(inherited, {key: value for key, value in rung.items() if key != "like"})
        if isinstance(whole, dict):
            done[str(whole.get("rung"))] = whole
    return [*done.values()] if len(done) == len(rungs) else rungs


def _with_poses(whole: Raw, poses: Mapping[str, Raw]) -> Raw:
    """The move and its rungs with named poses laid under the angles that call on them."""
    whole = _phases_posed(whole, poses)
    whole["rungs"] = [
        _phases_posed(_posed_entries(rung, poses), poses) if isinstance(rung, dict) else rung
        for rung in whole["rungs"]
    ]
    return whole


def _phases_posed(part: Raw, poses: Mapping[str, Raw]) -> Raw:
    if not isinstance(part.get("phases"), dict):
        return dict(part)
    return {**part, "phases": _posed_entries(part["phases"], poses)}


def _posed_entries(part: Raw, poses: Mapping[str, Raw]) -> Raw:
    return {key: _posed(value, poses) if key in POSES else value for key, value in part.items()}


def _posed(angles: object, poses: Mapping[str, Raw]) -> object:
    if not isinstance(angles, dict) or "like" not in angles:
        return angles
    likes = angles["like"] if isinstance(angles["like"], list) else [angles["like"]]
    base: Raw = {}
    for name in likes:
        if name not in poses:
            raise FieldError("like", name, f"a named pose: {', '.join(poses)}", "check the spelling")
        base = merged(base, poses[name])
    return merged(base, {key: value for key, value in angles.items() if key != "like"})
