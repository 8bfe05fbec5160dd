"""What is said of a cloth and its pieces, and the shopping list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fanblock.cloth.laying import Lay
from fanblock.pattern.model import ARMHOLE, FREE, HEM, NECKLINE, TOP, Pattern
from fanblock.sheet.listing import binding_table, bone_sentences, is_listed, lace_sentences
from fanblock.units import UNITS, format_length

BOUND_KINDS = frozenset({ARMHOLE, FREE, HEM, NECKLINE, TOP})

LACED = "lacing"

JOINS = 1.1
"""How much more tape is bought than its edges measure, for joins and corners (common practice, no source)."""

YARD_MM = 36.0 * UNITS["in"]


def bought(mm: float, units: str) -> str:
    """Return a length of cloth as it is sold: yards with eighths, or metres.

    >>> bought(914.4 * 1.625, "in"), bought(1300.0, "cm")
    ('1 5/8 yd', '1.3 m')
    """
    if units != "in":
        return f"{mm / 1000.0:.1f} m"
    eighths = round(8.0 * mm / YARD_MM)
    whole, rest = divmod(eighths, 8)
    fraction = {0: "", 4: "1/2", 2: "1/4", 6: "3/4"}.get(rest, f"{rest}/8")
    return " ".join(part for part in (str(whole) if whole else "", fraction) if part) + " yd"


def lay_sentences(lay: Lay, units: str) -> tuple[str, ...]:
    """Return what a maker must know of a cloth before she cuts."""
    return tuple(_sentences(lay, units))


def _sentences(lay: Lay, units: str) -> Iterator[str]:
    cloth = lay.cloth
    width = format_length(cloth.width_mm, units)
    guess = " This width is assumed: tell yours in a garment file." if lay.assumed else ""
    yield f"Buy {bought(lay.buy_mm, units)} of cloth {width} wide.{guess}"
    shrunk = cloth.warp_shrinks or cloth.weft_shrinks
    lost = f" and are {cloth.warp_shrinks:.1%} in length and {cloth.weft_shrinks:.1%} in width" if shrunk else ""
    losses = (
        f"What washing takes is reckoned with{lost}."
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
    if lay.doubled:
        yield "Fold the cloth selvedge to selvedge, right side in; each piece then gives both halves at once."
    turn = "All pieces lie the same way up, because of the nap." if cloth.nap else "A piece may lie either end up."
    repeat = (
        f" A repeat of {format_length(cloth.repeat_mm, units)} is allowed for each piece along the cloth."
        if cloth.repeat_mm
        else ""
    )
    yield f"Arrows run along the warp and point to the top of the piece. {turn}{repeat} L and R are the wearer's left and right half: one is the mirror image of the other."


def bare_mm(pattern: Pattern) -> float:
    """Return how long the free edges of the whole garment are that have no allowance, and so are bound."""
    return sum(
        edge.curve.length_mm * (1 if panel.whole else 2)
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
        width = format_length(lay.cloth.width_mm, units)
        yield f"cloth: {lay.layer}", f"{bought(lay.buy_mm, units)}, {width} wide{' (assumed)' if lay.assumed else ''}"
    if is_listed(pattern):
        for sentence in bone_sentences(pattern):
            if sentence.startswith("Bone "):
                what, _, how = sentence.partition(": ")
                yield what[0].lower() + what[1:], how.rstrip(".")
        for lacing in pattern.lacings:
            for sentence in lace_sentences(lacing, units):
                if sentence.startswith("Lace: "):
                    yield "lace", sentence.removeprefix("Lace: ").partition(". ")[0]
        for row in binding_table(pattern):
            yield f"binding: {row[0]}", row[2]
    bare = bare_mm(pattern)
    if pattern.binding is None and bare > 0.0:
        yield "tape to bind what has no allowance", format_length(JOINS * bare, units)
    for opening in pattern.openings:
        if opening.closed != LACED:
            yield opening.closed, f"for the {opening.at.replace('center', 'centre')}"
    yield (
        "thread",
        "one reel of strong thread for the seams and channels, one of silk or waxed linen for the eyelets"
        if pattern.lacings
        else "one reel",
    )
