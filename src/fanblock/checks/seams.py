"""Do sewn edges match? Above and below the waist apart, and how far truing had to move their ends."""

from __future__ import annotations

from fanblock.checks.finding import FAILS, HOLDS, WARNS, seam_tags, within
from fanblock.pattern.model import Edge, EndShift, Finding, Pattern, Seam
from fanblock.tolerances import MATES_MM, SHIFT_FAIL_RATIO, SHIFT_WARN_MM

FAMILY = "seams"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return for every seam whether its mates agree, and how far truing moved its ends."""
    found, tags = [], seam_tags(pattern)
    for seam in pattern.seams:
        tag = tags[seam.name]
        front = pattern.by_name[seam.front.panel].edge(seam.front.edge)
        back = pattern.by_name[seam.back.panel].edge(seam.back.edge)
        found.append(_mates(seam, tag, front, back))
        for shift, where in ((seam.above, "above"), (seam.below, "below")):
            if shift is not None:
                found.append(_moved(seam, tag, shift, where))
    return tuple(found)


def above_and_below(edge: Edge, *, rising: bool) -> tuple[float, float]:
    """Return the lengths of a seam edge above and below the waist; one without a waist is all above."""
    length = edge.curve.length_mm
    if edge.waist_at_mm is None:
        return length, 0.0
    return (length - edge.waist_at_mm, edge.waist_at_mm) if rising else (edge.waist_at_mm, length - edge.waist_at_mm)


def _mates(seam: Seam, tag: str, front: Edge, back: Edge) -> Finding:
    ups = above_and_below(front, rising=True)
    downs = above_and_below(back, rising=False)
    apart = max(abs(ups[0] - downs[0] - seam.fullness_mm), abs(ups[1] - downs[1]))
    if seam.fullness_mm:
        says = (
            f"seam {seam.letter} ({seam.name}): {ups[0]:.1f} mm, of which {seam.fullness_mm:.1f} mm are {seam.how}, "
            f"on {downs[0]:.1f} mm"
        )
        return within(f"mates-{tag}", FAMILY, apart, MATES_MM, "mm", says)
    below = f" and {ups[1]:.1f} mm below it" if ups[1] > MATES_MM else ""
    where = "long" if front.waist_at_mm is None else "above the waist"
    says = f"seam {seam.letter} ({seam.name}): both sides {ups[0]:.1f} mm {where}{below}"
    return within(f"mates-{tag}", FAMILY, apart, MATES_MM, "mm", says)


def _moved(seam: Seam, tag: str, shift: EndShift, where: str) -> Finding:
    ratio = shift.shift_mm / shift.edge_mm
    says = f"seam {seam.letter}: truing moved its ends {where} the waist by {shift.shift_mm:.1f} mm"
    if shift.shift_mm > SHIFT_WARN_MM:
        says += f" (lean {shift.lean_deg:.0f}°, take {shift.take_mm:.1f} mm; lean less or take less)"
    state = FAILS if ratio > SHIFT_FAIL_RATIO and shift.shift_mm > MATES_MM else WARNS
    finding = within(f"shift-{tag}-{where}", FAMILY, shift.shift_mm, SHIFT_WARN_MM, "mm", says, otherwise=state)
    return (
        finding
        if finding.state != HOLDS or ratio <= SHIFT_FAIL_RATIO or shift.shift_mm <= MATES_MM
        else within(finding.code, FAMILY, ratio, SHIFT_FAIL_RATIO, "ratio", says)
    )
