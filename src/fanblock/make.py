"""The whole walk: a wearer and a recipe go in, a finished and checked pattern comes out."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from fanblock.block.from_drawing import Tracing
from fanblock.checks.table import findings
from fanblock.draft.altering import Alteration, altered
from fanblock.draft.model import Draft
from fanblock.draft.starting import (
    BlockSpec,
    RaisedSpec,
    TracedSpec,
    measures_needed,
    raised_by_mm,
    stands_on,
    started,
)
from fanblock.draft.work import Work, made_as
from fanblock.finish.finish import finished
from fanblock.halves.bodies import bodies_of
from fanblock.halves.making import averaged, is_of_one_side, of_two_halves
from fanblock.pattern.model import Note, Pattern, Title
from fanblock.problems import GeometryError, Problem, RecipeError
from fanblock.recipe.dials import dial_values, with_dials
from fanblock.recipe.explain import explained
from fanblock.recipe.model import Recipe, Step
from fanblock.recipe.words import alteration_text
from fanblock.steps.table import BY_NAME, SEPARATES
from fanblock.units import format_length, retold
from fanblock.wearer.body import Body
from fanblock.wearer.canonical import canonical_text
from fanblock.wearer.girths import BUST, RAISED_WAIST, UNDERBUST, UPPER_CHEST, WAIST, girth_height_mm
from fanblock.wearer.model import STAYS, Wearer

CODE_SIGNS = "ACDEFGHJKLMNPRTUVWXY34679"
"""What an input code is written in: no sign that is easily taken for another."""

CODE_LENGTH = 4

BESIDE_THE_BLOCK = (RAISED_WAIST, UNDERBUST, UPPER_CHEST, "hip")
"""Girths of which a prediction matters only to a garment that asks for them."""


def draft_pattern(
    wearer: Wearer,
    recipe: Recipe,
    settings: Mapping[str, str] | None = None,
    *,
    over: str | None = None,
    draft: int = 1,
    despite: Collection[str] = (),
    alterations: Sequence[Alteration] = (),
    own: Sequence[tuple[str, Alteration]] = (),
) -> Pattern:
    """Return the finished, checked pattern of a recipe for a wearer.

    ``settings`` turn dials (``{"gap": "4 cm"}``). ``over`` chooses the set of measures; left out, it is that over the layer
    the recipe says it is worn over, predicted where the wearer has none over stays. ``draft`` is the number printed on
    every sheet. ``despite`` names refusals that are overridden (see :mod:`fanblock.checks.body`). ``alterations`` are what
    fittings changed in this garment, ``own`` what they changed in its ``left`` or ``right`` half alone. Where left and right
    of the wearer differ by more than may be averaged, or a half has changes of its own, both halves are drafted. Raises
    FanblockError's children with every problem of the stage that failed; a pattern that fails a check is returned all the
    same, with ``sound`` false.
    """
    turned = dict(settings or {})
    resolved = with_dials(recipe, turned)
    layer = over or recipe.worn_over
    bodies = bodies_of(wearer, layer, predict=over is None)
    _check_needs(bodies.even, resolved)
    traced = (resolved.block.tracing.digest,) if isinstance(resolved.block, TracedSpec) else ()
    texts = (canonical_text(wearer), explained(recipe, turned), layer, *traced)
    changes = (*map(alteration_text, alterations), *(f"{half} {alteration_text(one)}" for half, one in own))
    code = input_code(*texts, *changes)
    title = Title(recipe.name, wearer.name, recipe.id, recipe.makes, recipe.period, draft, code)
    dials = dial_values(recipe, turned, bodies.even.units)

    def drawn(body: Body, told: Iterable[Note] = (), half: str = "") -> Pattern:
        changed = (*alterations, *(one for of, one in own if of == half))
        work = run_steps(started(body, resolved.block), resolved, changed)
        notes = (
            *told,
            *(note for note in _notes(bodies.even, resolved) if not (half and is_of_one_side(note, bodies))),
        )
        try:
            return in_own_units(finished(work, title, dials, notes))
        except GeometryError as error:
            raise GeometryError([_at_own_step(problem, resolved) for problem in error.problems]) from None

    apart = any(one.apart_mm > wearer.may_differ_mm for one in bodies.uneven)
    if apart or own:
        return of_two_halves(bodies, drawn, despite)
    pattern = drawn(bodies.even, averaged(bodies))
    return replace(pattern, findings=findings(pattern, despite))


def in_own_units(pattern: Pattern) -> Pattern:
    """Return a pattern whose notes and marks tell lengths in the wearer's units; what the wearer wrote stays as it is."""
    units = pattern.body.units
    notes = tuple(
        note if note.kind == "wearer" else replace(note, says=retold(note.says, units)) for note in pattern.notes
    )
    panels = tuple(
        replace(panel, marks=tuple(replace(mark, says=retold(mark.says, units)) for mark in panel.marks))
        for panel in pattern.panels
    )
    return replace(pattern, notes=notes, panels=panels)


def input_code(*texts: str) -> str:
    """Return a short code of everything that shapes a pattern, so that two printings cannot be mixed up.

    >>> len(input_code("a")), input_code("a") == input_code("a"), input_code("a") == input_code("b")
    (4, True, False)
    """
    number = int.from_bytes(hashlib.sha256("\0".join(texts).encode()).digest()[:8], "big")
    signs = []
    for _ in range(CODE_LENGTH):
        number, sign = divmod(number, len(CODE_SIGNS))
        signs.append(CODE_SIGNS[sign])
    return "".join(signs)


def run_steps(draft: Draft, recipe: Recipe, alterations: Sequence[Alteration] = ()) -> Work:
    """Return the panels a recipe's steps make of a draft; problems say which step met them, and where it stands.

    The alterations are made when all has been drawn, before it is cut apart.
    """
    state: Draft | Work = draft
    for step in recipe.steps:
        if isinstance(state, Draft) and BY_NAME[step.kind].stage == SEPARATES:
            state = altered(state, alterations)
        drafted = isinstance(state, Draft)
        try:
            state = BY_NAME[step.kind].run(state, step.options)
        except GeometryError as error:
            raise GeometryError([_at_step(problem, step) for problem in error.problems]) from None
        if drafted and isinstance(state, Work):
            state = made_as(state, recipe.construction)
    if isinstance(state, Draft):
        raise RecipeError([Problem("no-panels", "steps", "the draft is never separated.", "Add a `separate` step.")])
    return state


def _at_step(problem: Problem, step: Step) -> Problem:
    where = f"step {step.number} ({step.kind})"
    return replace(problem, where=f"{where} › {problem.where}" if problem.where else where, place=step.place)


def _at_own_step(problem: Problem, recipe: Recipe) -> Problem:
    """Return a problem met in finishing with the place of the step that asked for what cannot be finished."""
    kind, _, rest = problem.where.partition(" › ")
    step = next((step for step in reversed(recipe.steps) if step.kind == kind), None)
    return problem if step is None else _at_step(replace(problem, where=rest), step)


def _check_needs(body: Body, recipe: Recipe) -> None:
    missing = [
        Problem(
            "measure-missing",
            f"wearer {body.name}",
            f"“{recipe.name}” needs the measure “{name}”, which was not taken and cannot be guessed.",
            f"Measure it and add `{name}:` to the wearer.",
        )
        for name in dict.fromkeys((*recipe.needs, *measures_needed(recipe.block)))
        if name not in body.lengths
    ]
    if missing:
        raise GeometryError(missing)


def _notes(body: Body, recipe: Recipe) -> tuple[Note, ...]:
    on_body = stands_on(recipe.block) is not None
    used = {*recipe.needs, *measures_needed(recipe.block)} | ({"held bust to waist"} if on_body else set())
    notes = [
        Note("guess", f"PREDICTED, MEASURE AGAIN OVER STAYS: {name}: {how}")
        for name, how in sorted(body.predicted.items())
        if name in used or (on_body and name not in BESIDE_THE_BLOCK)
    ]
    for name, how in sorted(body.guessed.items()):
        if name in used:
            word = "PREDICTED, MEASURE AGAIN OVER STAYS" if name in body.carried else "GUESSED"
            notes.append(Note("guess", f"{word}: {name}: {how}"))
    notes += _block_notes(body, recipe.block) if on_body else []
    notes += [Note("wearer", text) for text in body.notes]
    notes += [Note("toile", text) for text in recipe.watch]
    return tuple(notes)


def _girth_words(body: Body, name: str) -> str:
    """Return a girth with its height, for telling what a block stands on."""
    girth = f"{name} {format_length(body.length_mm(name), body.units)}"
    mm = girth_height_mm(body, name)
    return f"{girth} ({format_length(mm, body.units)} above the waist)" if mm else girth


def _traced_notes(tracing: Tracing) -> list[Note]:
    """Return what a traced block is, and what was done to its drawing."""
    says = f"the block is traced from {tracing.name}: it is as it was drawn, and not made from your measures"
    return [Note("body", says), *(Note("body", text) for text in tracing.notes)]


def _block_notes(body: Body, spec: BlockSpec | None) -> list[Note]:
    """Return what the block stands on, and where its bust line and its side come from."""
    if isinstance(spec, TracedSpec):
        return [*_traced_notes(spec.tracing), *_side_notes(body)]
    notes = []
    names = stands_on(spec)
    if names and names != (WAIST, BUST):
        girths = " and ".join(_girth_words(body, name) for name in names)
        notes.append(
            Note("body", f"this block stands on {girths}; at other heights it is what a straight cone makes of them")
        )
    if isinstance(spec, RaisedSpec):
        above = format_length(raised_by_mm(body, spec), body.units)
        says = (
            f"this garment has its waist {above} above your waist tape: tie a string there for it, and count from that"
        )
        notes.append(Note("body", says))
    if body.over == STAYS:
        notes.append(Note("body", "the bust line is where the bust is over stays: `bust to waist` taken over them"))
    elif "raised" in body.lengths:
        notes.append(Note("body", "the bust line is where you measured `raised`"))
    else:
        notes.append(
            Note("body", "the bust line is `bust to waist`, measured at rest: measure `raised` and draft again")
        )
    return [*notes, *_side_notes(body)]


def _side_notes(body: Body) -> list[Note]:
    """Return whether the place of the side is guessed."""
    if "front arc" in body.lengths:
        return []
    return [Note("guess", "GUESSED: the side lies half way round; measure `front arc` to place it")]
