"""Which lines and words of a piece only one layer of cloth needs, so that they can be hidden for the others.

Channels and eyelets are marked on the strength layer alone, and a piece that is cut from one layer only, such as a lining
with an outline of its own, is of no use for the rest.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace

from fanblock.pattern.model import Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Stroke, Words

MARKED_PENS = ("channel", "through", "eyelet")
"""Pens of what is marked on the strongest layer alone."""


def own_layer(panel: Panel, pattern: Pattern) -> str:
    """Return the one layer that a piece is cut from, where the pattern has others; empty where it is cut from several."""
    every = {layer for one in pattern.panels for layer, _ in one.cuts}
    if panel.layer:
        return panel.layer
    return panel.cuts[0][0] if len(panel.cuts) == 1 and len(every) > 1 else ""


def on_cloth(
    items: Iterable[Stroke | Words], panel: Panel, pattern: Pattern, marked: Collection[Words] = ()
) -> tuple[Stroke | Words, ...]:
    """Return the lines and words of a piece, each with the layer of cloth that alone needs it.

    ``marked`` are the words that belong to channels and eyelets.
    """
    own, strong = own_layer(panel, pattern), phrases.marked_layer(panel)

    def put(item: Stroke | Words) -> Stroke | Words:
        is_marked = item.pen in MARKED_PENS if isinstance(item, Stroke) else item in marked
        cloth = own or (strong if is_marked else "")
        return replace(item, cloth=cloth) if cloth else item

    return tuple(put(item) for item in items)
