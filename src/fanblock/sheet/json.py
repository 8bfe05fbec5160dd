"""A pattern as JSON: everything a stranger's program needs to add up the waist and walk every seam."""

from __future__ import annotations

import json
from typing import Any

import numpy as np

from fanblock.block.band import Band
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import SLIT, Edge, Girth, Notch, Opening, Panel, Pattern, Seam
from fanblock.sheet.bonedata import channels_of, eyelets_of, layers_of, lists_of
from fanblock.sheet.halvesdata import OF_HALVES, half_girths, lengths_of, which_half
from fanblock.sheet.jsonnumbers import number_of as _number
from fanblock.sheet.jsonnumbers import points_of as _points
from fanblock.sheet.jsonreading import READING
from fanblock.sheet.sewing import joining
from fanblock.tolerances import CHORD_MM

SCHEMA = "fanblock-pattern/1"

OUTER_PLACES = 401
"""By how many points the outer edge of a band is given that is deeper in its middle."""


def pattern_json(pattern: Pattern) -> str:
    """Return the pattern as JSON text by the schema ``fanblock-pattern/1``; same pattern, same text."""
    return _written(pattern_data(pattern), "\n") + "\n"


def pattern_data(pattern: Pattern) -> dict[str, Any]:
    """Return what :func:`pattern_json` writes, as plain dictionaries, lists, texts and numbers."""
    title = pattern.title
    return {
        "schema": SCHEMA,
        "reading": [*READING, *(OF_HALVES if pattern.halves else ())],
        "units": "mm",
        "half": which_half(pattern),
        "chord_tolerance": CHORD_MM,
        "sound": pattern.sound,
        "wearer": {
            "name": title.wearer,
            "over": pattern.body.over,
            "taken_on": pattern.body.taken_on,
            "units": pattern.body.units,
            "lengths": {name: _number(pattern.body.lengths[name]) for name in sorted(pattern.body.lengths)},
            "guessed": {name: pattern.body.guessed[name] for name in sorted(pattern.body.guessed)},
        },
        "recipe": {
            "id": title.recipe,
            "name": title.garment,
            "makes": title.makes,
            "period": title.period,
            "dials": {name: _number(value, 6) for name, _, value in pattern.dials},
        },
        "draft": title.draft,
        "code": title.code,
        "block": _block(pattern),
        "gap": {
            "nominal": _number(pattern.gap_mm),
            "per_level": {girth.name: _number(2.0 * girth.gap_mm) for girth in pattern.girths},
        },
        "construction": pattern.construction or None,
        "toile": pattern.toile,
        "layers": layers_of(pattern),
        "openings": [_opening(opening) for opening in pattern.openings],
        "panels": [
            _panel(panel, bool(pattern.halves)) for panel in sorted(pattern.panels, key=lambda panel: panel.number)
        ],
        "seams": [_seam(seam, pattern) for seam in pattern.seams],
        "girths": half_girths(pattern, _girth) if pattern.halves else [_girth(one, pattern) for one in pattern.girths],
        **(
            {"halves": {half.half: {"lengths": lengths_of(half), "block": _block(half)} for half in pattern.halves}}
            if pattern.halves
            else {}
        ),
        "lists": lists_of(pattern),
        "lines": {name: _points(pattern.lines[name].points) for name in sorted(pattern.lines)},
        "sewing": list(joining(pattern)),
        "notes": [{"kind": note.kind, "says": note.says} for note in pattern.notes],
        "checks": [
            {
                "code": finding.code,
                "family": finding.family,
                "state": finding.state,
                "number": _number(finding.number, 6),
                "limit": _number(finding.limit, 6),
                "unit": finding.unit,
                "says": finding.says,
            }
            for finding in pattern.findings
        ],
    }


def _band(band: Band, block: Block) -> dict[str, Any]:
    """The block of a band; its lengths are those of the whole band, its curves those of what is drawn."""
    return {
        "turn_rad": _number(band.turn_rad, 9),
        "inner": _number(band.inner_mm),
        "outer": _number(band.outer_edge_mm),
        "depth": _number(band.depth_mm),
        **({} if band.deepest_mm is None else {"deepest": _number(band.deepest_mm)}),
        "drawn": "half" if band.halved else "whole",
        "worn": "hanging" if band.hangs else "standing",
        "curves": {
            "inner": _points(block.level(band.inner_height).points),
            "outer": _points(_outer(band, block)),
        },
    }


def _outer(band: Band, block: Block) -> Points:
    """The outer edge of a band as points; one of even depth is a level of its block."""
    if band.deepest_mm is None:
        return block.level(band.outer_height).points
    around = np.linspace(0.0, 1.0, OUTER_PLACES)
    return block.at(around, band.outer_heights(around))


def _written(value: Any, line: str) -> str:
    """The value as JSON, one item a line but for points, which are pairs of numbers; ``line`` begins a line."""
    inner = line + " "
    if isinstance(value, dict):
        parts = [f"{inner}{json.dumps(key, ensure_ascii=False)}: {_written(one, inner)}" for key, one in value.items()]
        return f"{{{','.join(parts)}{line}}}" if parts else "{}"
    if not isinstance(value, list):
        return json.dumps(value, ensure_ascii=False, allow_nan=False)
    if len(value) == 2 and isinstance(value[0], float):
        return f"[{value[0]!r}, {value[1]!r}]"
    parts = [inner + _written(one, inner) for one in value]
    return f"[{','.join(parts)}{line}]" if parts else "[]"


def _block(pattern: Pattern) -> dict[str, Any]:
    block = pattern.block
    if pattern.band is not None:
        return _band(pattern.band, block)
    return {
        "turn_rad": _number(block.turn_rad, 9),
        "waist": _number(2.0 * block.half_waist_mm),
        "bust": _number(2.0 * block.half_bust_mm),
        "center_front": _number(block.center_front_mm),
        "center_back": _number(block.center_back_mm),
        "traced_from": block.traced_from or None,
        "stands_on": [
            {
                "girth": level.name,
                "height": _number(level.height, 6),
                "body": _number(pattern.body.length_mm(level.name)),
                "block": _number(2.0 * block.level_length_mm(level.height)),
            }
            for level in pattern.stand.levels
        ],
        "side": _number(block.side_ratio, 6),
        "corrections": [
            {
                "at": tilt.at,
                "take": _number(tilt.take_mm),
                "height": _number(tilt.height_ratio, 6),
                "to": tilt.to,
            }
            for tilt in block.corrections
        ],
        "curves": {"waist": _points(block.level(0.0).points), "bust": _points(block.level(1.0).points)},
    }


def _panel(panel: Panel, of_halves: bool = False) -> dict[str, Any]:
    return {
        "name": panel.name,
        "number": panel.number,
        **({"half": panel.side or "both"} if of_halves else {}),
        "cut": dict(panel.cuts),
        "fold": panel.fold,
        "added": panel.added,
        "whole": panel.whole,
        "held": panel.loose,
        "let_in": panel.let_in,
        "layer": panel.layer,
        "copy_of": panel.copy_of,
        "inside": _number(panel.inside_mm),
        "edges": [_edge(edge, panel) for edge in panel.edges],
        "cut_line": [] if panel.cut_line is None else _points(panel.cut_line.points),
        "levels": {name: [_points(part.points) for part in panel.levels[name]] for name in sorted(panel.levels)},
        "grain": None if panel.grain is None else _points(panel.grain),
        "notches": [_notch(notch) for notch in panel.notches],
        "marks": [
            {"name": mark.name, "kind": mark.kind, "says": mark.says, "points": _points(mark.curve.points)}
            for mark in panel.marks
        ],
        "slits": [_points((slit.start, slit.end)) for slit in panel.slits],
        "channels": channels_of(panel),
        "eyelets": eyelets_of(panel),
    }


def _opening(opening: Opening) -> dict[str, Any]:
    return {
        "at": opening.at,
        "edge": opening.edge,
        "closed_with": opening.closed,
        "width": _number(opening.width_mm),
        "overlap": _number(opening.overlap_mm),
        "widths": [{"above_waist": _number(at), "width": _number(wide)} for at, wide in opening.widths],
        "behind": opening.behind,
        "times": opening.times,
    }


def _edge(edge: Edge, panel: Panel) -> dict[str, Any]:
    points = _points(edge.curve.points)
    return {
        "name": edge.name,
        "kind": edge.kind,
        "mate": None if edge.mate is None else {"panel": edge.mate.panel, "edge": edge.mate.edge},
        "letter": edge.letter,
        "reversed": edge.reversed,
        "across": edge.across or None,
        "opens_at": edge.opens_at or None,
        "waist_at": None if edge.waist_at_mm is None else _number(edge.waist_at_mm),
        "allowance": _number(panel.allowances.get(edge.name, 0.0)),
        "length": _number(Curve(np.array(points)).length_mm),
        "points": points,
    }


def _notch(notch: Notch) -> dict[str, Any]:
    return {
        "edge": notch.edge,
        "kind": notch.kind,
        "at": _number(notch.at_mm),
        "count": notch.count,
        "tick": _number(notch.tick_mm),
        "point": _points([notch.point])[0],
    }


def _seam(seam: Seam, pattern: Pattern) -> dict[str, Any]:
    found: dict[str, Any] = {"name": seam.name, "letter": seam.letter, "line": seam.line, "onto": list(seam.onto)}
    for side, edge in (("front", seam.front), ("back", seam.back)):
        found[side] = {"panel": edge.panel, "edge": edge.edge}
    found["fullness"] = _number(seam.fullness_mm)
    found["how"] = seam.how
    found["below_waist"] = _below_waist(seam, pattern)
    for where, shift in (("above", seam.above), ("below", seam.below)):
        found[f"shift_{where}"] = None
        if shift is not None:
            found[f"shift_{where}"] = {
                "shift": _number(shift.shift_mm),
                "edge": _number(shift.edge_mm),
                "lean_deg": _number(shift.lean_deg),
                "take": _number(shift.take_mm),
            }
    return found


def _below_waist(seam: Seam, pattern: Pattern) -> str:
    """``sewn`` where the seam runs on below the waist, ``open`` where slit edges go on from it, else
    ``none``.
    """
    panel = pattern.by_name[seam.front.panel]
    edge = panel.edge(seam.front.edge)
    at = edge.waist_at_mm
    if at is not None and min(at, edge.curve.length_mm - at) > 1.0:
        return "sewn"
    index = [other.name for other in panel.edges].index(edge.name)
    beside = (panel.edges[index - 1], panel.edges[(index + 1) % len(panel.edges)])
    return "open" if any(other.kind == SLIT for other in beside) else "none"


def _girth(girth: Girth, pattern: Pattern) -> dict[str, Any]:
    counted = girth.base_mm is not None
    return {
        "level": girth.name,
        "height": _number(girth.height, 6),
        "block": _number(girth.block_mm),
        "takes": {name: _number(take) for name, take in girth.takes},
        "takes_total": _number(girth.takes_mm),
        "gap": _number(girth.gap_mm),
        "parts": _number(girth.parts_mm),
        "parts_by_panel": {
            panel.name: _number(sum(part.length_mm for part in panel.levels[girth.name]))
            for panel in pattern.panels
            if girth.name in panel.levels and not panel.added
        },
        "open": _number(girth.open_mm),
        "body": _number(girth.body_mm) if girth.body_mm is not None else None,
        "ease": _number(girth.ease_mm) if counted else None,
        "reduction": _number(girth.reduction_mm) if counted else None,
        "altered": _number(girth.altered_mm),
        "target": None if girth.base_mm is None else _number(_target(girth, girth.base_mm)),
        "let_in": {name: _number(width) for name, width in girth.let_in},
        "turned_in": _number(girth.turned_in_mm),
        "finished": _number(2.0 * (girth.block_mm - girth.takes_mm + girth.let_in_mm)),
    }


def _target(girth: Girth, base_mm: float) -> float:
    """What the finished garment should measure at a level."""
    return base_mm + girth.ease_mm - girth.reduction_mm - girth.altered_mm
