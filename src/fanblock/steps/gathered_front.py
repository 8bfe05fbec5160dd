"""``gathered front``: a front cut wider than the fitted one, laid over it and gathered to it at the neck and below.

High-waisted bodices of about 1800 have it: the fitted front is the lining, the wide one the outer cloth. At shoulder, armhole
and side the two are the same and are sewn as one.

```yaml
- gathered front: {panel: front, times: 1.45, within: 26% of across front}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.fronts.gathered import Spread, with_gathered_front
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount

LEAST_TIMES, MOST_TIMES = 1.05, 3.0
"""Fewer gathers than this do not show, and more do not go under a seam (from memory; 1.3 to 1.6 are usual about 1800)."""

LEAST_WITHIN_MM = 30.0
"""Gathers on a shorter stretch than this would be a tuft."""


@dataclass(frozen=True, slots=True)
class GatheredFront:
    """A wide front over a fitted one."""

    panel: str = field(metadata={"for": "the fitted front it is laid over"})
    within: Amount = field(metadata={"for": "how far from the center front the gathers reach, on the fitted front"})
    times: float = field(default=1.45, metadata={"for": "how many times as wide it is cut there"})
    name: str = field(default="gathered front", metadata={"for": "the name of the piece"})


def problems(options: GatheredFront) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if LEAST_TIMES <= options.times <= MOST_TIMES:
        return ()
    what = f"got {options.times:g}, needs {LEAST_TIMES:g} to {MOST_TIMES:g}."
    return (("times", what, "1.3 to 1.6 are usual."),)


def adds(options: GatheredFront) -> tuple[str, ...]:
    """Return the name of the piece this step adds."""
    return (options.name,)


def named(options: GatheredFront) -> tuple[tuple[str, str, str], ...]:
    """Return the panel this step speaks of."""
    return (("panel", " › panel", options.panel),)


def run(work: Work, options: GatheredFront) -> Work:
    """Return the work with the wide front added; GeometryError when the fitted one cannot be spread so."""
    within = size_mm(work.body, options.within, "across front", "within")
    if within < LEAST_WITHIN_MM:
        what = f"on this body the gathers would reach {within:.0f} mm from the centre front."
        raise GeometryError([Problem("gather-narrow", "within", what, f"Give them {LEAST_WITHIN_MM:.0f} mm or more.")])
    return with_gathered_front(work, options.panel, Spread(options.name, options.times, within))
