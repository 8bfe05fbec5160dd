"""Do the pieces add up? At the waist, the bust and every tenth between, and against the body at the waist."""

from __future__ import annotations

from fanblock.checks.finding import HOLDS, WARNS, told, within
from fanblock.pattern.model import Finding, Girth, Pattern
from fanblock.tolerances import GIRTH_MM
from fanblock.units import format_length

FAMILY = "girth"

LOOSE_WARN_MM = 50.0
"""A cone this much larger than a measured girth wants a word (from memory)."""


UPPER_CHEST_MM = 60.0
"""How far above the bust the upper chest is measured (from memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return the sums at every level, the finished waist, and how loose or tight the cone is elsewhere."""
    hem_top = float(pattern.block.where(pattern.lines["hem"].points)[1].max())
    found = [_sum(girth, pattern.body.units, hem_top) for girth in pattern.girths]
    found += [_finished(girth, pattern.body.units) for girth in pattern.girths if girth.name == "waist"]
    found += _against_body(pattern)
    return tuple(found)


def _sum(girth: Girth, units: str, hem_top: float) -> Finding:
    where = "beyond the edges" if girth.height < hem_top else "above the top edge"
    miss = 2.0 * abs(girth.parts_mm + girth.open_mm + girth.gap_mm + girth.takes_mm - girth.block_mm)
    pieces = format_length(2.0 * girth.parts_mm, units)
    extra = f", {format_length(2.0 * girth.open_mm, units)} of it open {where}" if girth.open_mm > GIRTH_MM else ""
    level = (
        f"at the {girth.name}" if girth.name in {"waist", "bust"} else f"{girth.height:.0%} of the way up to the bust"
    )
    says = f"{level}: pieces {pieces}, gap and takes make up the block's {format_length(2.0 * girth.block_mm, units)}{extra}"
    return within(f"girth-{girth.height * 100:.0f}", FAMILY, miss, GIRTH_MM, "mm", says)


def _finished(girth: Girth, units: str) -> Finding:
    body = girth.body_mm or 0.0
    worn = 2.0 * (girth.parts_mm + girth.open_mm + girth.gap_mm)
    due = body + girth.ease_mm - girth.reduction_mm
    bare = f" and {format_length(2.0 * girth.open_mm, units)} open" if girth.open_mm > GIRTH_MM else ""
    says = (
        f"worn waist {format_length(worn, units)}, of which {format_length(2.0 * girth.gap_mm, units)} gap{bare}; "
        f"body {format_length(body, units)} + ease {format_length(girth.ease_mm, units)} "
        f"- reduction {format_length(girth.reduction_mm, units)}"
    )
    return within("girth-worn-waist", FAMILY, abs(worn - due), GIRTH_MM, "mm", says)


def _against_body(pattern: Pattern) -> list[Finding]:
    """Report the cone against girths it was not made from; never a failure."""
    lengths, block = pattern.body.lengths, pattern.block
    heights = {
        "underbust": lengths.get("underbust height", 0.5 * block.center_front_mm) / block.center_front_mm,
        "upper chest": 1.0 + UPPER_CHEST_MM / block.center_front_mm,
    }
    front_top = float(block.where(pattern.lines["top edge"].end)[1])
    found = []
    for name, height in heights.items():
        if name not in lengths or name in pattern.body.guessed or height > front_top:
            continue
        over = 2.0 * block.level_length_mm(height) - lengths[name]
        word = "looser" if over >= 0 else "tighter"
        says = f"at your {name} the cone is {format_length(abs(over), pattern.body.units)} {word} than you: look there on the toile"
        state = WARNS if over > LOOSE_WARN_MM else HOLDS
        found.append(told(f"girth-{name.replace(' ', '-')}", FAMILY, state, over, "mm", says))
    return found
