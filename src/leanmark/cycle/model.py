"""The constraint model of a block: hard rules, and wishes that can be let go."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Final

from ortools.sat.python import cp_model

from leanmark.cycle.block import Block, Option
from leanmark.cycle.weights import LEAST_MOVES, MOST_MOVES, MOST_OF_PATTERN, MOST_QUICK

MINUTES: Final = "the minutes of a session"
ENOUGH: Final = f"at least {LEAST_MOVES} moves a session"

Place = tuple[int, int]
Wish = Callable[[str], cp_model.IntVar | None]
"""The literal that says whether a wish is kept; None where it is kept in any case."""


def wishes_of(block: Block) -> tuple[str, ...]:
    """All wishes of a block that could be let go, in words."""
    barred = dict.fromkeys(words for option in block.options for words in option.barred)
    must = [must_words(block.options[number]) for number in sorted(block.must)]
    return (MINUTES, ENOUGH, *must, *(kept_words(block, place) for place in sorted(block.kept)), *barred)


def must_words(option: Option) -> str:
    """The wish that a move is in."""
    return f"'{option.move}' has to be in"


def kept_words(block: Block, place: Place) -> str:
    """The wish that a set count fixed by hand stays."""
    frame, option = place
    numbers = ", ".join(map(str, block.frames[frame].sessions))
    return f"'{block.options[option].move}' kept by hand in session {numbers}"


@dataclass
class Model:
    """The variables of a block: does (frame, option) happen, for how many sets, which settings are used."""

    block: Block
    cp: cp_model.CpModel
    does: dict[Place, cp_model.IntVar]
    sets: dict[Place, cp_model.IntVar]
    uses: dict[tuple[int, str, int], cp_model.IntVar]


def model_of(block: Block, wish: Wish = lambda _: None, cp: cp_model.CpModel | None = None) -> Model:
    """The model with all hard rules and wishes, without goals. cp: a model that holds the wishes'
    literals."""
    cp = cp or cp_model.CpModel()
    does, sets = {}, {}
    for place in block.places():
        option = block.options[place[1]]
        kept = block.kept.get(place, 0)
        does[place] = cp.new_bool_var(f"does {place}")
        domain = cp_model.Domain.from_values(sorted({0, *range(option.least, option.most + 1), kept}))
        sets[place] = cp.new_int_var_from_domain(domain, f"sets {place}")
        least, most = min(option.least, kept or option.least), max(option.most, kept)
        cp.add(sets[place] >= least * does[place])
        cp.add(sets[place] <= most * does[place])
    model = Model(block, cp, does, sets, {})
    _use_settings(model)
    _bar(model, wish)
    _keep(model, wish)
    for frame in range(len(block.frames)):
        _fit_frame(model, frame, wish)
    _recover(model)
    return model


def _held(
    cp: cp_model.CpModel, terms: Iterable[cp_model.IntVar], least: int, literal: cp_model.IntVar | None
) -> None:
    held = cp.add(sum(terms) >= least)
    if literal is not None:
        held.only_enforce_if(literal)


def _use_settings(model: Model) -> None:
    for (frame, number), does in model.does.items():
        option = model.block.options[number]
        if option.setting:
            key = (frame, *option.hangs)
            if key not in model.uses:
                model.uses[key] = model.cp.new_bool_var(f"uses {key}")
            model.cp.add_implication(does, model.uses[key])
    for key, used in model.uses.items():
        members = [model.does[place] for place in _members(model, key)]
        model.cp.add_bool_or([*members, ~used])


def _members(model: Model, key: tuple[int, str, int]) -> list[Place]:
    return [place for place in model.does if (place[0], *model.block.options[place[1]].hangs) == key]


def _bar(model: Model, wish: Wish) -> None:
    """Barred moves stay out, each while any of the wishes that bar it is kept."""
    for (_, number), does in model.does.items():
        for words in model.block.options[number].barred:
            literal = wish(words)
            if literal is None:
                model.cp.add(does == 0)
            else:
                model.cp.add_implication(literal, ~does)


def _keep(model: Model, wish: Wish) -> None:
    block = model.block
    for number in sorted(block.must):
        happens = [does for (_, o), does in model.does.items() if o == number]
        _held(model.cp, happens, 1, wish(must_words(block.options[number])))
    for place, count in block.kept.items():
        kept = [model.sets[place]] if place in model.sets else []
        _held(model.cp, kept, count, wish(kept_words(block, place)))
        if place in model.sets:
            model.cp.add(model.sets[place] <= count)


def _fit_frame(model: Model, frame: int, wish: Wish) -> None:
    cp, block = model.cp, model.block
    here = {o: does for (f, o), does in model.does.items() if f == frame}
    _held(cp, here.values(), block.least_moves, wish(ENOUGH))
    cp.add(sum(here.values()) <= max(MOST_MOVES, sum(1 for f, _ in block.kept if f == frame)))
    by_family = _grouped(here, lambda option: option.family, block)
    by_pattern = _grouped(here, lambda option: option.pattern, block)
    for members, most in [*((m, 1) for m in by_family), *((m, MOST_OF_PATTERN) for m in by_pattern)]:
        fixed = sum(1 for o in members if (frame, o) in block.kept)
        cp.add(sum(here[o] for o in members) <= max(most, fixed))
    cp.add(sum(does for o, does in here.items() if block.options[o].quick) <= MOST_QUICK)
    _in_time(model, frame, wish(MINUTES))


def _grouped(here: dict[int, cp_model.IntVar], key: Callable[[Option], str], block: Block) -> list[list[int]]:
    groups: dict[str, list[int]] = {}
    for number in here:
        groups.setdefault(key(block.options[number]), []).append(number)
    return list(groups.values())


def _in_time(model: Model, frame: int, literal: cp_model.IntVar | None) -> None:
    block = model.block
    work = sum(block.options[o].set_s[frame] * sets for (f, o), sets in model.sets.items() if f == frame)
    setup = sum(block.options[o].setup_s * does for (f, o), does in model.does.items() if f == frame)
    hung = [used for (f, _, _), used in model.uses.items() if f == frame]
    changes = model.cp.new_int_var(0, max(len(hung) - 1, 0), "changes")
    model.cp.add(changes >= sum(hung) - 1)
    within = model.cp.add(work + setup + block.change_s * changes <= block.frames[frame].seconds)
    if literal is not None:
        within.only_enforce_if(literal)


def _recover(model: Model) -> None:
    """A family is not trained in two sessions that are too close in time, unless both are fixed by hand."""
    for family, pairs in sorted(model.block.close.items()):
        for first, second in sorted(pairs):
            ours = [
                (place, model.block.options[place[1]]) for place in model.does if place[0] in (first, second)
            ]
            members = [place for place, option in ours if option.family == family]
            fixed = sum(1 for place in members if place in model.block.kept)
            model.cp.add(sum(model.does[place] for place in members) <= max(1, fixed))
