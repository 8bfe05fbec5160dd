"""The whole walk: a wearer and a recipe go in, a finished and checked pattern comes out."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping
from dataclasses import replace

from fanblock.block.from_body import block_of
from fanblock.checks.table import findings
from fanblock.draft.lacing import HIGHEST
from fanblock.draft.model import HEIGHT, Draft
from fanblock.draft.work import Work
from fanblock.finish.finish import finished
from fanblock.pattern.model import Note, Pattern, Title
from fanblock.problems import GeometryError, Problem, RecipeError
from fanblock.recipe.dials import dial_values, with_dials
from fanblock.recipe.explain import explained
from fanblock.recipe.model import Recipe, Step
from fanblock.steps.table import BY_NAME
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.canonical import canonical_text
from fanblock.wearer.model import SHIFT, Wearer

CODE_SIGNS = "ACDEFGHJKLMNPRTUVWXY34679"
"""What an input code is written in: no sign that is easily taken for another."""

CODE_LENGTH = 4


def draft_pattern(
    wearer: Wearer,
    recipe: Recipe,
    settings: Mapping[str, str] | None = None,
    *,
    over: str = SHIFT,
    draft: int = 1,
    despite: Collection[str] = (),
) -> Pattern:
    """Return the finished, checked pattern of a recipe for a wearer.

    ``settings`` turn dials (``{"gap": "4 cm"}``). ``over`` chooses the set of measures. ``draft`` is the number printed
    on every sheet. ``despite`` names refusals that are overridden (see :mod:`fanblock.checks.body`). Raises
    FanblockError's children with every problem of the stage that failed; a pattern that fails a check is returned all the
    same, with ``sound`` false.
    """
    turned = dict(settings or {})
    resolved = with_dials(recipe, turned)
    body = body_of(wearer, over)
    _check_needs(body, resolved)
    work = run_steps(Draft(body, block_of(body)), resolved)
    _refuse_crossed_rulings(work)
    code = input_code(canonical_text(wearer), explained(recipe, turned), over)
    title = Title(recipe.name, wearer.name, recipe.id, recipe.makes, recipe.period, draft, code)
    pattern = finished(work, title, dial_values(recipe, turned), _notes(body, resolved))
    return replace(pattern, findings=findings(pattern, despite))


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


def run_steps(draft: Draft, recipe: Recipe) -> Work:
    """Return the panels a recipe's steps make of a draft; problems say which step met them, and where it stands."""
    state: Draft | Work = draft
    for step in recipe.steps:
        try:
            state = BY_NAME[step.kind].run(state, step.options)
        except GeometryError as error:
            raise GeometryError([_at_step(problem, step) for problem in error.problems]) from None
    if isinstance(state, Draft):
        raise RecipeError(
            [Problem("no-panels", "steps", "the draft is never separated.", "Add a `separate` step.")]
        )
    return state


def _at_step(problem: Problem, step: Step) -> Problem:
    where = f"step {step.number} ({step.kind})"
    return replace(problem, where=f"{where} › {problem.where}" if problem.where else where, place=step.place)


def _check_needs(body: Body, recipe: Recipe) -> None:
    missing = [
        Problem(
            "measure-missing",
            f"wearer {body.name}",
            f"“{recipe.name}” needs the measure “{name}”, which was not taken and cannot be guessed.",
            f"Measure it and add `{name}:` to the wearer.",
        )
        for name in recipe.needs
        if name not in body.lengths
    ]
    if missing:
        raise GeometryError(missing)


def _refuse_crossed_rulings(work: Work) -> None:
    """Refuse a garment that reaches heights at which the block's rulings cross: nothing drawn there means anything."""
    block = work.block
    lowest = min(float(line.points[:, HEIGHT].min()) for line in work.draft.lines)
    highest = max(float(line.points[:, HEIGHT].max()) for line in work.draft.lines)
    crossing = block.crossing_height(lowest, min(highest, HIGHEST))
    if crossing is not None:
        above = crossing * block.center_front_mm / 10.0
        side = "above" if above >= 0 else "below"
        what = f"the block's upright lines cross {abs(above):.0f} cm {side} the waist, where the garment still is."
        remedy = "Measure again, lessen the tilts, or draw the garment shorter."
        raise GeometryError([Problem("block-crossed", f"wearer {work.body.name}", what, remedy)])


def _notes(body: Body, recipe: Recipe) -> tuple[Note, ...]:
    used = set(recipe.needs) | {"held bust to waist"}
    notes = [
        Note("guess", f"GUESSED: {name}: {how}") for name, how in sorted(body.guessed.items()) if name in used
    ]
    if "raised" in body.lengths:
        notes.append(Note("body", "the bust line is where you measured `raised`"))
    else:
        notes.append(
            Note(
                "body", "the bust line is `bust to waist`, measured at rest: measure `raised` and draft again"
            )
        )
    if "front arc" not in body.lengths:
        notes.append(Note("guess", "GUESSED: the side lies half way round; measure `front arc` to place it"))
    notes += [Note("wearer", text) for text in body.notes]
    notes += [Note("toile", text) for text in recipe.watch]
    return tuple(notes)
