"""The guide to drawing a block by hand, in words: what to do, in order, with every length."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fanblock.block.guide import PENCIL_MM, Arc, Guide, Pin, Wedge
from fanblock.units import drawn_length, proved_length
from fanblock.wearer.model import LEFT

GRID = "Or draw it by points on a grid"
"""The heading over the grid, where there are other ways to draw a block."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A heading and what stands under it, one sentence or two a line."""

    title: str
    lines: tuple[str, ...]


def chapters_of(guide: Guide) -> tuple[Chapter, ...]:
    """Return the guide's text: paper, pin, checks, tilts, the tapes alone, and last the points, with their table."""
    chapters = [Chapter("Paper", _paper(guide))]
    if guide.pin is not None:
        chapters.append(Chapter("Draw the block with a pin and a lath", _with_pin(guide, guide.pin)))
        chapters.append(Chapter("Check it with a straight ruler", _checks(guide)))
    elif all(arc.string_mm is None for arc in guide.arcs):
        chapters.append(Chapter("Draw the block with a square", _with_square(guide)))
    chapters += [
        Chapter(title, _wedge(guide, wedge))
        for title, wedge in zip(_wedge_titles(guide.wedges), guide.wedges, strict=True)
    ]
    if guide.tapes is not None:
        chapters.append(Chapter("Without numbers: from the tapes alone", _by_tapes(guide)))
    head = "Draw the block by points on a grid" if len(chapters) == 1 else GRID
    chapters.append(Chapter(head, _grid(guide)))
    return tuple(chapters)


def _say(guide: Guide, mm: float) -> str:
    """A length as the wearer's ruler shows it."""
    return drawn_length(mm, guide.units)


def _paper(guide: Guide) -> tuple[str, ...]:
    wide, high = _say(guide, guide.width_mm), _say(guide, guide.height_mm)
    return (
        f"Take paper at least {wide} wide and {high} high, lying on its long side; join strips if need be.",
        "What you draw is one half of the body seen from outside: the centre front is at the left, so it is"
        " the wearer's left half."
        if guide.half == LEFT
        else "What you draw is one half of the body with the centre front at the left. It is for the wearer's right half: turn the"
        " paper over when it is cut out.",
    )


def _with_pin(guide: Guide, pin: Pin) -> tuple[str, ...]:
    middle = _say(guide, pin.x_mm)
    lines = [
        f"Rule an upright line {middle} from the left edge of the paper; carry it past the edge if the pin needs it.",
        f"Stick the pin on that line, {_pin_place(guide, pin)}.",
        "Use a lath or a stiff tape, since string stretches, with a hole for the pin and one for the pencil"
        f" at each of these distances: {_strings(guide)}.",
        "Swing every line before you move the pin.",
    ]
    lines += [
        f"The ends of the {arc.name} are {_say(guide, arc.chord_mm)} apart in a straight line, half of that"
        " either side of the upright line; mark them on the arc."
        for arc in guide.arcs
    ]
    lines.append(
        "Rule a line through the left ends and one through the right ends: centre front and centre back."
        f" Both point at the pin, and from waist to bust each is {_say(guide, guide.ruling_mm)} long."
    )
    return tuple(lines)


def _pin_place(guide: Guide, pin: Pin) -> str:
    if pin.y_mm < 0.0:
        return f"{_say(guide, -pin.y_mm)} below the lower edge of the paper"
    if pin.y_mm > guide.height_mm:
        return f"{_say(guide, pin.y_mm - guide.height_mm)} above the upper edge of the paper"
    return f"{_say(guide, pin.y_mm)} above the lower edge of the paper"


def _strings(guide: Guide) -> str:
    return ", ".join(f"{arc.name} {_say(guide, arc.string_mm or 0.0)}" for arc in guide.arcs)


def _lengths(guide: Guide) -> str:
    return ", ".join(f"{arc.name} {_say(guide, arc.length_mm)}" for arc in guide.arcs)


def _checks(guide: Guide) -> tuple[str, ...]:
    lines = [_check(guide, arc) for arc in guide.arcs]
    lines.append(
        "From the waist of the centre front to the bust of the centre back, and from the waist of the centre"
        f" back to the bust of the centre front, a ruler must show {_say(guide, guide.diagonal_mm)} both"
        " ways."
    )
    lines.append(f"Last, stand a tape on its edge along each line: {_lengths(guide)}. These are half girths.")
    return tuple(lines)


def _check(guide: Guide, arc: Arc) -> str:
    return (
        f"Lay a ruler from end to end of the {arc.name}, {_say(guide, arc.chord_mm)}: the arc's middle stands"
        f" {_say(guide, arc.rise_mm)} off it. From either end to the middle the ruler shows"
        f" {_say(guide, arc.half_chord_mm)}, and half way along it the arc stands"
        f" {_say(guide, arc.half_rise_mm)} off."
    )


def _with_square(guide: Guide) -> tuple[str, ...]:
    return (
        f"Bust and waist are alike, so the block is a rectangle {_say(guide, guide.arcs[0].length_mm)} wide"
        f" and {_say(guide, guide.ruling_mm)} high from waist to bust. There is no pin to swing from.",
    )


def _wedge_titles(wedges: Sequence[Wedge]) -> list[str]:
    """What each tilt is called; no two alike."""
    titles = [
        f"{'Take in' if wedge.take_mm >= 0.0 else 'Let out'} the {_centre(wedge.at)}{', as far as the side' if wedge.to else ''}"
        for wedge in wedges
    ]
    return [
        f"{title}, {1 + titles[:at].count(title)} of {titles.count(title)}" if titles.count(title) > 1 else title
        for at, title in enumerate(titles)
    ]


def _centre(at: str) -> str:
    return at.replace("center", "centre")


def _wedge(guide: Guide, wedge: Wedge) -> tuple[str, ...]:
    line = _centre(wedge.at)
    far = "centre front" if wedge.at == "center back" else "centre back"
    shorter = "shorter" if wedge.take_mm >= 0.0 else "longer"
    amount = _say(guide, abs(wedge.take_mm))
    if wedge.to:
        return (
            f"The {line} must come out {amount} {shorter}, with nothing changed from the {far} to the side:"
            " redraw the waist from the side on through the points in the table at the end, under"
            f" “{GRID}”, and rule the centre line again.",
            f"Check: the {line} measures {_say(guide, wedge.taken_line_mm)} from waist to bust, and the"
            " waist line is still as long as it was.",
        )
    moves = "over" if wedge.take_mm >= 0.0 else "away from"
    lies = "lap" if wedge.take_mm >= 0.0 else "gap"
    return (
        f"Cut right through along the level: from the {line}, {_say(guide, wedge.cut_from_mm)} above the waist,"
        f" to the {far}, {_say(guide, wedge.cut_to_mm)} above the waist there. The lower part is now loose.",
        f"Slide its {line} {moves} the upper part's, and turn it, until a straight ruler shows all of these:"
        f" {line}, waist to bust, {_say(guide, wedge.taken_line_mm)}; {far}, waist to bust,"
        f" {_say(guide, wedge.far_line_mm)}; from the waist of the centre front to the bust of the centre back"
        f" {_say(guide, wedge.front_to_back_mm)}; from the waist of the centre back to the bust of the centre"
        f" front {_say(guide, wedge.back_to_front_mm)}. Then tape it down.",
        f"Any three of the four fix its place and the fourth checks it. The {lies} runs out from about {amount} at"
        f" the {line} to next to nothing at the {far}; go by the ruler, not by the {lies}.",
        "Rule both centre lines again, straight from waist to bust. Waist and bust keep their shapes and lengths.",
    )


def _finished(guide: Guide) -> str:
    """That the grid already has done what the chapters before it do."""
    done = " and ".join(dict.fromkeys("taken in" if wedge.take_mm >= 0.0 else "let out" for wedge in guide.wedges))
    return f"The grid gives the finished block, already {done}: draw it so and nothing is cut."


def _grid(guide: Guide) -> tuple[str, ...]:
    lines = [
        f"Rule upright lines every {_say(guide, guide.step_mm)} from the left edge of the paper, measure up"
        " from the lower edge as the table says, and join the points with a bent lath.",
    ]
    if guide.wedges:
        lines.insert(0, _finished(guide))
    lines += [
        f"{name.replace('center', 'centre').capitalize()}: {_say(guide, mark.x_mm)} from the left,"
        f" {_say(guide, mark.y_mm)} up."
        for name, mark in guide.corners.items()
    ]
    return tuple(lines)


def _by_tapes(guide: Guide) -> tuple[str, ...]:
    tapes = guide.tapes
    if tapes is None:
        return ()
    if tapes.bust_astray_mm == 0.0 and guide.pin is None:
        return (
            "Fold the bust tape in half and draw a line that long; square up at both ends by the"
            " bust-to-waist tape; join the tops.",
        )
    return (
        "Rule a long upright line. Square across it draw two lines, one bust-to-waist tape apart: the upper"
        " as long as the bust tape folded in half, the lower as long as the waist tape folded in half, each"
        " with its middle on the upright line (fold once more to find it).",
        "Lay a long ruler through the two left ends, then through the two right ends. They meet on the"
        " upright line: there goes the pin. This place is exact, not a rule of thumb.",
        "Knot the lath's or tape's length from the pin to where each line crosses the upright line, and"
        " swing both arcs.",
        f"Fold the half bust three times more, into {tapes.folds}, and step it along its arc, four steps"
        " either way from the upright line; do the same with the waist. The last steps are the ends: rule"
        " centre front and centre back through them. The slant lines you began with lie inside these and"
        " are only there to find the pin.",
        "What it costs: steps are straight and the arc is not, so the whole bust comes out"
        f" {proved_length(tapes.bust_astray_mm, guide.units)} too large and the waist"
        f" {proved_length(tapes.waist_astray_mm, guide.units)}. A pencil {proved_length(PENCIL_MM, guide.units)} out at"
        f" both ends of one of the first two lines moves the waist by {proved_length(tapes.pencil_astray_mm, guide.units)} more; that the waist's last steps lie on the lines from the"
        " bust's ends to the pin is the check.",
        *_cut_by_tapes(guide),
    )


def _cut_by_tapes(guide: Guide) -> tuple[str, ...]:
    return ("Then cut and turn as told above, each length marked on a tape.",) if guide.wedges else ()
