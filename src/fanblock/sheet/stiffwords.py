"""What is said of channels, bones, eyelets and binding in the order of sewing and for the toile."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.bones import BONE, BUSK, SHAPING
from fanblock.pattern.model import Pattern

UNPLANNED = (
    "Bones, their channels and eyelets are not planned on these sheets: where they go is for you to settle, best on the "
    "toile."
)


def is_planned(pattern: Pattern) -> bool:
    """Return whether a recipe planned bones or eyelets."""
    return any(panel.channels or panel.eyelets for panel in pattern.panels)


def before_joining(pattern: Pattern) -> Iterator[str]:
    """Yield what is done piece by piece before any are joined (common practice, no source)."""
    kinds = _kinds(pattern)
    if BONE in kinds:
        yield (
            "First the channels, piece by piece: baste the strength layers together and stitch both lines of every channel "
            "through them, and across its lower end. On the other half the channels are mirrored."
        )


def after_joining(pattern: Pattern) -> Iterator[str]:
    """Yield what is done when the pieces hang together (common practice, no source)."""
    kinds = _kinds(pattern)
    if BONE in kinds:
        yield "Put in the bones from above, each as long as the list says, with rounded or tipped ends."
    if SHAPING in kinds:
        yield (
            "Lay the curved bones across the inside of the front, over the straight ones, and sew a strip of cloth over "
            "them, along the marked lines."
        )
    if BUSK in kinds:
        yield (
            "For the busk sew a strip of cloth over the centre front on the inside, along the marked line: it stays open "
            "above, and the busk is taken out for washing."
        )
    if pattern.lacings:
        mirrored = any(not lacing.across for lacing in pattern.lacings)
        rows = (
            "the left and the right row are each in the list" if mirrored else "the rows of both edges are in the list"
        )
        yield f"Work the eyelets through all layers but the lining; {rows}."
    if pattern.binding is not None:
        bones = ", which closes the channels above" if BONE in kinds else ""
        yield f"Bind the edges with {pattern.binding.material}{bones}. The lining comes last."


def toile_bones(pattern: Pattern) -> Iterator[str]:
    """Yield what a toile that is laced wants of bones."""
    yield (
        "Put in a few bones for the time being: at the centre front, beside the lacing edges, in the side seams. No binding."
    )
    if not is_planned(pattern):
        yield UNPLANNED
    elif BONE in _kinds(pattern):
        yield "Tape bones on where the pieces have their channels; you can use them again in the garment."


def _kinds(pattern: Pattern) -> set[str]:
    return {channel.kind for panel in pattern.panels for channel in panel.channels}
