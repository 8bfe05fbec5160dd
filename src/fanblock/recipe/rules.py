"""Rules between steps: what a step speaks of must have been drawn, and names must be names of something."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fanblock.draft.band import BandSpec
from fanblock.draft.model import LACED
from fanblock.draft.opening import is_missing, laced_at
from fanblock.draft.starting import BlockSpec, stands_on
from fanblock.pattern.model import SHOULDER
from fanblock.problems import nearest
from fanblock.recipe.booking import check_booked
from fanblock.recipe.findings import Findings, Sighting
from fanblock.recipe.phrase import NAME_REMEDY, is_name
from fanblock.recipe.shapingrules import check_shaping
from fanblock.recipe.skirtrules import check_skirts
from fanblock.recipe.stepreading import ReadStep
from fanblock.steps.cut import Cut
from fanblock.steps.hem import Hem
from fanblock.steps.lacing_gap import LacingGap
from fanblock.steps.level_seam import LevelSeam
from fanblock.steps.open_front import OpenFront
from fanblock.steps.opening import Opening
from fanblock.steps.seam import Seam
from fanblock.steps.separate import Separate
from fanblock.steps.top_edge import TopEdge
from fanblock.terms import CENTERS, LACING_EDGE, LANDMARK_AROUNDS, LANDMARK_HEIGHTS, SIDE, Around, Height, Length, Share
from fanblock.units import shown

_DRAWN_HEIGHTS = ("hem", "top edge")
_FREE_FOR_EDGES = ("hem", "raised waist", "underbust", "waist")
"""Words for heights that may also name the one edge that lies there."""

MOST_LAYERS = 12
"""Most pieces of one layer that are cut of one panel."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What stands on the draft before a step: lines, seams, lacing gaps and the named edges of an outline, by name."""

    lines: frozenset[str] = frozenset()
    seams: tuple[str, ...] = ()
    levels: tuple[str, ...] = ()
    gaps: frozenset[str] = frozenset()
    laced: frozenset[str] = frozenset()
    edges: frozenset[str] = frozenset()


def check_rules(steps: tuple[ReadStep, ...], findings: Findings, block: BlockSpec | None = None) -> None:
    """Note everything that a step says about other steps, or about the block, and that is not so."""
    drawn = Drawn()
    band = block if isinstance(block, BandSpec) else None
    check_booked(steps, stands_on(block), findings)
    check_shaping(steps, findings)
    check_skirts(steps, findings)
    _check_cuts(steps, findings)
    for step in steps:
        for sighting in step.sightings:
            _check_drawn(sighting, drawn, findings)
        drawn = _with_step(step, drawn, findings)
    hem = next((step.options for step in steps if isinstance(step.options, Hem)), None)
    for step in steps:
        if isinstance(step.options, Seam):
            _check_below_waist(step, step.options, hem, findings)
        if isinstance(step.options, Cut):
            _check_counts(step, step.options, band, findings)
    separate = next((step for step in steps if isinstance(step.options, Separate)), None)
    if separate is not None and isinstance(separate.options, Separate):
        _check_panels(separate, separate.options.panels, steps, findings)


def _check_cuts(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    """Note counts that are given twice: a second `cut` of all panels, or of one piece."""
    first: dict[str, int] = {}
    for step in steps:
        if not isinstance(step.options, Cut):
            continue
        for name in step.options.panels or ("",):
            if name in first:
                says = f"counts {shown(name)} a" if name else "stands a"
                remedy = "Keep one of them." if name else "Put all its options in one step, or say which `panels`."
                what = f"{says} second time (first in step {first[name]})."
                findings.wrong("step-twice", step.where, what, remedy, step.place)
            first.setdefault(name, step.number)


def _check_counts(step: ReadStep, cut: Cut, band: BandSpec | None, findings: Findings) -> None:
    """Note counts that cannot be cut, and a fold that a band says elsewhere."""
    single = (band is not None and band.drawn == "whole") or bool(cut.panels)
    for layer, count in sorted(cut.layers.items()):
        if not 1 <= count <= MOST_LAYERS or (count % 2 and not single):
            needs = f"a number from 1 to {MOST_LAYERS}" if single else f"an even number from 2 to {MOST_LAYERS}"
            remedy = "" if single else "Panels are cut in pairs, one for each half."
            what = f"got {count}, needs {needs}."
            findings.wrong("step-options", f"{step.where} › {layer}", what, remedy, step.place_of(layer))
    if band is not None and cut.on_fold:
        what = "what lies on the fold of a band is said by `fold` in `pieces`."
        findings.wrong("step-options", f"{step.where} › on fold", what, "Take it out here.", step.place_of("on fold"))


def _check_drawn(sighting: Sighting, drawn: Drawn, findings: Findings) -> None:
    term, missing = sighting.term, ""
    if isinstance(term, Height) and term.landmark in _DRAWN_HEIGHTS and term.landmark not in drawn.lines:
        missing = f"the {term.landmark}"
        remedy = f"Move `{term.landmark}` before this step."
    if isinstance(term, Height) and _is_level(term.landmark) and term.landmark not in drawn.levels:
        missing = f"the level seam {shown(term.landmark)}"
        remedy = "Move that seam before this step."
    if isinstance(term, Around) and is_missing(term, drawn.gaps, drawn.laced):
        missing = f"the {term.landmark}"
        remedy = "Put a `lacing gap` before this step."
        if not term.landmark.startswith(LACING_EDGE):
            remedy = "Put an `opening` or an `open front` before this step."
    elif isinstance(term, Around) and term.landmark == LACING_EDGE and len(drawn.laced) > 1:
        words = sorted(f"`{LACING_EDGE} {at.removeprefix('center ')}`" for at in drawn.laced)
        what = f"the garment laces in {len(words)} places, and this does not say which edge is meant."
        findings.wrong("edge-unclear", sighting.where, what, f"Write {' or '.join(words)}.", sighting.place)
    if isinstance(term, Around) and _is_seam(term.landmark) and term.landmark not in drawn.seams:
        missing = f"the seam {shown(term.landmark)}"
        remedy = "Move that seam before this step."
    if missing:
        what = f"{missing} has not been drawn before this step."
        findings.wrong("not-drawn", sighting.where, what, remedy, sighting.place)


def _is_seam(landmark: str) -> bool:
    return landmark != "" and landmark not in LANDMARK_AROUNDS and not laced_at(landmark)


def _is_level(landmark: str) -> bool:
    return landmark != "" and landmark not in LANDMARK_HEIGHTS


def _with_step(step: ReadStep, drawn: Drawn, findings: Findings) -> Drawn:
    options = step.options
    if isinstance(options, LacingGap | Opening | OpenFront):
        return _with_opening(step, options, drawn, findings)
    if isinstance(options, Seam):
        _check_seam_name(step, options.name, drawn, findings)
        return replace(drawn, seams=(*drawn.seams, options.name))
    if isinstance(options, LevelSeam):
        _check_seam_name(step, options.name, drawn, findings)
        return replace(drawn, levels=(*drawn.levels, options.name))
    if isinstance(options, TopEdge | Hem):
        for spec in options.edges:
            _check_edge_name(step, spec.name, drawn, findings)
        named = {spec.name for spec in options.edges}
        named |= {SHOULDER for spec in options.edges if spec.sewn_to and spec.kind == SHOULDER}
        return replace(drawn, lines=drawn.lines | {step.kind.name}, edges=drawn.edges | named)
    return drawn


def _with_opening(step: ReadStep, options: LacingGap | Opening | OpenFront, drawn: Drawn, findings: Findings) -> Drawn:
    at = "center front" if isinstance(options, OpenFront) else options.at
    if at in drawn.gaps:
        what = f"there is a lacing gap at {at} already." if at in drawn.laced else f"the garment opens at {at} already."
        findings.wrong("step-twice", step.where, what, "Keep one of them.", step.place)
    if isinstance(options, LacingGap):
        _check_laced(step, at, drawn, findings)
    if isinstance(options, Opening) and options.overlap != Length(0.0) and drawn.lines:
        what = f"runs past the {at}, but stands after `{min(drawn.lines)}`, which ends there."
        findings.wrong("step-order", step.where, what, "Move it before the top edge and the hem.", step.place)
    laced = isinstance(options, LacingGap) or (isinstance(options, OpenFront) and options.closed_with == LACED)
    return replace(drawn, gaps=drawn.gaps | {at}, laced=drawn.laced | ({at} if laced else set()))


def _check_laced(step: ReadStep, at: str, drawn: Drawn, findings: Findings) -> None:
    """Note a lacing gap at the side before there is an outline, or at a seam that has not been drawn."""
    where, place = f"{step.where} › at", step.place_of("at")
    if at == SIDE:
        for line in (line for line in _DRAWN_HEIGHTS if line not in drawn.lines):
            what = f"the {line} has not been drawn before this step, so nobody knows how far the opening goes."
            findings.wrong("not-drawn", where, what, f"Move `{line}` before this step.", place)
    elif at not in CENTERS and at not in drawn.seams:
        what = f"there is no seam {shown(at)} before this step."
        findings.wrong("not-drawn", where, what, nearest(at, (*CENTERS, SIDE, *drawn.seams)), place)


def _check_edge_name(step: ReadStep, name: str, drawn: Drawn, findings: Findings) -> None:
    where, place = f"{step.where} › edges", step.place_of("edges")
    if name in LANDMARK_AROUNDS or (name in LANDMARK_HEIGHTS and name not in _FREE_FOR_EDGES):
        what = f"{shown(name)} is the name of a place on every block."
        findings.wrong("name-taken", where, what, f"Name the edge otherwise, such as “{name} edge”.", place)
    elif name in (*drawn.seams, *drawn.levels) or name in drawn.edges:
        what = f"something called {shown(name)} has been drawn already."
        findings.wrong("name-twice", where, what, "Give every edge and seam a name of its own.", place)
    elif not is_name(name):
        findings.wrong("not-a-name", where, f"{shown(name)} cannot be a name.", NAME_REMEDY, place)


def _check_seam_name(step: ReadStep, name: str, drawn: Drawn, findings: Findings) -> None:
    where, place = f"{step.where} › name", step.place_of("name")
    if name in (*drawn.seams, *drawn.levels):
        what = f"there is a seam {shown(name)} already."
        findings.wrong("name-twice", where, what, "Give every seam a name of its own.", place)
    elif name in drawn.edges:
        what = f"there is an edge {shown(name)} already."
        findings.wrong("name-twice", where, what, "Give every seam a name of its own.", place)
    elif name in LANDMARK_AROUNDS or name in LANDMARK_HEIGHTS:
        what = f"{shown(name)} is the name of a place on every block."
        findings.wrong("name-taken", where, what, f"Name the seam otherwise, such as “{name} seam”.", place)
    elif not is_name(name):
        findings.wrong("not-a-name", where, f"{shown(name)} cannot be a name.", NAME_REMEDY, place)


def _check_below_waist(step: ReadStep, seam: Seam, hem: Hem | None, findings: Findings) -> None:
    below = [is_below_waist(position.height, hem) for position in seam.through]
    if any(below) and not all(below) and seam.below_waist is None:
        what = "the seam runs on below the waist, but does not say how it is made up there."
        remedy = "Write `below waist: open` if it parts into tabs, `below waist: sewn` if it is sewn to the hem."
        findings.wrong("below-waist", f"{step.where} › below waist", what, remedy, step.place)


def is_below_waist(height: Height, hem: Hem | None) -> bool:
    """Return whether a height lies below the waist on every body, as far as its words tell."""
    if height.landmark == "hem":
        heights = [] if hem is None else [point.height for point in hem.through]
        heights += [] if hem is None else [point.height for spec in hem.edges for point in spec.through]
        heights += [hem.height] if hem is not None and hem.height is not None else []
        return any(is_below_waist(one, None) for one in heights)
    above = height.landmark not in ("", "waist")
    if above or (height.share is not None and height.share.ratio > 0.0):
        return False
    if height.share is not None and height.share.ratio < 0.0:
        return True
    return height.plus is not None and height.sign * _size(height.plus) < 0.0


def _size(amount: object) -> float:
    match amount:
        case Length(mm):
            return mm
        case Share(ratio):
            return ratio
        case _:
            return 1.0


def _check_panels(separate: ReadStep, panels: tuple[str, ...], steps: tuple[ReadStep, ...], findings: Findings) -> None:
    for number, name in enumerate(panels, start=1):
        if not is_name(name):
            where = f"{separate.where} › panels › item {number}"
            what = f"{shown(name)} cannot be a name."
            findings.wrong("not-a-name", where, what, NAME_REMEDY, separate.place_of("panels"))
    known = list(panels)
    for step in steps:
        if step.options is None:
            continue
        for key, trail, name in step.kind.named(step.options):
            if name not in known:
                what = f"there is no panel {shown(name)} in `separate` (step {separate.number})."
                findings.wrong(
                    "unknown-panel",
                    f"{step.where}{trail}",
                    what,
                    nearest(name, known),
                    step.place_of_name(key, name),
                )
        known += _added(step, known, findings)


def _added(step: ReadStep, known: Sequence[str], findings: Findings) -> tuple[str, ...]:
    """Return the names of the pieces a step adds, having noted those that cannot be names or are taken."""
    names = step.kind.adds(step.options)
    for name in names:
        if not is_name(name):
            findings.wrong("not-a-name", step.where, f"{shown(name)} cannot be a name.", NAME_REMEDY, step.place)
        elif name in known:
            what = f"there is a panel {shown(name)} already."
            findings.wrong("name-twice", step.where, what, "Give every piece a name of its own.", step.place)
    return names
