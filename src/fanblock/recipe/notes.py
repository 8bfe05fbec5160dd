"""What a recipe says beside its steps: measures needed, sources, what to watch at the mock-up."""

from __future__ import annotations

from fanblock.problems import nearest
from fanblock.recipe.findings import Findings
from fanblock.recipe.model import SOURCE_KINDS
from fanblock.units import shown
from fanblock.wearer.measures import MEASURES
from fanblock.yamlfile import Listing, Table, Text, kind


def check_needs(needs: tuple[str, ...], table: Table, findings: Findings) -> None:
    """Note every measure among ``needs`` that there is not."""
    node = table.get("needs")
    places = [item.place for item in node] if isinstance(node, Listing) else []
    for name, place in zip(needs, places, strict=False):
        if name not in MEASURES:
            what = f"there is no measure {shown(name)}."
            findings.wrong("unknown-measure", "needs", what, nearest(name, MEASURES), place)


def read_lines(nodes: tuple[object, ...], key: str, findings: Findings) -> tuple[str, ...]:
    """Return the lines of a list of texts; a line with a colon in it may stand without quotation marks."""
    lines = []
    for number, node in enumerate(nodes, start=1):
        line = line_of(node)
        if line:
            lines.append(line)
        elif isinstance(node, Text | Listing | Table):
            got = "nothing stands here" if isinstance(node, Text) else f"got {kind(node)}"
            findings.wrong("wrong-value", f"{key} › item {number}", f"{got}, needs a text.", "", node.place)
    return tuple(lines)


def read_sources(nodes: tuple[object, ...], findings: Findings) -> tuple[str, ...]:
    """Return the lines of ``sources``, each of which begins by saying what kind of source it is."""
    lines = read_lines(nodes, "sources", findings)
    kinds = " or ".join(f"`{name}: …`" for name in SOURCE_KINDS)
    for number, node in enumerate(nodes, start=1):
        line = line_of(node)
        name, _, says = line.partition(":")
        if isinstance(node, Text | Table) and line and (name not in SOURCE_KINDS or not says.strip()):
            what = f"got {shown(line)}, which does not say what kind of source it is."
            findings.wrong("source-kind", f"sources › item {number}", what, f"Begin with {kinds}.", node.place)
    return lines


def line_of(node: object) -> str:
    """Return a text on one line, a single name with its value as the line it was typed as, else nothing."""
    if isinstance(node, Text):
        return " ".join(node.text.split())
    if isinstance(node, Table) and len(node) == 1:
        entry = node.entries[0]
        return f"{entry.name}: {line_of(entry.value)}" if isinstance(entry.value, Text) else ""
    return ""
