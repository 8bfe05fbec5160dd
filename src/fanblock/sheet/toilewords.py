"""How a toile is cut, sewn, stiffened and laced, said on its own sheets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fanblock.finish.bonelist import cut_mm
from fanblock.finish.toile import FITTING_MM, ROUND_MM, SLIT_SAYS, has_arms
from fanblock.finish.toileedges import LONGER_MM, MORE_MM, UNDER_ARM_MM
from fanblock.pattern.model import CENTER, FOLD, LACING, SEAM, Edge, Pattern
from fanblock.sheet import closing, phrases
from fanblock.sheet.levels import told_level
from fanblock.units import format_length
from fanblock.wearer.model import STAYS

SHORT_MM = 20.0
"""How much shorter a bone is than the edge it lies along: a centimetre stays free at both its ends (from memory)."""


MOST = 12
"""More bones than this stiffen a toile so that it no longer shows what wants taking in: 8 to 12 make it wearable (common
practice, no source)."""

BESIDE_EYELETS, ON_BOTH_HALVES = 4, 2
"""How many bones stand beside the eyelets of one edge and its mirror image, and how many at a line of either half."""

ON_SEAM = "on seam "
"""How the words of a place on a seam begin."""


@dataclass(frozen=True, slots=True)
class WornBone:
    """Bones that make a toile wearable: where they go, how long each is, how many in the whole toile."""

    where: str
    cut_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class _Place:
    """A line that bones may stand at, and how far round the body it lies, 0 at the centre front."""

    bone: WornBone
    around: float


def worn_bones(pattern: Pattern) -> tuple[WornBone, ...]:
    """Return the few bones of a toile that is laced; none for one that is not, which goes over stays or is soft.

    Two beside the eyelets of each lacing edge come first, then one on each side of the centre front, then one on a seam or on
    each side of a closed centre back: always where the widest stretch has none, until there are :data:`MOST` (common
    practice, no source). What is worn over stays gets only those beside the eyelets: the stays hold the rest.
    """
    return tuple(place.bone for place in _places(pattern)[0])


def _places(pattern: Pattern) -> tuple[list[_Place], list[_Place]]:
    """Return the places that have bones, from front to back and those of the eyelets last, and the seams that have none."""
    if pattern.halves:
        return _of_halves([_places(half) for half in pattern.halves])
    panels = sorted((panel for panel in pattern.panels if not panel.added), key=lambda panel: panel.number)
    laced = [
        _place(pattern, edge, "beside the eyelets of each lacing strip, one on either side", BESIDE_EYELETS)
        for panel in panels
        for edge in panel.edges
        if edge.kind == LACING
    ]
    if not laced or pattern.body.over == STAYS:
        return laced, []
    fronts, backs = (
        [
            _place(pattern, edge, f"on each side of the {phrases.prose(edge.name)}", ON_BOTH_HALVES)
            for panel in panels
            for edge in panel.edges
            if (edge.kind in (CENTER, FOLD) or panel.fold == edge.name) and phrases.faces_front(edge) == front
        ][:1]
        for front in (True, False)
    )
    placed, left = [*laced, *fronts], [*_seams(pattern, {panel.name for panel in panels}), *backs]
    while left and sum(place.bone.count for place in placed) + ON_BOTH_HALVES <= MOST:
        widest = max(left, key=lambda one: min(abs(one.around - place.around) for place in placed))
        placed.append(widest)
        left.remove(widest)
    return [*sorted(placed[len(laced) :], key=lambda place: place.around), *laced], left


def _of_halves(halves: list[tuple[list[_Place], list[_Place]]]) -> tuple[list[_Place], list[_Place]]:
    """The places of two halves that differ, as the left one has them: each with bones that are short enough for both."""
    (ours, left), (theirs, _) = halves
    short = {place.bone.where: place.bone.cut_mm for place in theirs}
    bones = [replace(one.bone, cut_mm=min(one.bone.cut_mm, short.get(one.bone.where, one.bone.cut_mm))) for one in ours]
    return [replace(place, bone=bone) for place, bone in zip(ours, bones, strict=True)], left


def _seams(pattern: Pattern, drafted: set[str]) -> Iterator[_Place]:
    """The upright seams of the drafted pieces."""
    for seam in pattern.seams:
        edge = pattern.by_name[seam.front.panel].edge(seam.front.edge) if seam.front.panel in drafted else None
        if edge is not None and edge.kind == SEAM and not edge.across and seam.back.panel in drafted:
            yield _place(pattern, edge, f"{ON_SEAM}{seam.letter}", ON_BOTH_HALVES)


def _place(pattern: Pattern, edge: Edge, where: str, count: int) -> _Place:
    bone = WornBone(where, cut_mm(edge.curve.length_mm - SHORT_MM, pattern.body.units), count)
    middle = edge.curve.at(0.5 * edge.curve.length_mm)[None, :]
    return _Place(bone, float(pattern.block.where(middle)[0][0]))


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
    placed, without = _places(pattern)
    bones = [place.bone for place in placed]
    if not bones:
        return
    yield (
        "Turn the cloth in along each lacing line. Fold each lacing strip along its middle, lay it inside with the fold on "
        "that line, and sew it down along both its edges. Work the eyelets through strip and cloth, or set metal ones. Lace "
        f"it {closing.laced_words(pattern)}. The strips serve for the next toile."
    )
    share, counted = (2, "in each half") if pattern.half else (1, "in all")
    listed = "; ".join(f"{one.where}: {one.count // share} of {format_length(one.cut_mm, units)}" for one in bones)
    yield (
        f"Bones to wear it by, {sum(one.count for one in bones) // share} {counted}, taped on inside: {listed}. Those of the garment do, "
        "where they are as long."
    )
    letters = [place.bone.where.removeprefix(ON_SEAM) for place in without if place.bone.where.startswith(ON_SEAM)]
    if letters:
        yield (
            f"There are none on seam{'s' if len(letters) > 1 else ''} {phrases.listed(letters)}: more than {MOST} in all would hide what wants "
            "pinching, and there the next ones stand nearest."
        )
    yield "Keep the lace end and a pair of scissors within your own reach when you first put it on."
