"""Garments with armholes for tests of sleeves: shipped recipes whose sleeve step is another, and armholes by formula."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import numpy as np
from tests.samples import BODIES, block, body

from fanblock.draft.model import Draft
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, frozen
from fanblock.make import draft_pattern, run_steps
from fanblock.pattern.model import Pattern
from fanblock.recipe.dials import with_dials
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.shipped import recipe_text
from fanblock.sleeves.armhole import Armhole, Part

DOUBLET, GOWN = "doublet-bodice-1570s", "gown-bodice-1770s"
SLEEVE_DIALS = ("arm ease", "forward", "sleeve head")


def with_step(name: str, *steps: str, straps: bool = True) -> Recipe:
    """Return a shipped recipe with these steps in the place of its sleeve, with or without its straps."""
    kept = []
    for line in recipe_text(name).splitlines():
        words = line.strip()
        if words.startswith("- sleeve:"):
            kept += [f"  - {step}" for step in steps]
        elif (
            words.startswith("- cut: {panels:")
            or words.partition(":")[0] in SLEEVE_DIALS
            or (not straps and words.startswith("- strap:"))
        ):
            continue
        else:
            kept.append(re.sub(r", sleeve hem: \d+ mm", "", line))
    return read_recipe("\n".join(kept) + "\n", "r.yaml")


@cache
def drafted_with(name: str, step: str, who: str = "ordinary", straps: bool = True) -> Pattern:
    """Return the pattern of a shipped recipe with this sleeve step for a body of the catalogue."""
    return draft_pattern(BODIES[who], with_step(name, step, straps=straps))


def worked_with(name: str, *steps: str, who: str = "ordinary", straps: bool = True) -> Work:
    """Return the work of a shipped recipe with these steps in the place of its sleeve, not yet finished."""
    return run_steps(Draft(body(who), block(who)), with_dials(with_step(name, *steps, straps=straps)))


def circle(radius_mm: float, from_deg: float, to_deg: float, parts: int = 3, open_mm: float = 0.0) -> Armhole:
    """Return an armhole that is an arc of a circle, its lowest point below the center, in so many equal parts.

    It begins ``from_deg`` before the lowest point and ends ``to_deg`` behind it.
    """
    ends = np.radians(np.linspace(-from_deg, to_deg, parts + 1))
    runs = [np.linspace(low, high, 200) for low, high in pairwise(ends)]
    found = []
    for number, turn in enumerate(runs):
        points = radius_mm * np.column_stack((np.sin(turn), 1.0 - np.cos(turn)))
        found.append(Part((f"panel {number}", "armhole"), Curve(frozen(points)), frozen(points[:, 1])))
    return Armhole(tuple(found), open_mm)
