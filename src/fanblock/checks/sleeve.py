"""Can the sleeve be set in, and does the arm go through it? Measured again on the pieces that were drawn."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.checks.finding import HOLDS, WARNS, told, within
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import meetings, point_at
from fanblock.pattern.model import ARMHOLE, DARTED, Edge, Finding, Mark, Panel, Pattern, Seam
from fanblock.sleeves.pieces import ELBOW, UPPER_ARM
from fanblock.sleeves.setting import OVER_SHOULDER, TUCKED
from fanblock.sleeves.telling import CLOSE_RATIO, LARGE_RATIO
from fanblock.tolerances import MATES_MM
from fanblock.units import format_length, proved_length

FAMILY = "sleeve"

TUCKED_MM = (30.0, 80.0)
"""Spare of a cap that is tucked over the strap (common practice, no source)."""

EASED_RATIO = 0.05
"""Most of its length that a cap can be eased in (from memory)."""

ARM_EASE_MM, ELBOW_EASE_MM = 25.0, 10.0
"""Least ease of a close sleeve of woven cloth round the upper arm and the bent elbow (from memory; for comfort Threads, “Set-In
Sleeve Solutions”, 2021, asks for 2 in at the upper arm)."""

GIRTHS_AND_LENGTH = ("upper arm", "elbow", "arm length")
"""What every sleeve is drawn from."""

CAP_RATIO = (0.22, 0.40)
"""Height of a cap as a share of its armhole. Burton and Burton, School Sewing Based on Home Problems (1916), cut a smooth sleeve with 4
in of cap, a quarter of an armhole of 16 in, Rosenfeld, The Practical Designer (1918), lesson 67, one of 6 in for a size whose
armhole is about 16 in; the rest is room (from memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return what is so of the sleeve; nothing where there is none."""
    sleeves = [panel for panel in pattern.panels if _mark(panel, ELBOW) is not None]
    if not sleeves:
        return ()
    set_in = [seam for seam in pattern.seams if _sets_in(pattern, seam, sleeves)]
    return (
        _lower(pattern, set_in),
        *_spare(pattern, set_in),
        *_armhole(pattern, sleeves),
        _cap(pattern, sleeves, set_in),
        _girth(pattern, sleeves, UPPER_ARM, "upper arm", ARM_EASE_MM),
        _girth(pattern, sleeves, ELBOW, "elbow", ELBOW_EASE_MM),
        *_darts(pattern, sleeves),
        *_guessed(pattern),
    )


def _mark(panel: Panel, name: str) -> Mark | None:
    return next((mark for mark in panel.marks if mark.name == name), None)


def _sets_in(pattern: Pattern, seam: Seam, sleeves: list[Panel]) -> bool:
    """Return whether a seam joins a sleeve to its armhole."""
    names = {panel.name for panel in sleeves}
    return seam.front.panel in names and seam.back.panel not in names


def _edges(pattern: Pattern, seam: Seam) -> tuple[Edge, Edge]:
    """Return the sleeve's edge of a seam and the armhole's."""
    return (
        pattern.by_name[seam.front.panel].edge(seam.front.edge),
        pattern.by_name[seam.back.panel].edge(seam.back.edge),
    )


def _guessed(pattern: Pattern) -> Iterator[Finding]:
    """Warn where nobody measured the arm; the place of its elbow is told among the guesses and warned of nowhere."""
    names = [name for name in GIRTHS_AND_LENGTH if pattern.body.is_guess(name)]
    if names:
        says = f"PROVISIONAL: the arm was not measured ({', '.join(names)} guessed): measure it and draft again before you "
        yield told("sleeve-guessed", FAMILY, WARNS, len(names), "count", f"{says}cut sleeves")


def _lower(pattern: Pattern, seams: list[Seam]) -> Finding:
    flat = [_edges(pattern, seam) for seam in seams if not seam.fullness_mm]
    cap = sum(edge.curve.length_mm for edge, _ in flat)
    hole = sum(edge.curve.length_mm for _, edge in flat)
    units = pattern.body.units
    says = f"what is sewn in flat: {format_length(cap, units)} of cap on {format_length(hole, units)} of armhole"
    return within("sleeve-flat", FAMILY, abs(cap - hole), MATES_MM, "mm", says)


def _spare(pattern: Pattern, seams: list[Seam]) -> Iterator[Finding]:
    full = [seam for seam in seams if seam.fullness_mm]
    if not full:
        return
    spare, how = sum(seam.fullness_mm for seam in full), full[0].how
    says = (
        f"the cap is {format_length(spare, pattern.body.units)} longer than what it is sewn to over the shoulder, {how}"
    )
    if how == TUCKED:
        least, most = TUCKED_MM
        state = HOLDS if least - MATES_MM <= spare <= most + MATES_MM else WARNS
        if state == WARNS:
            says += (
                f": {format_length(least, pattern.body.units)} to {format_length(most, pattern.body.units)} are usual"
            )
        yield Finding("sleeve-spare", FAMILY, state, spare, most, "mm", says)
        return
    share = spare / sum(_edges(pattern, seam)[0].curve.length_mm for seam in full)
    yield within("sleeve-spare", FAMILY, share, EASED_RATIO, "ratio", says, otherwise=WARNS)


def _armhole(pattern: Pattern, sleeves: list[Panel]) -> Iterator[Finding]:
    """Compare the armhole with the measured one, where all of it is on the sheets."""
    measured = pattern.body.lengths.get("armhole")
    names = {panel.name for panel in sleeves}
    panels = [panel for panel in pattern.panels if not panel.layer and not panel.loose]
    edges = [(panel.name, edge) for panel in panels for edge in panel.edges if edge.kind == ARMHOLE]
    if any(name in names and edge.name == OVER_SHOULDER for name, edge in edges):
        return
    long, units = sum(edge.curve.length_mm for name, edge in edges if name not in names), pattern.body.units
    if measured is None:
        says = f"the armhole is {format_length(long, units)} round; measure yours as `armhole`, and draft again"
        yield told("sleeve-armhole", FAMILY, WARNS, long, "mm", says)
        return
    ratio = long / measured
    says = (
        f"the armhole is {format_length(long, units)} round, on the body {format_length(measured, units)} were measured"
    )
    state = HOLDS if CLOSE_RATIO <= ratio <= LARGE_RATIO else WARNS
    yield Finding("sleeve-armhole", FAMILY, state, ratio, LARGE_RATIO, "ratio", says)


def _cap(pattern: Pattern, sleeves: list[Panel], seams: list[Seam]) -> Finding:
    """Return how high the cap is, from its lowest point to its top, against the length it is sewn to."""
    caps = [edge.curve for panel in sleeves for edge in panel.edges if edge.kind == ARMHOLE]
    heights = [
        edge.curve.points[:, 1] - _line(panel, UPPER_ARM)[:, 1].mean()
        for panel in sleeves
        for edge in panel.edges
        if edge.kind == ARMHOLE
    ]
    high = float(np.concatenate(heights).max() - np.concatenate(heights).min())
    ratio = high / (sum(cap.length_mm for cap in caps) - sum(seam.fullness_mm for seam in seams))
    least, most = CAP_RATIO
    says = f"the cap is {format_length(high, pattern.body.units)} high, {ratio:.0%} of the armhole"
    if ratio > most:
        says += ": the armhole is large for this arm; look whether it can be taken up"
    if ratio < least:
        says += ": the arm can be lifted high, and folds will lie under it"
    return Finding("sleeve-cap", FAMILY, HOLDS if least <= ratio <= most else WARNS, ratio, most, "ratio", says)


def _girth(pattern: Pattern, sleeves: list[Panel], line: str, measure: str, least_mm: float) -> Finding:
    """Return how wide the sleeve is along one of its lines against the arm there."""
    units, arm = pattern.body.units, pattern.body.length_mm(measure)
    wide = sum(_width_mm(panel, _line(panel, line)) for panel in sleeves)
    code = f"sleeve-{measure.replace(' ', '-')}"
    says = f"at the {measure} the sleeve is {format_length(wide, units)} round, the arm {format_length(arm, units)}"
    if wide < arm:
        return within(code, FAMILY, arm - wide, 0.0, "mm", f"{says}: it does not go on")
    close = wide - arm < least_mm - MATES_MM
    says += f": less than {format_length(least_mm, units)} of ease is tight" if close else ""
    return Finding(code, FAMILY, WARNS if close else HOLDS, wide - arm, least_mm, "mm", says)


def _line(panel: Panel, name: str) -> Points:
    mark = _mark(panel, name)
    return panel.loop()[:2] if mark is None else mark.curve.points


def _width_mm(panel: Panel, line: Points) -> float:
    """Return the length of a straight line from stitch line to stitch line, wherever its own ends are."""
    along = line[-1] - line[0]
    ring = np.vstack((panel.loop(), panel.loop()[:1]))
    run = np.vstack((line[0] - along, line[-1] + along))
    places = sorted(place for _, place in meetings(ring, run))
    middle = 0.5
    before = max((place for place in places if place < middle), default=middle)
    after = min((place for place in places if place > middle), default=middle)
    return float(np.hypot(*(point_at(run, after) - point_at(run, before))))


def _darts(pattern: Pattern, sleeves: list[Panel]) -> Iterator[Finding]:
    """Return whether the elbow darts take what one edge of the seam is longer, and have equal legs."""
    darts = [mark.curve.points for panel in sleeves for mark in panel.marks if mark.kind == "dart"]
    if not darts:
        return
    names = {panel.name for panel in sleeves}
    longer = sum(seam.fullness_mm for seam in pattern.seams if seam.how == DARTED and seam.front.panel in names)
    taken = sum(float(np.hypot(*(dart[-1] - dart[0]))) for dart in darts)
    units = pattern.body.units
    takes, more = proved_length(taken, units), proved_length(longer, units)
    says = f"elbow darts take {takes}, one edge of the seam is {more} longer than the other"
    yield within("sleeve-darts", FAMILY, abs(taken - longer), MATES_MM, "mm", says)
    uneven = max(abs(float(np.hypot(*(dart[1] - dart[0])) - np.hypot(*(dart[1] - dart[-1])))) for dart in darts)
    yield within("sleeve-legs", FAMILY, uneven, MATES_MM, "mm", "both legs of every elbow dart are equally long")
