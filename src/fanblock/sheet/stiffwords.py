"""What is said of channels, bones, eyelets and binding in the order of sewing and for the toile."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.bones import BONE, BUSK, SHAPING
from fanblock.pattern.model import CENTER, SEWN, WHIPPED, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.channelwords import closed_words, marked_words, over_channels
from fanblock.sheet.finishing import CHANNELLED, IN_LAST, NONE, STRENGTH, layers_of, lining_way

UNPLANNED = (
    "Bones, their channels and eyelets are not planned on these sheets: where they go is for you to settle, best on the "
    "toile."
)


BONES_IN = "Put in the bones from above, each as long as the list says, with rounded or tipped ends."

STITCHED = "stitch both lines of every channel through them, and across its lower end."


def is_planned(pattern: Pattern) -> bool:
    """Return whether a recipe planned bones or eyelets."""
    return any(panel.channels or panel.eyelets for panel in pattern.panels)


def before_joining(pattern: Pattern) -> Iterator[str]:
    """Yield what is done piece by piece before any are joined, by the way of making (common practice, no source)."""
    boned, made = BONE in _kinds(pattern), pattern.construction
    if boned:
        yield from marked_words(pattern)
    over = over_channels(pattern)
    if made == WHIPPED:
        if boned:
            yield (
                "Each piece is made by itself. Baste its layers together, all but the lining, and stitch both lines of every "
                f"channel through them, and across its lower end{f'; {over}' if over else ''}."
            )
            yield BONES_IN
            yield from closed_words(pattern)
        yield _turned(pattern)
    elif made == SEWN and boned:
        base, more = "the strength layer", "those of the outer cloth likewise, by themselves"
        if STRENGTH not in layers_of(pattern):
            base, more = "the outer cloth", "those of the lining likewise, by themselves"
        elif over:
            base = "each strength layer by itself"
        yield (
            f"Seams first, channels after them: join the pieces of {base} as told here, and press the allowances open; join {more}."
        )
    elif boned:
        layers = "strength layers" if over else "layers that the bones go between"
        yield f"First the channels, piece by piece: baste the {layers} together and {STITCHED}"


def _turned(pattern: Pattern) -> str:
    """How the edges of pieces are turned in that are whipped to each other; those at a centre are among them."""
    centers = dict.fromkeys(
        phrases.prose(edge.name)
        for panel in pattern.panels
        for edge in panel.edges
        if edge.kind == CENTER and panel.fold != edge.name and panel.allowances.get(edge.name, 0.0) > 0.0
    )
    and_centers = f", those at the {phrases.listed(centers)} too" if centers else ""
    return (
        f"Turn the seam edges of every piece in along the stitch line{and_centers}, all its layers but the lining as one, and sew "
        f"the raw edges down inside to {innermost(pattern)}, with stitches that do not show outside. The edges that are bound stay "
        "raw."
    )


def innermost(pattern: Pattern) -> str:
    """Return the layer that allowances are sewn down to inside, where the lining comes last or there is none."""
    if STRENGTH not in layers_of(pattern):
        return "the cloth beneath"
    return "the innermost strength layer" if over_channels(pattern) else "the strength layer"


def stiffened(pattern: Pattern) -> Iterator[str]:
    """Yield what is done when the pieces hang together, by the way of making, up to the eyelets (common practice, no source).

    Tapes 8 mm wide over whipped seams are published for stays of about 1780.
    """
    kinds, made, way = _kinds(pattern), pattern.construction, lining_way(pattern)
    if made == WHIPPED:
        yield "Open every whipped seam flat, and sew a narrow tape over it inside, 8 mm (5/16 in) wide or so."
    if BONE in kinds and made == SEWN:
        over = over_channels(pattern)
        layers = (
            f"lay the outer cloth over the strength layer{'s' * bool(over)} and baste them together, seams on seams"
            f"{f' ({over})' if over else ''}"
        )
        if STRENGTH not in layers_of(pattern):
            turned = ", turn both in toward each other along the lacing edges and fell them together there" * bool(
                pattern.lacings
            )
            layers = (
                f"lay outer cloth and lining together, wrong side to wrong side, baste them, seams on seams{turned}"
            )
        yield f"Then the channels: {layers}, and {STITCHED}"
    if BONE in kinds and made != WHIPPED:
        yield BONES_IN
        yield from closed_words(pattern)
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
        yield from _eyelets(pattern, way)


def _eyelets(pattern: Pattern, way: str) -> Iterator[str]:
    """How lacing edges are turned in, and where and through what their eyelets are worked."""
    mirrored = any(not lacing.across for lacing in pattern.lacings)
    rows = "the left and the right row are each in the list" if mirrored else "the rows of both edges are in the list"
    last = way in (NONE, IN_LAST)
    if last:
        boned = BONE in _kinds(pattern)
        over = ", over the channels beside them" * boned
        yield (
            f"Turn the lacing edges in along the stitch line{over}, fold the raw edge under, and sew it to {innermost(pattern)}."
        )
    elif way != CHANNELLED:
        yield "The lacing edges are turned in by now, with the lining."
    layers = "all layers but the lining" if last else "all layers, the lining too"
    yield (
        f"Mark the eyelets only now, on the finished lacing edges, by the printed strips: these hold good, and the rings on the pieces "
        f"only show where they come. Then work the eyelets through {layers}; {rows}."
    )


def bound(pattern: Pattern) -> Iterator[str]:
    """Yield how the edges are bound that a recipe plans a binding for."""
    if pattern.binding is not None:
        bones = ", which closes the channels that end below it" if BONE in _kinds(pattern) else ""
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
