"""Ease and reduction booked on the girths that a block stands on: elsewhere there is nothing to count them from."""

from __future__ import annotations

from dataclasses import replace

from fanblock.draft.model import Draft
from fanblock.problems import GeometryError, Problem
from fanblock.wearer.girths import RAISED_WAIST, WAIST

WAISTS = (WAIST, RAISED_WAIST)
"""The girths a waist reduction may be booked on: the waist of a high-waisted garment is its raised one."""


def with_ease(draft: Draft, name: str, mm: float) -> Draft:
    """Return the draft with so much room more at a girth, whole garment; GeometryError when the block stands on others."""
    if name == draft.stand.lower.name:
        return replace(draft, lower_ease_mm=draft.lower_ease_mm + mm)
    if name == draft.stand.upper.name:
        return replace(draft, upper_ease_mm=draft.upper_ease_mm + mm)
    raise _off(draft, name)


def with_reduction(draft: Draft, name: str, mm: float) -> Draft:
    """Return the draft with so much more taken in at a girth; GeometryError when the block stands on others."""
    if name == draft.stand.lower.name:
        return replace(draft, lower_reduction_mm=draft.lower_reduction_mm + mm)
    if name == draft.stand.upper.name:
        return replace(draft, upper_reduction_mm=draft.upper_reduction_mm + mm)
    raise _off(draft, name)


def waist_of(draft: Draft) -> str:
    """Return the girth that is the waist of what is drawn: the raised waist where the block stands on that."""
    return draft.stand.lower.name if draft.stand.lower.name in WAISTS else WAIST


def off_stand(name: str, names: tuple[str, str]) -> tuple[str, str]:
    """Return what is wrong with booking on a girth that the block does not stand on, and what to do."""
    lower, upper = names
    what = f"the block stands on {lower} and {upper}, so nothing can be counted from the {name}."
    return what, f"Use `ease` at {lower} or {upper}; less than nothing takes in."


def _off(draft: Draft, name: str) -> GeometryError:
    return GeometryError([Problem("off-stand", name, *off_stand(name, draft.stand.names))])
