"""What pieces, edges and seams are called where the two halves were drafted apart."""

from __future__ import annotations

from collections.abc import Mapping

from fanblock.pattern.model import Edge, EdgeName, Panel


def is_one(panel: Panel) -> bool:
    """Return whether a panel of a half makes one piece with that of the other: it is on the fold, or all of its thing."""
    return bool(panel.fold) or panel.whole


def piece_name(panel: Panel, side: str) -> str:
    """Return the name of a half's panel among those of both: ``side front left``; one that both make keeps its own."""
    return panel.name if is_one(panel) else f"{panel.name} {side}"


def edge_name(panel: Panel, edge: str, side: str) -> str:
    """Return the name of an edge of a half's panel: on a piece opened from the fold with its side, else as it is."""
    return f"{edge} {side}" if panel.fold else edge


def renamed(name: EdgeName, panels: Mapping[str, Panel], side: str) -> EdgeName:
    """Return the name of a half's edge among those of both."""
    panel = panels[name.panel]
    return EdgeName(piece_name(panel, side), edge_name(panel, name.edge, side))


def is_fold(edge: Edge, panel: Panel) -> bool:
    """Return whether a panel's edge lies on the fold."""
    return bool(panel.fold) and edge.name == panel.fold
