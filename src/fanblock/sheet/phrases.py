"""The words that stand on pieces, sheets and reports, made from a pattern's numbers in one place."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType

from fanblock.pattern.model import (
    CENTER,
    FOLD,
    FREE,
    HEM,
    LACING,
    LET_IN,
    OPEN_KINDS,
    SEAM,
    SLIT,
    TOILE,
    TOP,
    Edge,
    Panel,
    Pattern,
    Title,
)
from fanblock.units import spoken_length
from fanblock.wearer.model import HALVES

HALF = "wearer's left half, face up; flip for the other"
ONE_HALF = MappingProxyType({side: f"wearer's {side.upper()} half only, face up" for side in HALVES})
BOTH_HALVES = "both halves, face up: L is for the wearer's left, R for the right"
WHOLE = "the whole piece, face up"
SOUND = "SOUND: it adds up and sews up. Whether it fits only a toile tells."
NOT_SOUND = "NOT SOUND"


def layer_counts(panel: Panel) -> tuple[tuple[str, str], ...]:
    """Return each layer's name with what to cut of it: ``1 pair``, ``2 pairs``, ``1 on the fold``, ``3``."""
    return tuple(
        (layer, str(count) if panel.single else _count(count, bool(panel.fold))) for layer, count in panel.cuts
    )


def cutting(panel: Panel) -> tuple[str, ...]:
    """Return one line for each count: ``cut 2 pairs: strength``; layers cut alike share a line."""
    alike: dict[str, list[str]] = {}
    for layer, count in layer_counts(panel):
        alike.setdefault(count, []).append(layer)
    return tuple(f"cut {count}: {', '.join(layers)}" for count, layers in alike.items())


def boned(panel: Panel) -> tuple[str, ...]:
    """Return on which layer channels are marked: the strongest, where there are several; eyelets are marked on the made edge."""
    layer = marked_layer(panel)
    if panel.channels and layer:
        return (f"channels: on {layer}",)
    return ("eyelets: by the strips",) if panel.eyelets and layer else ()


def marked_layer(panel: Panel) -> str:
    """Return the layer that channels and eyelets are marked on, the strongest; empty where a piece has only one."""
    strong = [layer for layer, _ in panel.cuts if "strength" in layer] or [layer for layer, _ in panel.cuts]
    return strong[0] if len(panel.cuts) > 1 else ""


def _count(count: int, on_fold: bool) -> str:
    if on_fold:
        return f"{count} on the fold"
    if count % 2:
        return str(count)
    pairs = count // 2
    return "1 pair" if pairs == 1 else f"{pairs} pairs"


def identity(title: Title) -> tuple[str, str]:
    """Return the two lines that tell two printings apart: garment and wearer; draft and code."""
    return f"{title.garment} · {title.wearer}", stamp(title)


def stamp(title: Title) -> str:
    """Return draft number and code: ``draft 2 · code 7F3A``."""
    return f"draft {title.draft} · code {title.code}"


def allowance(edge: Edge, panel: Panel, units: str) -> str:
    """Return in words what lies outside an edge's stitch line."""
    width = panel.allowances.get(edge.name, 0.0)
    if edge.kind == FOLD or (panel.fold and panel.fold == edge.name):
        return "on the fold: no allowance"
    toile = any(layer == TOILE for layer, _ in panel.cuts)
    if toile and edge.kind in (TOP, HEM):
        return "finished here; cut on the outer line"
    if width > 0.0:
        return f"{short_length(width, units)} allowance"
    if edge.kind in (TOP, HEM, SLIT, FREE):
        return "no allowance: raw edge" if toile else "no allowance: bound"
    if edge.kind in {CENTER, SEAM, *OPEN_KINDS}:
        return "no allowance: finished edge"
    if edge.kind == LET_IN:
        return "turn in to here"
    return "no allowance"


def short_length(mm: float, units: str) -> str:
    """Return a length for talking back: millimetres under 2 cm, as allowances are told, for those who measure
    in centimetres.
    """
    return spoken_length(mm, units)


def faces_front(edge: Edge) -> bool:
    """Tell whether an edge of an upright panel runs down its front side (loops run counter-clockwise); a mirrored one up."""
    drop = float(edge.curve.start[1] - edge.curve.end[1]) * (-1.0 if edge.mirrored else 1.0)
    return drop > 0.5 * edge.curve.length_mm


def faces_back(edge: Edge) -> bool:
    """Tell whether an edge of an upright panel runs up its back side; a mirrored one down."""
    rise = float(edge.curve.end[1] - edge.curve.start[1]) * (-1.0 if edge.mirrored else 1.0)
    return rise > 0.5 * edge.curve.length_mm


def center_of(edge: Edge) -> str:
    """Return which line an open edge of an upright panel runs beside: ``center front``, ``center back`` or a seam within."""
    if edge.opens_at:
        return edge.opens_at
    return "center front" if faces_front(edge) else "center back"


def prose(name: str) -> str:
    """Return the name of a line as running text spells it: ``centre front``."""
    return name.replace("center", "centre")


def side_words(edge: Edge, panel: Panel) -> str:
    """Return what stands along a centre, a fold or an open edge, in capitals."""
    name = edge.name.upper()
    if edge.kind == LACING:
        place = center_of(edge).upper()
        return name if place in name else f"{name} · {place}"
    if edge.kind == FOLD or (panel.fold and panel.fold == edge.name):
        return f"{name} · PLACE ON THE FOLD"
    return name


def listed(things: Iterable[object]) -> str:
    """Return things as a list in running text.

    >>> listed([1, 2, 3]), listed(["a"])
    ('1, 2 and 3', 'a')
    """
    words = [str(thing) for thing in things]
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


def verdict(pattern: Pattern) -> str:
    """Return SOUND with what it means, or NOT SOUND with what fails."""
    if pattern.sound:
        return SOUND
    failed = [finding.says for finding in pattern.findings if finding.state == "fails"]
    return f"{NOT_SOUND}: {' '.join(failed)}"
