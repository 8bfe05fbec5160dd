"""What is said of channels, bones, eyelets and binding in the order of sewing and for the toile."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.bones import BONE, BUSK, SHAPING
from fanblock.pattern.model import SEWN, WHIPPED, Pattern
from fanblock.sheet.finishing import IN_LAST, NONE, STRENGTH, layers_of, lining_way

UNPLANNED = (
    "Bones, their channels and eyelets are not planned on these sheets: where they go is for you to settle, best on the "
    "toile."
)


BONES_IN = "Put in the bones from above, each as long as the list says, with rounded or tipped ends."

STITCHED = "stitch both lines of every channel through them, and across its lower end."

MIRRORED = " On the other half the channels are mirrored."
"""What is added where both halves are cut from one set of pieces."""


def is_planned(pattern: Pattern) -> bool:
    """Return whether a recipe planned bones or eyelets."""
    return any(panel.channels or panel.eyelets for panel in pattern.panels)


def before_joining(pattern: Pattern) -> Iterator[str]:
    """Yield what is done piece by piece before any are joined, by the way of making (common practice, no source)."""
    boned, made = BONE in _kinds(pattern), pattern.construction
    if made == WHIPPED:
        if boned:
            yield (
                "Each piece is made by itself. Baste its layers together, all but the lining, and stitch both lines of every "
                "channel through them, and across its lower end; where no stitching shall show, lay the outer cloth on "
                f"afterwards.{_mirrored(pattern)}"
            )
            yield BONES_IN
        yield (
            "Turn the seam edges of every piece in along the stitch line, and sew the allowance down inside. The edges that "
            "are bound stay raw."
        )
    elif made == SEWN and boned:
        base, more = "the strength layers", "those of the outer cloth likewise, by themselves"
        if STRENGTH not in layers_of(pattern):
            base, more = "the outer cloth", "those of the lining likewise, by themselves"
        yield (
            f"Seams first, channels after them: join the pieces of {base} as told here, and press the allowances open; join {more}."
        )
    elif boned:
        yield f"First the channels, piece by piece: baste the strength layers together and {STITCHED}{_mirrored(pattern)}"


def _mirrored(pattern: Pattern) -> str:
    return "" if pattern.half else MIRRORED


def stiffened(pattern: Pattern) -> Iterator[str]:
    """Yield what is done when the pieces hang together, by the way of making, up to the eyelets (common practice, no source).

    Tapes 8 mm wide over whipped seams are published for stays of about 1780.
    """
    kinds, made, way = _kinds(pattern), pattern.construction, lining_way(pattern)
    if made == WHIPPED:
        yield "Open every whipped seam flat, and sew a narrow tape over it inside, 8 mm (5/16 in) wide or so."
    if BONE in kinds and made == SEWN:
        layers = (
            "lay the outer cloth over the strength layers and baste them together, seams on seams (where no stitching shall show, "
            "lay it on after the channels)"
        )
        if STRENGTH not in layers_of(pattern):
            layers = "lay outer cloth and lining together, wrong side to wrong side, and baste them, seams on seams"
        yield f"Then the channels: {layers}, and {STITCHED}{_mirrored(pattern)}"
    if BONE in kinds and made != WHIPPED:
        yield BONES_IN
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
        layers = "all layers but the lining" if way in (NONE, IN_LAST) else "all layers, the lining too"
        yield f"Turn the lacing edges in and work the eyelets through {layers}; {rows}."


def bound(pattern: Pattern) -> Iterator[str]:
    """Yield how the edges are bound that a recipe plans a binding for."""
    if pattern.binding is not None:
        bones = ", which closes the channels above" if BONE in _kinds(pattern) else ""
        yield f"Bind the edges with {pattern.binding.material}{bones}."


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
