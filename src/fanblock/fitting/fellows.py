"""Two drafts of which one has two halves that are not alike: the pieces of the other, each told twice, to be laid beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType

from fanblock.fitting.seen import SeenDraft, SeenPiece
from fanblock.geometry.curve import Points, frozen
from fanblock.wearer.model import HALVES, LEFT


def in_halves(old: SeenDraft, new: SeenDraft) -> tuple[SeenDraft, SeenDraft]:
    """Return both drafts, the pieces of one that serve for both halves told left and right where the other has them apart."""
    return _apart(old, new), _apart(new, old)


def _apart(draft: SeenDraft, other: SeenDraft) -> SeenDraft:
    return replace(draft, pieces=MappingProxyType({piece.name: piece for piece in _pieces(draft, other)}))


def _pieces(draft: SeenDraft, other: SeenDraft) -> Iterator[SeenPiece]:
    for piece in draft.pieces.values():
        names = {half: f"{piece.name} {half}" for half in HALVES}
        if piece.name in other.pieces or not all(name in other.pieces for name in names.values()):
            yield piece
        else:
            yield from (replace(_of(piece, half), name=name) for half, name in names.items())


def _of(piece: SeenPiece, half: str) -> SeenPiece:
    """A piece as it is cut for a half: the right one turned over."""
    if half == LEFT:
        return piece
    return replace(piece, ring=_flipped(piece.ring)[::-1], waist=_flipped(piece.waist), grain=_flipped(piece.grain))


def _flipped(points: Points) -> Points:
    return frozen(points * (-1.0, 1.0))
