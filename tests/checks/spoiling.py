"""Patterns with one thing spoilt on purpose: what a check must catch."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from tests.samples import (
    GAP,
    HEM,
    RED,
    THREE,
    TOP,
    made,
    recipe,
    side_back,
    side_front,
)  # fmt: skip

from fanblock.make import draft_pattern
from fanblock.pattern.model import Finding, Pattern
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Wearer


@cache
def sound(name: str = "ordinary", *, makes: str = "jacket", below: str = "sewn", reduction: str = RED) -> Pattern:
    """Return a garment that passes every check."""
    seams = (side_front(below_waist=below), side_back(below_waist=below))
    return made(recipe(GAP, TOP, HEM, *seams, reduction, THREE, makes=makes), name)


def with_panel(pattern: Pattern, name: str, **changes: Any) -> Pattern:
    """Return the pattern with one panel changed."""
    panels = tuple(replace(panel, **changes) if panel.name == name else panel for panel in pattern.panels)
    return replace(pattern, panels=panels)


def with_edge(pattern: Pattern, panel: str, edge: str, **changes: Any) -> Pattern:
    """Return the pattern with one edge of one panel changed."""
    edges = tuple(replace(each, **changes) if each.name == edge else each for each in pattern.by_name[panel].edges)
    return with_panel(pattern, panel, edges=edges)


def with_lengths(pattern: Pattern, **lengths: float) -> Pattern:
    """Return the pattern as if other measures had been taken; ``_`` stands for a blank."""
    new = {**pattern.body.lengths, **{name.replace("_", " "): mm for name, mm in lengths.items()}}
    return replace(pattern, body=replace(pattern.body, lengths=Fixed(new), guessed=Fixed({})))


def states(findings: tuple[Finding, ...]) -> dict[str, str]:
    """Return the state of every finding by its code."""
    return {finding.code: finding.state for finding in findings}


def failing(findings: tuple[Finding, ...]) -> list[str]:
    """Return the codes of findings that fail."""
    return [finding.code for finding in findings if finding.state == "fails"]


def one(findings: tuple[Finding, ...], code: str) -> Finding:
    """Return the finding of a code."""
    return next(finding for finding in findings if finding.code == code)


def body_pattern(wearer: Wearer, *, makes: str = "jacket", despite: tuple[str, ...] = ()) -> Pattern:
    """Return the sample garment for a wearer of its own."""
    return draft_pattern(
        wearer, recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, makes=makes), despite=despite
    )
