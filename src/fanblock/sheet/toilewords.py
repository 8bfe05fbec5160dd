"""How a toile is cut, sewn, stiffened and laced, said on its own sheets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fanblock.finish.bonelist import cut_mm
from fanblock.finish.toile import FITTING_MM, ROUND_MM, SLIT_SAYS, has_arms
from fanblock.finish.toileedges import LONGER_MM, MORE_MM, UNDER_ARM_MM
from fanblock.pattern.model import CENTER, FOLD, LACING, SEAM, Pattern
from fanblock.sheet import closing, phrases
from fanblock.sheet.levels import told_level
from fanblock.units import format_length

SHORT_MM = 20.0
"""How much shorter a bone is than the edge it lies along: a centimetre stays free at both its ends (from memory)."""


@dataclass(frozen=True, slots=True)
class WornBone:
    """Bones that make a toile wearable: where they go, how long each is, how many in the whole toile."""

    where: str
    cut_mm: float
    count: int


def worn_bones(pattern: Pattern) -> tuple[WornBone, ...]:
    """Return the few bones of a toile that is laced; none for one that is not, which goes over stays or is soft.

    Two beside the eyelets of each lacing edge, one on each side of the centre front, one on each seam (common practice, no
    source).
    """
    panels = sorted((panel for panel in pattern.panels if not panel.added), key=lambda panel: panel.number)
    laced = [edge for panel in panels for edge in panel.edges if edge.kind == LACING]
    if not laced:
        return ()
    units = pattern.body.units
    closed = [
        edge
        for panel in panels
        for edge in panel.edges
        if (edge.kind in (CENTER, FOLD) or panel.fold == edge.name) and phrases.faces_front(edge)
    ]
    found = [
        WornBone(f"on each side of the {phrases.prose(edge.name)}", cut_mm(edge.curve.length_mm - SHORT_MM, units), 2)
        for edge in closed[:1]
    ]
    drafted = {panel.name for panel in panels}
    for seam in pattern.seams:
        edge = pattern.by_name[seam.front.panel].edge(seam.front.edge) if seam.front.panel in drafted else None
        if edge is not None and edge.kind == SEAM and not edge.across and seam.back.panel in drafted:
            found.append(WornBone(f"on seam {seam.letter}", cut_mm(edge.curve.length_mm - SHORT_MM, units), 2))
    found += [
        WornBone(
            "beside the eyelets of each lacing strip, one on either side",
            cut_mm(edge.curve.length_mm - SHORT_MM, units),
            4,
        )
        for edge in laced
    ]
    return tuple(found)


def toile_steps(pattern: Pattern) -> tuple[str, ...]:
    """Return how the pieces of a toile are cut, marked, sewn and made to be worn, in order."""
    return tuple(_steps(pattern))


def _steps(pattern: Pattern) -> Iterator[str]:
    units = pattern.body.units

    def say(mm: float) -> str:
        return phrases.short_length(mm, units)

    yield (
        "Cut every piece on the outer line, from one layer of firm cloth that does not give, such as stout calico; a soft "
        "toile tells nothing."
    )
    yield (
        f"Draw on the cloth, outside: all dashed lines, the {told_level(pattern)} line right round, the centres, the grain, "
        "the letters. The grid helps to say where something lies; draw as much of it as you like."
    )
    if has_arms(pattern):
        yield f"{say(ROUND_MM)} are left at the neck and round the arms: cut back on the body, a little at a time."
    else:
        yield (
            f"Above the finished top edge {say(MORE_MM)} are left in front and behind, to draw a higher edge on, and "
            f"{say(UNDER_ARM_MM)} under the arm, where more could not be worn. Seams go on in their own line to the raw edge."
        )
    yield f"The lower edge is cut {say(LONGER_MM)} longer than it will be finished."
    if any(mark.says == SLIT_SAYS for panel in pattern.panels for mark in panel.marks):
        yield "Tabs are not cut apart: cut each slit along its line when you wear it, from the edge up, until the hip is free."
    yield (
        f"Sew the seams with long stitches and their allowances, {say(FITTING_MM)} wide, to the outside, so that you can pinch "
        "in and let out. No binding, no lining."
    )
    yield from closing.toile_words(pattern)
    bones = worn_bones(pattern)
    if not bones:
        return
    yield (
        "Turn the cloth in along each lacing line. Fold each lacing strip along its middle, lay it inside with the fold on "
        "that line, and sew it down along both its edges. Work the eyelets through strip and cloth, or set metal ones. Lace "
        f"it {closing.laced_words(pattern)}. The strips serve for the next toile."
    )
    listed = "; ".join(f"{one.where}: {one.count} of {format_length(one.cut_mm, units)}" for one in bones)
    yield (
        f"Bones to wear it by, {sum(one.count for one in bones)} in all, taped on inside: {listed}. Those of the garment do, "
        "where they are as long."
    )
    yield "Keep the lace end and a pair of scissors within your own reach when you first put it on."
