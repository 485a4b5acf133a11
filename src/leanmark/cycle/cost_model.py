"""The cost of the soft goals in the constraint model, the same as ``score.cost``."""

from __future__ import annotations

from collections.abc import Iterator

from ortools.sat.python.cp_model import IntVar, LinearExpr

from leanmark.cycle.model import Model, Place
from leanmark.cycle.score import MINUTE_S, PER_CENT, least_used_s, main_patterns
from leanmark.cycle.weights import CHOICE_WEIGHTS, MOST_GRIPS, MOST_TIMES, ONE_SIDED

_MOST_HALVES = 1000
"""More half sets than a week holds."""


def add_cost(model: Model) -> int:
    """Minimise what the soft goals cost. Returns the factor by which the objective is larger than the
    cost."""
    weeks = max(sum(count for _, count in model.block.weeks), 1)
    whole = PER_CENT * weeks
    terms = [(goal, scale, amount) for goal, scale, amount in (*_weekly(model), *_overall(model, whole))]
    model.cp.minimize(_total([CHOICE_WEIGHTS[goal].weight * scale * amount for goal, scale, amount in terms]))
    return whole


def _total(terms: list[LinearExpr]) -> LinearExpr:
    return LinearExpr.sum(terms)


def _weekly(model: Model) -> Iterator[tuple[str, int, LinearExpr]]:
    for frames, count in model.block.weeks:
        places = [place for place in model.sets if place[0] in frames]
        yield "sets by muscle group", PER_CENT * count, _outside(model, places)
        yield "balance of patterns", count, _off_balance(model, places)
        yield "variety", PER_CENT * count, _too_often(model, places)
        yield "one side at a time", PER_CENT * count, _few_one_sided(model, places)


def _overall(model: Model, whole: int) -> Iterator[tuple[str, int, LinearExpr]]:
    options = model.block.options
    yield (
        "load as wanted",
        whole,
        _total([(options[o].misfit[f] or 0) * d for (f, o), d in model.does.items()]),
    )
    yield "whole body", whole, _total([*_missing(model)])
    yield "time used", whole, _total([*_idle_minutes(model)])
    yield "liked moves", whole, _total([*_against_likes(model)])
    yield "strap changes", whole, _total([*_changes(model)])
    yield "grip", whole, _total([*_grips(model)])
    yield "little changed", whole, _total([*_changed(model)])


def _above(model: Model, terms: list[IntVar], most: int) -> LinearExpr:
    """How far a sum is above a number, at least."""
    over = model.cp.new_int_var(0, max(len(terms) - most, 0), "over")
    model.cp.add(over >= _total([*terms]) - most)
    return over


def _missing(model: Model) -> Iterator[LinearExpr]:
    options = model.block.options
    for frame in range(len(model.block.frames)):
        for pattern in main_patterns(model.block):
            here = [d for (f, o), d in model.does.items() if f == frame and options[o].pattern == pattern]
            missing = model.cp.new_bool_var(f"missing {pattern}")
            model.cp.add_bool_or([*here, missing])
            yield missing


def _idle_minutes(model: Model) -> Iterator[LinearExpr]:
    options = model.block.options
    for frame in range(len(model.block.frames)):
        least_s = least_used_s(model.block, frame)
        used_s = _total([options[o].set_s[f] * n for (f, o), n in model.sets.items() if f == frame])
        idle = model.cp.new_int_var(0, least_s // MINUTE_S + 1, "idle")
        model.cp.add(MINUTE_S * idle >= least_s - used_s)
        yield idle


def _changes(model: Model) -> Iterator[LinearExpr]:
    for frame in range(len(model.block.frames)):
        yield _above(model, [used for (f, _, _), used in model.uses.items() if f == frame], 1)


def _grips(model: Model) -> Iterator[LinearExpr]:
    for frame in range(len(model.block.frames)):
        here = [does for (f, o), does in model.does.items() if f == frame and model.block.options[o].grips]
        yield _above(model, here, MOST_GRIPS)


def _outside(model: Model, places: list[Place]) -> LinearExpr:
    found = []
    for group, (least, most) in model.block.bands.items():
        counted = [(model.block.options[p[1]].halves.get(group, 0), model.sets[p]) for p in places]
        done = _total([halves * sets for halves, sets in counted if halves])
        out = model.cp.new_int_var(0, _MOST_HALVES, f"outside {group}")
        model.cp.add(out >= least - done)
        model.cp.add(out >= done - most)
        found.append(out)
    return _total([*found])


def _off_balance(model: Model, places: list[Place]) -> LinearExpr:
    shares, options = model.block.shares, model.block.options
    by_pattern = {
        pattern: _total([model.sets[p] for p in places if options[p[1]].pattern == pattern])
        for pattern in shares
    }
    everything, found = _total([*by_pattern.values()]), []
    for pattern, share in shares.items():
        off = model.cp.new_int_var(0, PER_CENT * _MOST_HALVES, f"off {pattern}")
        model.cp.add(off >= PER_CENT * by_pattern[pattern] - share * everything)
        model.cp.add(off >= share * everything - PER_CENT * by_pattern[pattern])
        found.append(off)
    return _total([*found])


def _too_often(model: Model, places: list[Place]) -> LinearExpr:
    by_option: dict[int, list[IntVar]] = {}
    for place in places:
        by_option.setdefault(place[1], []).append(model.does[place])
    return _total(
        [_above(model, times, MOST_TIMES) for times in by_option.values() if len(times) > MOST_TIMES]
    )


def _few_one_sided(model: Model, places: list[Place]) -> LinearExpr:
    sided = [model.does[p] for p in places if model.block.options[p[1]].one_sided]
    few = model.cp.new_int_var(0, ONE_SIDED, "few one-sided")
    model.cp.add(few >= ONE_SIDED - _total([*sided]))
    return few


def _against_likes(model: Model) -> Iterator[LinearExpr]:
    for number, option in enumerate(model.block.options):
        times = [does for (_, o), does in model.does.items() if o == number]
        if option.like > 0 and not option.barred:
            missing = model.cp.new_bool_var(f"missing {option.move}")
            model.cp.add_bool_or([*times, missing])
            yield missing
        elif option.like < 0:
            yield from times


def _changed(model: Model) -> Iterator[LinearExpr]:
    before = model.block.before
    if before is None:
        return
    for place, sets in model.sets.items():
        off = model.cp.new_int_var(0, _MOST_HALVES, "changed")
        model.cp.add(off >= sets - before.get(place, 0))
        model.cp.add(off >= before.get(place, 0) - sets)
        yield off
