"""All families of checks, in the order they are shown."""

from __future__ import annotations

from collections.abc import Collection

from fanblock.checks import block, body, girth, hips, joins, marks, panels, seams
from fanblock.pattern.model import Finding, Pattern


def findings(pattern: Pattern, despite: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return every finding about a pattern; GeometryError for what is refused (see :mod:`fanblock.checks.body`)."""
    families = (block.check, girth.check, seams.check, joins.check, panels.check, hips.check, marks.check)
    return (*(finding for family in families for finding in family(pattern)), *body.check(pattern, despite))
