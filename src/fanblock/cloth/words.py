"""What is said of a cloth and its pieces, and the shopping list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from types import MappingProxyType

from fanblock.cloth.laying import Lay, width_words
from fanblock.finish.bonelist import eyelet_count
from fanblock.finish.openings import NAMES
from fanblock.pattern.bones import RIGHT
from fanblock.pattern.model import ARMHOLE, CENTER, FREE, HEM, NECKLINE, TOP, WHIPPED, Opening, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.listing import binding_table, bone_sentences, is_listed, lace_sentences
from fanblock.sheet.sewingorder import is_whipped
from fanblock.units import format_length, sold_length, spoken_length

BOUND_KINDS = frozenset({ARMHOLE, FREE, HEM, NECKLINE, TOP})

LACED = "lacing"

JOINS = 1.1
"""How much more tape is bought than its edges measure, for joins and corners (common practice, no source)."""

HAND_SEWN = frozenset({"buttons", "hooks", "ties"})
"""What an opening is closed with that is bought by the piece."""


def lay_sentences(lay: Lay, units: str) -> tuple[str, ...]:
    """Return what a maker must know of a cloth before she cuts."""
    return tuple(_sentences(lay, units))


def _sentences(lay: Lay, units: str) -> Iterator[str]:
    cloth = lay.cloth
    width = width_words(cloth, units)
    guess = " This width is assumed: tell yours in a garment file." if lay.assumed else ""
    yield f"Buy {sold_length(lay.buy_mm, units)} of cloth {width} wide.{guess}"
    shrunk = cloth.warp_shrinks or cloth.weft_shrinks
    lost = f"{cloth.warp_shrinks:.1%} of its length and {cloth.weft_shrinks:.1%} of its width".replace(".0%", "%")
    losses = (
        f"What washing takes is reckoned with: {lost}."
        if shrunk
        else "Nothing is reckoned for shrinking: wash a piece of it and measure."
    )
    yield f"Wash and press it first. {losses}"
    length, wide = format_length(lay.length_mm, units), format_length(lay.width_mm, units)
    yield (
        f"On the washed cloth, {wide} wide, the pieces take {length} of its length and cover {lay.used_ratio:.0%} of it. "
        "In rows they would take "
        f"{format_length(lay.rows_mm, units)}."
    )
    if cloth.selvedge_mm:
        kept = spoken_length(cloth.selvedge_mm, units)
        yield f"The dashed lines are {kept} from the selvedge: nothing is cut beyond them."
    if any(laid.shape.opened for laid in lay.single):
        yield "A piece that is printed to a fold lies here opened out; its fold is the dotted line across it."
    if lay.doubled:
        yield "Fold the cloth selvedge to selvedge, right side in; each piece then gives both halves at once."
    turn = "All pieces lie the same way up, because of the nap." if cloth.nap else "A piece may lie either end up."
    repeat = (
        f" A repeat of {format_length(cloth.repeat_mm, units)} is allowed for each piece along the cloth."
        if cloth.repeat_mm
        else ""
    )
    yield f"Arrows run along the warp and point to the top of the piece. {turn}{repeat} {_sides(lay)}"


def _sides(lay: Lay) -> str:
    """What L and R say beside a number."""
    paired = any(laid.shape.paired for laid in (*lay.doubled, *lay.single))
    mirrored = "one is the mirror image of the other" if paired else "each is cut by itself, from its own outline"
    return f"L and R are the wearer's left and right half: {mirrored}."


def bare_mm(pattern: Pattern) -> float:
    """Return how long the free edges of the whole garment are that have no allowance, and so are bound."""
    return sum(
        edge.curve.length_mm * (1 if panel.single else 2)
        for panel in pattern.panels
        if not panel.layer
        for edge in panel.edges
        if edge.kind in BOUND_KINDS and edge.mate is None and not panel.allowances.get(edge.name, 0.0)
    )


def shopping(pattern: Pattern, lays: Sequence[Lay]) -> tuple[tuple[str, str], ...]:
    """Return what to buy: each thing with how much of it."""
    return tuple(_shopping(pattern, lays))


def _shopping(pattern: Pattern, lays: Sequence[Lay]) -> Iterator[tuple[str, str]]:
    units = pattern.body.units
    for lay in lays:
        width = width_words(lay.cloth, units)
        yield (
            f"cloth: {lay.layer}",
            f"{sold_length(lay.buy_mm, units)}, {width} wide{' (assumed)' if lay.assumed else ''}{kind_words(pattern, lay.layer)}",
        )
    yield from _stiffening(pattern, units)
    bare, taped = bare_mm(pattern), taped_mm(pattern)
    if pattern.binding is None and bare > 0.0:
        yield "tape to bind what has no allowance", sold_length(JOINS * bare, units)
    if taped > 0.0:
        yield "narrow tape to cover the whipped seams", f"{sold_length(taped, units)}, its ends turned in at every seam"
    for opening in pattern.openings:
        if opening.closed != LACED:
            yield opening.closed, _fastened(pattern, opening)
    yield "thread", THREAD_AND_SILK if pattern.lacings else THREAD


def _stiffening(pattern: Pattern, units: str) -> Iterator[tuple[str, str]]:
    """Bones and busk, lace and eyelets, binding."""
    if not is_listed(pattern):
        return
    for sentence in bone_sentences(pattern):
        if sentence.startswith(("Bone ", "Busk ")):
            what, _, how = sentence.partition(": ")
            yield what[0].lower() + what[1:], how.rstrip(".")
    for lacing in pattern.lacings:
        for sentence in lace_sentences(lacing, units):
            if sentence.startswith("Lace: "):
                yield "lace", sentence.removeprefix("Lace: ").partition(". ")[0]
        yield f"eyelets: {lacing.edge}", f"{eyelet_count(lacing)}, worked by hand or set"
    if pattern.binding is not None:
        of = f"{pattern.binding.material}, {spoken_length(pattern.binding.width_mm, units)} wide"
        whole, *_ = binding_table(pattern)
        yield f"binding: {whole[0]}", f"{whole[2]} of {of}"


TAPE_END_MM = 10.0
"""How much of a seam tape is turned in at either end (common practice, no source)."""


def taped_mm(pattern: Pattern) -> float:
    """Return how long the tapes are that cover the whipped seams of the whole garment inside, their turned ends included.

    Those are the seams of both halves, and the centre seams at which the halves are whipped to each other.
    """
    runs = [
        (1 if panel.single else 2, panel.edge(seam.front.edge).curve.length_mm)
        for seam in pattern.seams
        for panel in (pattern.by_name[seam.front.panel],)
        if is_whipped(pattern, seam)
    ]
    if pattern.construction == WHIPPED:
        runs += [(1, mm) for mm in _center_seams_mm(pattern)]
    return sum(times * (mm + 2.0 * TAPE_END_MM) for times, mm in runs)


def _center_seams_mm(pattern: Pattern) -> Iterator[float]:
    """The lengths of the seams at which the two halves are joined; of halves drafted apart each stands on one panel of two."""
    for panel in pattern.panels:
        for edge in panel.edges:
            sewn = panel.allowances.get(edge.name, 0.0) > 0.0 and panel.fold != edge.name
            if edge.kind == CENTER and sewn and panel.side != RIGHT and not (panel.added or panel.layer):
                yield edge.curve.length_mm


BOUGHT_FOR = MappingProxyType({
    "outer": "a firm linen, wool or silk",
    "strength layer": "a firm linen canvas, or stiff buckram",
    "lining": "a soft linen",
})  # fmt: skip
"""Cloth to buy for each layer of what is boned or laced (common practice, no source)."""

BOUGHT_SOFT = MappingProxyType({
    "outer": "linen, wool, silk or printed cotton",
    "strength layer": "a firm linen",
    "lining": "a plain-woven linen",
})  # fmt: skip
"""The same for what is neither (common practice, no source)."""


def kind_words(pattern: Pattern, layer: str) -> str:
    """Return what cloth a layer may be of, as the end of a sentence; empty for a layer or a thing that is told of by its recipe."""
    if pattern.toile or pattern.band is not None:
        return ""
    firm = bool(pattern.lacings) or any(panel.channels for panel in pattern.panels)
    kind = (BOUGHT_FOR if firm else BOUGHT_SOFT).get(layer, "")
    return f"; for example {kind}" if kind else ""


def _fastened(pattern: Pattern, opening: Opening) -> str:
    """How many of what closes an opening, and where it is."""
    at = f"for the {phrases.prose(opening.at)}"
    word = NAMES.get(opening.closed, "") if opening.closed in HAND_SEWN else ""
    marks = {mark.name for panel in pattern.panels for mark in panel.marks if mark.kind == "fastening"}
    count = sum(name.rpartition(" ")[0] == word for name in marks) * opening.times if word else 0
    return f"{count} {at}" if count else at


THREAD = "one reel"

THREAD_AND_SILK = "one reel of strong thread for the seams and channels, one of silk or waxed linen for the eyelets"
