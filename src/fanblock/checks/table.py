"""All families of checks, in the order they are shown."""

from __future__ import annotations

from collections.abc import Collection

from fanblock.checks import (
    band,
    block,
    body,
    channels,
    girth,
    hips,
    joins,
    layers,
    marks,
    opening,
    panels,
    seams,
    skirts,
    sleeve,
)
from fanblock.pattern.model import Finding, Pattern

ON_BODY = (
    block.check,
    girth.check,
    layers.check,
    seams.check,
    joins.check,
    panels.check,
    hips.check,
    skirts.check,
    sleeve.check,
    opening.check,
    channels.check,
    marks.check,
)
"""What is asked of a garment drawn on the block of bust and waist, before what its body asks of the maker."""

BAND = (band.check, seams.check, joins.check, panels.check, channels.check, marks.check)
"""What is asked of a band, which has no waist, no bust and nothing to be laced."""


def findings(pattern: Pattern, despite: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return every finding about a pattern; GeometryError for what is refused (see :mod:`fanblock.checks.body`)."""
    if pattern.band is not None:
        return tuple(finding for family in BAND for finding in family(pattern))
    return (*(finding for family in ON_BODY for finding in family(pattern)), *body.check(pattern, despite))
