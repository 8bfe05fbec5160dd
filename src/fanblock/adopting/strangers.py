"""What is drawn on a pattern that was not drafted: lines of the maker's own, and copies of ours."""

from __future__ import annotations

import re
from collections.abc import Sequence

from fanblock.adopting.kept import KeptPanel
from fanblock.sheet.drawing import PENS
from fanblock.sheet.writing import identifier, plain
from fanblock.tracing.bare import Element, plain_name
from fanblock.tracing.lines import CLONE, CLOSED, SHAPES
from fanblock.tracing.named import is_automatic

_OF_THE_SHEET = ("test-square", "long-line", "title", "not-sound")
"""How the ids begin of what stands on the sheet beside the pieces."""

_SMALL_THINGS = re.compile(
    r"(waist )?notch .+|grain( arrow)?|arrow( shaft)?|underline|leader|slit \d+ reinforcement|\d+ (mm|in)( upright| line)?"
)
"""Names of what stands on the pieces beside their lines, and of the squares to test the scale by; they follow from these."""


def strangers(root: Element, panels: Sequence[KeptPanel], taken: set[int]) -> tuple[Element, ...]:
    """Return the shapes of a drawing that are neither among those ``taken``, by identity, nor anything else of the sheet's."""
    groups = tuple(f"{identifier(plain(panel.title), set())}-" for panel in panels)
    names = our_names(panels)
    eyelets = frozenset(plain_name(name) for panel in panels for name in panel.eyelets)
    return tuple(
        element
        for element in root.all()
        if (element.tag in SHAPES or element.tag in CLOSED or element.tag == CLONE)
        and id(element) not in taken
        and not _is_ours(element, groups, names, eyelets)
    )


def our_names(panels: Sequence[KeptPanel]) -> frozenset[str]:
    """Return the plain names of all lines of the pieces."""
    found = set[str]()
    for panel in panels:
        found |= {plain_name(one.name) for lines in (panel.edges, panel.marks, panel.rest) for one in lines}
        found |= {plain_name(f"{name} level") for name in panel.levels} | {"cut line"}
    return frozenset(found)


def own_name(element: Element) -> str:
    """Return what its maker called a line, by its label, its title or its id, or else by those of a group that holds it alone;
    empty where an editor named it.
    """
    for one in (element, element.parent):
        if one is None or (one is not element and len(one.children) > 1):
            return ""
        labels = [text for key, text in sorted(one.attributes.items()) if key.endswith(":label")]
        ids = [one.attributes[key] for key in ("data-name", "id") if key in one.attributes]
        titles = [name for name in one.names if name not in (*labels, *ids)]
        for name in (*labels, *titles, *(re.sub(r"[-_]+", " ", name) for name in ids)):
            if name.strip() and not is_automatic(name):
                return name.strip()
    return ""


def _is_ours(element: Element, groups: tuple[str, ...], names: frozenset[str], eyelets: frozenset[str]) -> bool:
    """Return whether a line was written by the sheet: its id begins with its piece's, or it is one of those without.

    A copy of one of ours to which the maker gave a name is hers.
    """
    own = element.attributes.get("id", "")
    label = next((text for key, text in element.attributes.items() if key.endswith(":label")), "")
    if own.startswith(_OF_THE_SHEET) or label.startswith((*_OF_THE_SHEET, *groups)):
        return True
    called = plain_name(own_name(element))
    if called in eyelets or _SMALL_THINGS.fullmatch(called):
        return True
    if own.startswith(groups):
        return not label or is_automatic(label) or plain_name(label) in names
    if element.parent is not None and "aria-label" in {**element.attributes, **element.parent.attributes}:
        return True  # words that an editor has turned into lines
    return element.attributes.get("class", "") in PENS and not element.attributes.get("data-name")
