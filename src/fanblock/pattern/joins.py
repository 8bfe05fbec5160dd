"""The join graph: panels as nodes, seams as links. The one place that uses networkx."""

from __future__ import annotations

from fanblock.pattern.model import Pattern


def separate_parts(pattern: Pattern) -> list[list[str]]:
    """Return the groups of panels that hang together by seams, each in order of panel number; one group is a whole.

    A piece that is held otherwise than by a seam is left out.
    """
    from networkx import Graph, connected_components

    graph = Graph()
    graph.add_nodes_from(panel.name for panel in pattern.panels if not panel.loose)
    graph.add_edges_from((seam.front.panel, seam.back.panel) for seam in pattern.seams)
    order = {panel.name: panel.number for panel in pattern.panels}
    groups = [sorted(group, key=order.__getitem__) for group in connected_components(graph)]
    return sorted(groups, key=lambda group: order[group[0]])


def one_sided_mates(pattern: Pattern) -> list[str]:
    """Return “panel: edge” for every edge whose mate does not name it in return."""
    found = []
    for panel in pattern.panels:
        for edge in panel.edges:
            if edge.mate is None:
                continue
            try:
                back = pattern.by_name[edge.mate.panel].edge(edge.mate.edge).mate
            except KeyError:
                back = None
            if back is None or (back.panel, back.edge) != (panel.name, edge.name):
                found.append(f"{panel.name}: {edge.name}")
    return found
