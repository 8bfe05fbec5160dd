"""In which order a garment's seams are joined and where they stop, and what a toile of it wants; said plainly."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fanblock.pattern.model import (
    ARMHOLE,
    CENTER,
    DARTED,
    FOLD,
    HEM,
    LACING,
    NECKLINE,
    PLEAT_HEAD,
    WHIPPED,
    Edge,
    Panel,
    Pattern,
    Seam,
)
from fanblock.sheet import closing, phrases
from fanblock.sheet.bandwords import band_joining, band_toile
from fanblock.sheet.levels import told_level
from fanblock.sheet.sewingorder import across, is_open, is_whipped, run_words, when
from fanblock.sheet.stiffwords import after_joining, before_joining, toile_bones
from fanblock.sheet.toilewords import toile_steps
from fanblock.units import format_length


def joining(pattern: Pattern) -> tuple[str, ...]:
    """Return what is sewn to what, front to back: each seam and where it stops, how to match it, then the centres."""
    if pattern.band is not None:
        return band_joining(pattern)
    numbers = {panel.name: panel.number for panel in pattern.panels}
    drafted = [seam for seam in pattern.seams if not pattern.by_name[seam.front.panel].layer]
    ordered = sorted(drafted, key=lambda seam: when(pattern, seam))
    seams = [seam for seam in ordered if not _is_set_on(pattern, seam)]
    set_on = [seam for seam in ordered if _is_set_on(pattern, seam)]
    first = [note.says for note in pattern.notes if note.kind == "sewing first"]
    lines = [*before_joining(pattern), *first, *dict.fromkeys(_join(pattern, seam, numbers) for seam in seams)]
    if any(is_whipped(pattern, seam) for seam in seams):
        lines.append(
            "To whip: lay two finished pieces face to face, their folded edges level, and catch both folds with small close "
            "stitches."
        )
    if any(panel.edge(edge).waist_at_mm is not None for panel, edge in _fronts(pattern)):
        lines.append("At each seam lay the two waist bars together first, then the ticks, then the ends.")
    if any(len(across(pattern, seam)) > 1 for seam in seams):
        lines.append("Where a seam runs right across, lay the seams that meet on it on each other first.")
    if any(is_open(pattern, seam) for seam in seams):
        lines.append(
            "Where a seam stops at the waist, secure it there with a few stitches on the spot and press its allowance "
            "back: it ends at the bar. The skirts below stay open."
        )
    if any(not slit.name for panel in pattern.panels for slit in panel.slits):
        lines.append("Cut each slit up to its bar only, and reinforce it there before it is bound.")
    lines += [note.says for note in pattern.notes if note.kind == "sewing"]
    lines.append("Make the other half as a mirror image: turn every piece over.")
    last = [note.says for note in pattern.notes if note.kind == "sewing last"]
    on = dict.fromkeys(_join(pattern, seam, numbers) for seam in set_on)
    return (*lines, *_centers(pattern), *_lined(pattern), *on, *last, *_hemmed(pattern), *after_joining(pattern))


def _is_set_on(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam sets on a piece that is fitted on the body, as a strap or a sleeve: the halves are one by then."""
    panels = (pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel])
    return any(
        panel.added and any(edge.kind == ARMHOLE or edge.name.startswith("cap ") for edge in panel.edges)
        for panel in panels
    )


def _lined(pattern: Pattern) -> Iterator[str]:
    """When the lining of a bodice goes in, whose pieces are those of the outer cloth (common practice, no source)."""
    lined = [panel for panel in pattern.panels if "lining" in dict(panel.cuts) and not panel.added]
    boned = any(panel.channels for panel in pattern.panels)
    if not lined or boned or pattern.binding is not None:
        return
    loose = (
        " Below the pleat heads it hangs loose."
        if any(edge.kind == PLEAT_HEAD for panel in lined for edge in panel.edges)
        else ""
    )
    yield (
        "Make the lining up like the outer cloth, seam for seam, and lay it in, wrong side to wrong side, waist on waist. Turn in "
        f"the edges of both toward each other and fell them together; leave the armholes open for the sleeves.{loose}"
    )


def _hemmed(pattern: Pattern) -> Iterator[str]:
    """What is left to do at free edges that have an allowance."""
    kinds = {HEM: "the lower edge", NECKLINE: "the neckline"}
    free = {
        kinds[edge.kind]
        for panel in pattern.panels
        if not panel.added
        for edge in panel.edges
        if edge.kind in kinds and edge.mate is None and panel.allowances.get(edge.name, 0.0) > 0.0
    }
    if any(
        panel.added and edge.kind == HEM and panel.allowances.get(edge.name, 0.0) > 0.0
        for panel in pattern.panels
        for edge in panel.edges
    ):
        free.add("the ends of the sleeves and of what else is set on")
    if free:
        yield f"Last, turn in and hem by hand {phrases.listed(sorted(free))}, by the allowance that stands there."


def _join(pattern: Pattern, seam: Seam, numbers: Mapping[str, int]) -> str:
    """What is sewn to what; a piece that is closed by stretches of one seam is told of once."""
    front, back, letter = seam.front.panel, seam.back.panel, seam.letter
    if front == back:
        own = [one for one in pattern.seams if one.front.panel == one.back.panel == front and one.letter == letter]
        darted = ", when its darts have been sewn" if any(one.how == DARTED for one in own) else ""
        return f"Close piece {numbers[front]} ({front}): {letter} to {letter}{darted}."
    level = across(pattern, seam)
    verb = "Whip" if is_whipped(pattern, seam) else "Join"
    if len(level) > 1:
        upper, lower = (
            phrases.listed(dict.fromkeys(f"{numbers[name.panel]} ({name.panel})" for name in side))
            for side in ([one.front for one in level], [one.back for one in level])
        )
        return f"Join {letter} to {letter} right across: above {upper}, below {lower}."
    return (
        f"{verb} {letter} to {letter}: piece {numbers[front]} ({front}) to piece {numbers[back]} ({back})"
        f"{run_words(pattern, seam)}{_taken_up(pattern, seam)}."
    )


def toile(pattern: Pattern) -> tuple[str, ...]:
    """Return how to cut and put together a toile of this pattern that can be laced on, or of a band."""
    if pattern.band is not None:
        return band_toile(pattern)
    if pattern.toile:
        return toile_steps(pattern)
    lines = [
        "Cut outside the printed lines by what stands here. Cut it from as many layers as the garment will have, or from one firm cloth; a soft toile tells nothing."
    ]
    if _edges(pattern, ARMHOLE):
        lines.append(
            "Leave 2 cm (3/4 in) more at the neck and round the arms, and cut it back on the body. Draw the edges on it, "
            f"and the {told_level(pattern)} line right round."
        )
    else:
        lines.append(
            "Leave 5 to 7 cm (2 to 3 in) more above the top edge in front and behind, but not under the arm, where it "
            f"could not be worn. Draw the top edge on it, and the {told_level(pattern)} line right round."
        )
    lines.append(
        "Leave wide allowances, about 2.5 cm (1 in), and sew them to the outside, so that you can pinch in and let out."
    )
    lines += closing.toile_words(pattern)
    if not _edges(pattern, LACING):
        return tuple(lines)
    return (
        *lines,
        "So that it can be laced: sew to each lacing edge a strip of cloth with eyelets, or a lacing tape, its holes on "
        f"the edge itself, and lace it {closing.laced_words(pattern)}.",
        *toile_bones(pattern),
    )


def _fronts(pattern: Pattern) -> list[tuple[Panel, str]]:
    """The panel and the edge's name of every seam's front side."""
    return [(pattern.by_name[seam.front.panel], seam.front.edge) for seam in pattern.seams]


def _taken_up(pattern: Pattern, seam: Seam) -> str:
    """How much longer a seam's first edge is than what it is sewn to."""
    if not seam.fullness_mm:
        return ""
    return f", {format_length(seam.fullness_mm, pattern.body.units)} of the first {seam.how} to fit the second"


def _edges(pattern: Pattern, kind: str) -> list[tuple[Panel, Edge]]:
    panels = sorted((panel for panel in pattern.panels if not panel.layer), key=lambda panel: panel.number)
    return [(panel, edge) for panel in panels for edge in panel.edges if edge.kind == kind]


def _centers(pattern: Pattern) -> Iterator[str]:
    """What is done at the centre lines, with all the pieces that lie on each, and where it opens."""
    done: dict[tuple[str, str], list[int]] = {}
    for panel, edge in (*_edges(pattern, FOLD), *_edges(pattern, CENTER)):
        how = "sewn" if panel.allowances.get(edge.name, 0.0) > 0.0 else "met"
        how = "folded" if edge.kind == FOLD or panel.fold == edge.name else how
        done.setdefault((how, phrases.prose(edge.name)), []).append(panel.number)
    for (how, line), numbers in done.items():
        several, which = len(numbers) > 1, phrases.listed(numbers)
        if how == "folded":
            pieces = f"Pieces {which} are" if several else f"Piece {which} is"
            yield f"{pieces} cut on the fold at the {line}: there is no seam."
        elif how == "sewn":
            pieces = f"pieces {which}" if several else f"piece {which}"
            verb = "Whip" if pattern.construction == WHIPPED else "Sew"
            yield f"{verb} the two {line}s ({pieces}, both halves) to each other, from the top to the lower edge."
        else:
            yield f"At the {line} the two halves meet edge to edge, without allowance."
    yield from closing.sewing_words(pattern)
