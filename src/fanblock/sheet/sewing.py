"""In which order a garment's seams are joined and where they stop, and what a toile of it wants; said plainly."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fanblock.halves.joining import told_of_halves
from fanblock.pattern.model import (
    ARMHOLE,
    CENTER,
    FOLD,
    LACING,
    PLEAT_HEAD,
    WHIPPED,
    Edge,
    Note,
    Panel,
    Pattern,
    Seam,
)
from fanblock.sheet import closing, finishing, phrases, seamwords, setonwords
from fanblock.sheet.bandwords import band_joining, band_toile
from fanblock.sheet.levels import told_level
from fanblock.sheet.sewingorder import (
    IN_A_HALF,
    SET_ON,
    SKIRT,
    SKIRT_NAME,
    across,
    center_run,
    is_full,
    is_whipped,
    rank,
    run_words,
    upper_first,
    when,
)
from fanblock.sheet.stiffwords import before_joining, bound, stiffened, toile_bones
from fanblock.sheet.toilewords import toile_steps
from fanblock.units import fine_length, retold


def joining(pattern: Pattern) -> tuple[str, ...]:
    """Return what is sewn to what, front to back: each seam and where it stops, how to match it, then the centres."""
    lines = told_of_halves(pattern, _joining) if pattern.halves else _joining(pattern)
    return tuple(retold(line, pattern.body.units) for line in lines)


def _joining(pattern: Pattern) -> tuple[str, ...]:
    if pattern.band is not None:
        return band_joining(pattern)
    numbers = {panel.name: panel.number for panel in pattern.panels}
    drafted = [seam for seam in pattern.seams if not pattern.by_name[seam.front.panel].layer]
    ordered = sorted(drafted, key=lambda seam: when(pattern, seam))
    seams = [seam for seam in ordered if rank(pattern, seam) <= IN_A_HALF]
    return (
        *setonwords.marked(pattern),
        *before_joining(pattern),
        *finishing.mounted(pattern),
        *_notes(pattern, "sewing first"),
        *seamwords.helps(pattern, seams),
        *_joined(pattern, seams, numbers, "sewing first"),
        *seamwords.slits(pattern),
        *_notes(pattern, "sewing"),
        _other_half(pattern),
        *_centers(pattern),
        *_joined(pattern, [seam for seam in ordered if rank(pattern, seam) == SKIRT], numbers, "sewing last"),
        *finishing.lined(pattern),
        *_notes(pattern, "sewing pleats"),
        *finishing.fastened(pattern),
        *stiffened(pattern),
        *finishing.set_on_layers(pattern),
        *_joined(pattern, [seam for seam in ordered if rank(pattern, seam) == SET_ON], numbers, "sewing last"),
        *setonwords.finished(pattern),
        *_loose(pattern),
        *finishing.skirted(pattern),
        *finishing.hemmed(pattern),
        *bound(pattern),
        *finishing.lined_last(pattern),
    )


def _notes(pattern: Pattern, kind: str) -> Iterator[str]:
    """What is told at one place of the order and belongs to no piece."""
    yield from (note.says for note in pattern.notes if note.kind == kind and not note.of)


def _joined(pattern: Pattern, seams: list[Seam], numbers: Mapping[str, int], kind: str) -> Iterator[str]:
    """Each of some seams, and before the first that sews on a piece with notes of its own, how that is done.

    What is set on is told of in one sentence with the seam that it is about.
    """
    lines: dict[str, None] = {}
    told: set[str] = set()
    for seam in seams:
        how = [says for says in _told_with(pattern, seam, kind) if says not in told]
        told |= set(how)
        join = _join(pattern, seam, numbers)
        lines |= dict.fromkeys([" ".join((*how, join))] if rank(pattern, seam) == SET_ON else [*how, join])
    names = {name.panel for seam in seams for name in (seam.front, seam.back)}
    lines |= dict.fromkeys(
        note.says for note in pattern.notes if note.kind == kind and _of(note, names) and note.says not in told
    )
    yield from lines


def _told_with(pattern: Pattern, seam: Seam, kind: str) -> list[str]:
    """What is told of a piece before a seam of it: of a sleeve nothing while it is closed, and at first only how it lies flat."""
    front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    capped = finishing.is_capped(front), finishing.is_capped(back)
    if all(capped) or (not any(capped) and not _is_last(pattern, seam)):
        return []
    found = [
        note.says
        for note in pattern.notes
        if note.kind == kind and _of(note, {front.name, back.name, *_whole(pattern, seam)})
    ]
    return found[:1] if any(capped) and not is_full(seam) else found


def _is_last(pattern: Pattern, seam: Seam) -> bool:
    """Whether a piece that is set on is held all round when this seam is sewn, or whether the seam is not of such a one."""
    own = {name.panel for name in (seam.front, seam.back) if finishing.is_set_on(pattern.by_name[name.panel])}
    later = pattern.seams[pattern.seams.index(seam) + 1 :]
    others = [{one.front.panel, one.back.panel} for one in later]
    return not any(
        own & pair and not any(finishing.is_capped(pattern.by_name[name]) for name in pair) for pair in others
    )


def _whole(pattern: Pattern, seam: Seam) -> set[str]:
    """The pieces of the sleeve that a seam sets in."""
    sides = {seam.front.panel, seam.back.panel}
    capped = {name for name in sides if finishing.is_capped(pattern.by_name[name])}
    mates = [{one.front.panel, one.back.panel} for one in pattern.seams]
    return {
        name
        for pair in mates
        if pair & capped and all(finishing.is_capped(pattern.by_name[one]) for one in pair)
        for name in pair
    }


def _of(note: Note, names: set[str]) -> bool:
    """Tell whether a note belongs to one of some pieces, or to a thing that is cut in several."""
    return bool(note.of) and any(name == note.of or name.startswith(f"{note.of} ") for name in names)


def _loose(pattern: Pattern) -> Iterator[str]:
    """What is made of pieces that no seam holds."""
    held = {name.panel for seam in pattern.seams for name in (seam.front, seam.back)}
    if not pattern.toile:
        yield from finishing.stiffened_pieces(pattern)
        yield from (note.says for note in pattern.notes if note.kind == "sewing last" and note.of not in ("", *held))
    yield from _notes(pattern, "sewing last")


def _other_half(pattern: Pattern) -> str:
    """How the other half is made, with what lies on a fold and serves for both."""
    panels = [panel for panel in pattern.panels if not panel.added and not panel.layer]
    folded = [panel.number for panel in panels if panel.fold or any(edge.kind == FOLD for edge in panel.edges)]
    if len(folded) == len(panels):
        how = "is cut as one whole" if pattern.half else "lies on the fold"
        return f"Join the same seams on the other side: every piece {how} and is both halves."
    if pattern.half:
        whole = (
            f" Piece{'s' if len(folded) > 1 else ''} {phrases.listed(folded)} serve{'s' * (len(folded) == 1)} both."
            if folded
            else ""
        )
        return (
            "So far this is told of one half. Join the pieces marked L to each other, and those marked R: the halves are alike in "
            f"this and not in size, and no piece takes the place of its fellow.{whole}"
        )
    if not folded:
        return "Make the other half as a mirror image: turn every piece over."
    several = len(folded) > 1
    which = (
        f"piece{'s' if several else ''} {phrases.listed(folded)}, on the fold, {'are' if several else 'is'} both halves"
    )
    return f"Sew the other half to it as a mirror image: turn every other piece over; {which}."


def _join(pattern: Pattern, seam: Seam, numbers: Mapping[str, int]) -> str:
    """What is sewn to what; a piece that is closed by stretches of one seam is told of once."""
    front, back, letter = seam.front.panel, seam.back.panel, seam.letter
    if front == back:
        own = [one for one in pattern.seams if one.front.panel == one.back.panel == front]
        named = f"{front} seam "
        where = {one.letter: one.line.removeprefix(named) * one.line.startswith(named) for one in own}
        return setonwords.closed(pattern, pattern.by_name[front], where)
    level = across(pattern, seam)
    verb = "Whip" if is_whipped(pattern, seam) else "Join"
    if len(level) > 1:
        upper, lower = (
            phrases.listed(dict.fromkeys(f"{numbers[name.panel]} ({name.panel})" for name in side))
            for side in zip(*(upper_first(pattern, one) for one in level), strict=True)
        )
        eased = any(one.fullness_mm for one in level) * "; ease the longer edge in where one is"
        return f"Join {letter} to {letter} right across: above {upper}, below {lower}{eased}."
    panels = pattern.by_name[front], pattern.by_name[back]
    strap = any(map(setonwords.is_strap, panels)) and not any(map(finishing.is_capped, panels))
    return (
        f"{verb} {letter} to {letter}: piece {numbers[front]} ({front}) to piece {numbers[back]} ({back})"
        f"{', right sides together' * strap}{run_words(pattern, seam)}{_taken_up(pattern, seam)}."
        f"{setonwords.PRESSED * (all(map(finishing.is_capped, panels)) and not pattern.toile)}"
        f"{setonwords.INTO_STRAP * (strap and not pattern.toile)}"
    )


def toile(pattern: Pattern) -> tuple[str, ...]:
    """Return how to cut and put together a toile of this pattern that can be laced on, or of a band."""
    lines = told_of_halves(pattern, _toile) if pattern.halves else _toile(pattern)
    return tuple(retold(line, pattern.body.units) for line in lines)


def _toile(pattern: Pattern) -> tuple[str, ...]:
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


def _taken_up(pattern: Pattern, seam: Seam) -> str:
    """How much longer a seam's first edge is than what it is sewn to."""
    if not seam.fullness_mm:
        return ""
    return f", {fine_length(seam.fullness_mm, pattern.body.units)} of the first {seam.how} to fit the second"


def _edges(pattern: Pattern, kind: str) -> list[tuple[Panel, Edge]]:
    panels = sorted((panel for panel in pattern.panels if not panel.layer), key=lambda panel: panel.number)
    return [(panel, edge) for panel in panels for edge in panel.edges if edge.kind == kind]


def _centers(pattern: Pattern) -> Iterator[str]:
    """What is done at the centre lines, with all the pieces that lie on each, and where it opens."""
    done: dict[tuple[str, str], list[int]] = {}
    for panel, edge in sorted((*_edges(pattern, FOLD), *_edges(pattern, CENTER)), key=_from_above):
        how = "sewn" if panel.allowances.get(edge.name, 0.0) > 0.0 else "met"
        how = "folded" if edge.kind == FOLD or panel.fold == edge.name else how
        done.setdefault((how, phrases.prose(edge.name)), []).append(panel.number)
    heads = [panel for panel, _ in _edges(pattern, PLEAT_HEAD)]
    for (how, line), numbers in done.items():
        several, which = len(numbers) > 1, phrases.listed(sorted(numbers))
        if how == "folded":
            pieces = f"Pieces {which} are" if several else f"Piece {which} is"
            how = "cut as one whole" if pattern.half else "cut on the fold"
            yield f"{pieces} {how} at the {line}: there is no seam."
        elif how == "sewn":
            pieces = f"pieces {which}" if several else f"piece {which}"
            verb = "Whip" if pattern.construction == WHIPPED else "Sew"
            yield f"{verb} the two {line}s ({pieces}, both halves) to each other, {center_run(line, heads)}."
        else:
            yield f"At the {line} the two halves meet edge to edge, without allowance."
    yield from closing.sewing_words(pattern)


def _from_above(one: tuple[Panel, Edge]) -> tuple[bool, bool, int]:
    """Folds first; then seams, that of a skirt after the one above it; then by piece."""
    panel, edge = one
    return edge.kind != FOLD, edge.kind == CENTER and edge.name.endswith(SKIRT_NAME), panel.number
