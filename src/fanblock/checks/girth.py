"""Do the pieces add up? At the waist, the bust and every tenth between, and against the body at the waist.

On a block that stands on other girths, at those too, and against the body at the lower of them.
"""

from __future__ import annotations

from fanblock.block.stand import ON_WAIST_AND_BUST, level_of
from fanblock.checks.finding import HOLDS, WARNS, told, within
from fanblock.pattern.model import Finding, Girth, Pattern
from fanblock.tolerances import GIRTH_MM
from fanblock.units import format_length
from fanblock.wearer.girths import BUST, HEIGHT_MEASURES, WAIST, girth_height_mm

FAMILY = "girth"

LOOSE_WARN_MM = 50.0
"""A cone this much larger than a measured girth wants a word (from memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return the sums at every level, the finished waist, and how loose or tight the cone is elsewhere."""
    hem_top = float(pattern.block.where(pattern.lines["hem"].points)[1].max())
    found = [_sum(girth, pattern, hem_top) for girth in pattern.girths]
    lower = pattern.stand.lower.name
    found += [_finished(girth, pattern) for girth in pattern.girths if girth.name == lower]
    told_at = {lower, WAIST, BUST}
    found += [_let_in(girth, pattern) for girth in pattern.girths if girth.let_in_mm and girth.name in told_at]
    found += _against_body(pattern)
    return tuple(found)


def _sum(girth: Girth, pattern: Pattern, hem_top: float) -> Finding:
    units, counted = pattern.body.units, _counted(pattern)
    where = "beyond the edges" if girth.height < hem_top else "above the top edge"
    miss = 2.0 * abs(girth.parts_mm + girth.open_mm + girth.gap_mm + girth.takes_mm - girth.block_mm)
    pieces = format_length(counted * girth.parts_mm, units)
    extra = f", {format_length(counted * girth.open_mm, units)} of it open {where}" if girth.open_mm > GIRTH_MM else ""
    share = f"{girth.height:.0%} of the way up to the bust"
    level = share if girth.body_mm is None else f"at the {girth.name}"
    says = f"{level}: pieces {pieces}, gap and takes make up the block's {format_length(counted * girth.block_mm, units)}{extra}"
    named = girth.body_mm is not None and girth.name not in ON_WAIST_AND_BUST.names
    at = f"at-{_tag(girth.name)}" if named else f"{girth.height * 100:.0f}"
    return within(f"girth-{at}", FAMILY, miss, GIRTH_MM, "mm", says)


def _counted(pattern: Pattern) -> float:
    """How often a half is counted where its widths are told: once where the two halves are not alike."""
    return 1.0 if pattern.half else 2.0


def _tag(name: str) -> str:
    return name.replace(" ", "-")


def _finished(girth: Girth, pattern: Pattern) -> Finding:
    body, units = girth.base_mm or 0.0, pattern.body.units
    worn = 2.0 * (girth.parts_mm + girth.open_mm + girth.gap_mm + girth.turned_in_mm)
    due = body + girth.ease_mm - girth.reduction_mm - girth.altered_mm
    whose = "block" if pattern.block.traced_from else "body"
    share = 0.5 * _counted(pattern)
    bare = f" and {format_length(2.0 * share * girth.open_mm, units)} open" if girth.open_mm > GIRTH_MM else ""
    says = (
        f"worn {girth.name} {format_length(share * worn, units)}{_gap(2.0 * share * girth.gap_mm, units)}{bare}; "
        f"{whose} {format_length(share * body, units)} + ease {format_length(share * girth.ease_mm, units)} "
        f"- reduction {format_length(share * girth.reduction_mm, units)}"
    )
    if abs(girth.altered_mm) > GIRTH_MM:
        word = "taken in" if girth.altered_mm > 0.0 else "let out"
        says += f", {word} by {format_length(share * abs(girth.altered_mm), units)} after a fitting"
    return within(f"girth-worn-{_tag(girth.name)}", FAMILY, abs(worn - due), GIRTH_MM, "mm", says)


def _let_in(girth: Girth, pattern: Pattern) -> Finding:
    """Tell what pieces that are let in add at a level, and how large the garment is there with them."""
    units, body = pattern.body.units, girth.body_mm or 0.0
    adds = 2.0 * (girth.let_in_mm - girth.turned_in_mm)
    worn = 2.0 * (girth.parts_mm + girth.open_mm + girth.gap_mm + girth.let_in_mm)
    names = ", ".join(name for name, mm in girth.let_in if mm)
    bare = " (measured round all of the block, some of it open)" if girth.open_mm > GIRTH_MM else ""
    over = worn - body
    size = f"{format_length(abs(over), units)} {'more' if over >= 0.0 else 'less'} than you"
    says = f"{names} of both halves add {format_length(adds, units)} at the {girth.name}: with them it is "
    says += f"{format_length(worn, units)} round there{bare}, {size}"
    state = WARNS if over < -LET_IN_SHORT_MM or over > LOOSE_WARN_MM + LET_IN_SHORT_MM else HOLDS
    return told(f"girth-let-in-{_tag(girth.name)}", FAMILY, state, adds, "mm", says)


LET_IN_SHORT_MM = 15.0
"""A garment that is so much smaller than the body where pieces are let in wants a word; so does one that is larger by this
more than a cone may be: the cloth follows the hollow between the breasts, which the tape bridges (from memory)."""


def _gap(gap_mm: float, units: str) -> str:
    """What of a girth no cloth covers, or covers twice; nothing where the edges just meet."""
    if gap_mm < -GIRTH_MM:
        return f", the halves lying {format_length(-gap_mm, units)} over each other"
    return f", of which {format_length(gap_mm, units)} gap" if gap_mm > GIRTH_MM else ""


def _against_body(pattern: Pattern) -> list[Finding]:
    """Report the cone, where there is cloth of it, against girths it was not made from; never a failure."""
    body, block = pattern.body, pattern.block
    front_top = float(block.where(pattern.lines["top edge"].end)[1])
    hem_low = float(block.where(pattern.lines["hem"].points)[1].min())
    found = []
    for name in HEIGHT_MEASURES:
        height = level_of(block, body, name).height
        unmeasured = name in body.guessed or name in body.predicted
        if name in pattern.stand.names or unmeasured or not hem_low < height <= front_top:
            continue
        over = 2.0 * block.level_length_mm(height) - body.length_mm(name)
        word = "looser" if over >= 0 else "tighter"
        do = "gussets or gathers must give it" if name == BUST and over < 0 else "look there on the toile"
        guessed = body.is_guess(HEIGHT_MEASURES[name])
        high = format_length(girth_height_mm(body, name), body.units)
        told_at = f" ({high} above the waist, a height that is guessed)"
        says = f"at your {name}{told_at * guessed} the cone is {format_length(abs(over), body.units)} {word} than you: {do}"
        state = WARNS if over > LOOSE_WARN_MM else HOLDS
        found.append(told(f"girth-{_tag(name)}", FAMILY, state, over, "mm", says))
    return found
