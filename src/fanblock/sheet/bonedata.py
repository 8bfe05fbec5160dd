"""Channels, eyelets and the lists of what to buy and cut, as they stand in a pattern's JSON. All lengths in millimetres."""

from __future__ import annotations

from typing import Any

from fanblock.finish.binding import bound, tightest
from fanblock.finish.bonelist import bone_rows, bone_totals, eyelet_count, lace_mm
from fanblock.pattern.bones import Bone, Lacing
from fanblock.pattern.model import Panel, Pattern
from fanblock.sheet.jsonnumbers import number_of, points_of


def channels_of(panel: Panel) -> list[dict[str, Any]]:
    """Return the channels of a panel."""
    return [
        {
            "number": channel.number or None,
            "name": channel.name,
            "kind": channel.kind,
            "bone": _bone(channel.bone),
            "width": number_of(channel.width_mm),
            "length": number_of(channel.line.length_mm),
            "clear": [number_of(clear) for clear in channel.clear_mm],
            "at_center": channel.at_center,
            "line": points_of(channel.line.points),
            "rows": [points_of(row.points) for row in channel.rows],
        }
        for channel in panel.channels
    ]


def eyelets_of(panel: Panel) -> list[dict[str, Any]]:
    """Return the eyelets of a panel."""
    return [
        {
            "edge": eyelet.edge,
            "half": eyelet.half,
            "number": eyelet.number,
            "at": number_of(eyelet.at_mm),
            "hole": number_of(eyelet.hole_mm),
            "point": points_of([eyelet.point])[0],
        }
        for eyelet in panel.eyelets
    ]


def layers_of(pattern: Pattern) -> dict[str, int]:
    """Return how many pieces are cut of each layer in the whole garment."""
    counts: dict[str, int] = {}
    for panel in pattern.panels:
        for layer, count in panel.cuts:
            counts[layer] = counts.get(layer, 0) + count
    return {layer: counts[layer] for layer in sorted(counts)}


def lists_of(pattern: Pattern) -> dict[str, Any]:
    """Return the lists of bones, lacings and binding of the whole garment."""
    binding = pattern.binding
    return {
        "bones": [
            {
                "panel": row.panel,
                "channels": list(row.channels),
                "name": row.name,
                "bone": _bone(row.bone),
                "channel": number_of(row.channel_mm),
                "cut": number_of(row.cut_mm),
                "count": row.pieces,
            }
            for row in bone_rows(pattern)
        ],
        "bones_by_kind": [
            {
                "bone": _bone(total.bone),
                "count": total.pieces,
                "length": number_of(total.length_mm),
                "spares": total.spares,
                "longest": number_of(total.longest_mm),
                "tips": total.tips,
            }
            for total in bone_totals(pattern)
        ],
        "lacings": [_lacing(lacing) for lacing in pattern.lacings],
        "binding": None
        if binding is None
        else {
            "of": binding.material,
            "width": number_of(binding.width_mm),
            "edges": {one.name: number_of(one.length_mm) for one in bound(pattern)},
            "too_tight": [
                {"panel": one.panel, "edge": one.edge, "inward": one.inward, "radius": number_of(one.radius_mm)}
                for one in tightest(pattern)
                if one.is_too_tight
            ],
        },
    }


def _bone(bone: Bone) -> dict[str, Any]:
    return {"width": number_of(bone.width_mm), "thickness": number_of(bone.thickness_mm), "of": bone.material}


def _lacing(lacing: Lacing) -> dict[str, Any]:
    return {
        "panel": lacing.panel,
        "across": lacing.across,
        "edge": lacing.edge,
        "way": lacing.way,
        "spacing": number_of(lacing.spacing_mm),
        "from_edge": number_of(lacing.from_edge_mm),
        "gap": number_of(lacing.gap_mm),
        "left": [number_of(at) for at in lacing.left_mm],
        "right": [number_of(at) for at in lacing.right_mm],
        "eyelets": eyelet_count(lacing),
        "times": lacing.times,
        "lace": number_of(lacing.lace_mm),
        "lace_with_tails": number_of(lace_mm(lacing)),
    }
