"""Two halves drafted apart, joined to the pattern of one garment: every piece singly, marked L or R."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, replace
from difflib import SequenceMatcher
from itertools import zip_longest
from types import MappingProxyType
from typing import TypeVar

from fanblock.halves.composed import composed
from fanblock.halves.mirror import flipped, mirrored
from fanblock.halves.names import edge_name, is_one, piece_name, renamed
from fanblock.halves.opened import opened
from fanblock.pattern.bones import BOTH, LEFT, RIGHT, Eyelet, Lacing
from fanblock.pattern.model import Girth, Note, Opening, Panel, Pattern, Seam
from fanblock.wearer.body import Body
from fanblock.wearer.fixed import Fixed

SIDES = (LEFT, RIGHT)

One = TypeVar("One")


def joined_halves(left: Pattern, right: Pattern, even: Body) -> Pattern:
    """Return the pattern of a garment whose halves are these two, each given as if both were like it.

    ``even`` is the wearer's body told as one; its lengths are taken as these halves have them. The findings are still to be made. GeometryError for a piece that both halves
    make together and that cannot be made one.
    """
    both = (replace(left, half=LEFT), replace(right, half=RIGHT))
    return replace(
        left,
        body=replace(even, lengths=Fixed(_means(left.body.lengths.items(), right.body.lengths.items()))),
        panels=tuple(_panels(left, right)),
        seams=tuple(seam for side, half in zip(SIDES, both, strict=True) for seam in _seams(half, side)),
        girths=tuple(_mean(*pair) for pair in zip(left.girths, right.girths, strict=True)),
        lines=MappingProxyType(
            {f"{LEFT} {name}": curve for name, curve in left.lines.items()}
            | {f"{RIGHT} {name}": flipped(curve) for name, curve in right.lines.items()}
        ),
        gap_mm=0.5 * (left.gap_mm + right.gap_mm),
        notes=tuple(_notes(left.notes, right.notes)),
        findings=(),
        lacings=tuple(_lacings(left, right)),
        openings=tuple(_opening(*pair) for pair in zip(left.openings, right.openings, strict=False)),
        halves=both,
    )


def _panels(left: Pattern, right: Pattern) -> Iterator[Panel]:
    """The panels of both by their numbers, of each number the left half's first."""
    for ours, theirs in zip_longest(*(_by_number(half) for half in (left, right))):
        if ours is not None and theirs is not None and is_one(ours) and ours.name == theirs.name:
            one = opened(ours, theirs) if ours.fold else composed(ours, theirs)
            names = {panel.name: panel for half in (left, right) for panel in half.panels}
            yield _mated(replace(one, copy_of=_copied(one, names, LEFT)), (left, right))
            continue
        for panel, half, side in ((ours, left, LEFT), (theirs, right, RIGHT)):
            if panel is not None:
                yield _single(panel, half, side)


def _by_number(pattern: Pattern) -> list[Panel]:
    return sorted(pattern.panels, key=lambda panel: panel.number)


def _single(panel: Panel, half: Pattern, side: str) -> Panel:
    """A panel of one half alone, the right one's turned over; cut singly, its eyelets those of its own half."""
    names = half.by_name
    own = panel if side == LEFT else mirrored(panel)
    return replace(
        own,
        name=piece_name(panel, side),
        edges=tuple(
            replace(edge, mate=None if edge.mate is None else renamed(edge.mate, names, side)) for edge in own.edges
        ),
        cuts=tuple((layer, max(count // 2, 1)) for layer, count in panel.cuts),
        eyelets=tuple(_own_eyelets(own.eyelets, side, panel)),
        copy_of=_copied(panel, names, side),
        side=side,
    )


def _copied(panel: Panel, names: Mapping[str, Panel], side: str) -> str:
    return piece_name(names[panel.copy_of], side) if panel.copy_of in names else panel.copy_of


def _own_eyelets(eyelets: Iterable[Eyelet], side: str, panel: Panel) -> Iterator[Eyelet]:
    """The holes of one half: those of its own row, and those that are level in both."""
    yield from (replace(one, half=side) for one in eyelets if one.half in (side, BOTH))


def _mated(panel: Panel, halves: tuple[Pattern, Pattern]) -> Panel:
    """A piece that both halves make, with the mates of its edges named as those pieces now are."""
    found = []
    for edge in panel.edges:
        side = RIGHT if edge.mirrored else LEFT
        names = halves[SIDES.index(side)].by_name
        mate = edge.mate if edge.mate is None or edge.mate.panel not in names else renamed(edge.mate, names, side)
        found.append(replace(edge, mate=mate))
    return replace(panel, edges=tuple(found))


def _seams(half: Pattern, side: str) -> Iterator[Seam]:
    names = half.by_name
    for seam in half.seams:
        yield replace(
            seam,
            name=f"{seam.name} {side}",
            front=renamed(seam.front, names, side),
            back=renamed(seam.back, names, side),
        )


def _mean(left: Girth, right: Girth) -> Girth:
    """What the two halves add up to at one level, told as a mean half."""
    numbers = {
        field.name: 0.5 * (getattr(left, field.name) + getattr(right, field.name))
        for field in fields(left)
        if isinstance(getattr(left, field.name), float) and isinstance(getattr(right, field.name), float)
    }
    return replace(left, **numbers, takes=_means(left.takes, right.takes), let_in=_means(left.let_in, right.let_in))


def _means(left: Iterable[tuple[str, float]], right: Iterable[tuple[str, float]]) -> tuple[tuple[str, float], ...]:
    ours, theirs = dict(left), dict(right)
    return tuple(
        (name, 0.5 * (ours.get(name, 0.0) + theirs.get(name, 0.0))) for name in dict.fromkeys((*ours, *theirs))
    )


def _lacings(left: Pattern, right: Pattern) -> Iterator[Lacing]:
    """The lacings: one at a centre has its left row from the left half and its right row from the right half."""
    for ours, theirs in zip(left.lacings, right.lacings, strict=True):
        if ours.across:
            yield from (_of_side(one, half, side) for one, half, side in ((ours, left, LEFT), (theirs, right, RIGHT)))
            continue
        means = {
            name: 0.5 * (getattr(ours, name) + getattr(theirs, name)) for name in ("lace_mm", "gap_mm", "spacing_mm")
        }
        yield replace(ours, panel=piece_name(left.by_name[ours.panel], LEFT), right_mm=theirs.right_mm, **means)


def _of_side(lacing: Lacing, half: Pattern, side: str) -> Lacing:
    """A lacing at the side, as it is on one side of the body."""
    panel, across = half.by_name[lacing.panel], half.by_name[lacing.across]
    return replace(
        lacing,
        panel=piece_name(panel, side),
        across=piece_name(across, side),
        edge=edge_name(panel, lacing.edge, side),
        side=side,
    )


def _opening(left: Opening, right: Opening) -> Opening:
    """An opening of the whole garment: each half gives its own half of the width."""
    widths = tuple(
        (0.5 * (ours[0] + theirs[0]), 0.5 * (ours[1] + theirs[1]))
        for ours, theirs in zip(left.widths, right.widths, strict=False)
    )
    width, over = (0.5 * (getattr(left, name) + getattr(right, name)) for name in ("width_mm", "overlap_mm"))
    return replace(left, width_mm=width, overlap_mm=over, widths=widths)


def _notes(left: Iterable[Note], right: Iterable[Note]) -> Iterator[Note]:
    """The notes of both: once where both say the same, else with the half they are of."""
    for note, side in merged(list(left), list(right)):
        yield replace(note, says=of_half(note.says, f"{side} half")) if side else note


def merged(ours: Sequence[One], theirs: Sequence[One]) -> Iterator[tuple[One, str]]:
    """Yield what stands in two lists in their order: once, with no side, what is in both, else each with its side."""
    for _, a, b, c, d in SequenceMatcher(None, ours, theirs, autojunk=False).get_opcodes():
        if ours[a:b] == theirs[c:d]:
            yield from ((one, "") for one in ours[a:b])
            continue
        for number in range(max(b - a, d - c)):
            yield from ((one, LEFT) for one in ours[a:b][number : number + 1])
            yield from ((one, RIGHT) for one in theirs[c:d][number : number + 1])


def of_half(says: str, half: str) -> str:
    """Return a sentence said of one half.

    >>> of_half("Draw the upper end up.", "left half")
    'Left half: draw the upper end up.'
    """
    first = says[:1].lower() if says[1:2].islower() or says[1:2] == " " else says[:1]
    return f"{half.capitalize()}: {first}{says[1:]}"


def told_of_halves(pattern: Pattern, lines: Callable[[Pattern], Iterable[str]]) -> tuple[str, ...]:
    """Return lines told of each half: once where both halves say the same, else with the half each is of, in its place."""
    ours, theirs = (list(lines(half)) for half in pattern.halves)
    return tuple(of_half(says, f"{side} half") if side else says for says, side in merged(ours, theirs))
