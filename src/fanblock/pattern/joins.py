"""The join graph: panels as nodes, seams as links. The one place that uses networkx."""

from __future__ import annotations

from fanblock.pattern.model import Pattern


def separate_parts(pattern: Pattern) -> list[list[str]]:
    """Return the groups of panels that hang together by seams or laces, each in order of number; one group is a whole.

    A piece that is held otherwise than by a seam is left out.
    """
    from networkx import Graph, connected_components

    graph = Graph()
    graph.add_nodes_from(panel.name for panel in pattern.panels if not panel.loose)
    ends = ((seam.front.panel, seam.back.panel) for seam in pattern.seams)
    graph.add_edges_from(pair for pair in ends if graph.has_node(pair[0]) and graph.has_node(pair[1]))
    graph.add_edges_from(
        pair for pair in laced_together(pattern) if graph.has_node(pair[0]) and graph.has_node(pair[1])
    )
    order = {panel.name: panel.number for panel in pattern.panels}
    groups = [sorted(group, key=order.__getitem__) for group in connected_components(graph)]
    return sorted(groups, key=lambda group: order[group[0]])


def laced_together(pattern: Pattern) -> list[tuple[str, str]]:
    """Return the pairs of panels, the front one first, that a lace along a seam holds together within one half."""
    found = []
    for line in dict.fromkeys(edge.opens_at for panel in pattern.panels for edge in panel.edges if edge.opens_at):
        sides: tuple[list[str], list[str]] = ([], [])
        for panel in pattern.panels:
            for edge in panel.edges:
                if edge.opens_at == line:
                    sides[int(edge.curve.end[1] < edge.curve.start[1])].append(panel.name)
        found += [(one, other) for one in sides[0] for other in sides[1]]
    return found


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
