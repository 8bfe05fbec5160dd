"""What is done when the halves of a garment are one: lining, skirt, fastenings, edges; said plainly.

The order and the ways are common practice, no source, but where another one is named.
"""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.bones import BONE
from fanblock.pattern.model import (
    ARMHOLE,
    HEM,
    NECKLINE,
    OPEN_KINDS,
    PLEAT_HEAD,
    SHOULDER,
    SLIT,
    TOP,
    WAIST,
    Edge,
    Panel,
    Pattern,
)
from fanblock.sheet import phrases

LINING, STRENGTH, OUTER = "lining", "strength layer", "outer"
"""The layers that are spoken of by name, as recipes call them."""

NONE, FELLED, MOUNTED, CHANNELLED, IN_LAST = "", "felled", "mounted", "channelled", "last"
"""How a lining goes in: none; laid in when the halves are one; each piece on its own; under the channels; at the very end."""

LAID_OVER = "laid over"
"""How a piece is held that is gathered over another one, which is then its lining."""


def layers_of(pattern: Pattern) -> frozenset[str]:
    """Return the layers that the drafted pieces are cut from, those with outlines of their own among them."""
    panels = [panel for panel in pattern.panels if panel.layer or not panel.added]
    return frozenset(layer for panel in panels for layer, _ in panel.cuts)


def is_boned(pattern: Pattern) -> bool:
    """Return whether any piece of a garment has channels for bones."""
    return any(channel.kind == BONE for panel in pattern.panels for channel in panel.channels)


def lining_way(pattern: Pattern) -> str:
    """Return how the lining goes in: one of the five ways of this module."""
    layers = layers_of(pattern)
    if LINING not in layers:
        return NONE
    if any(panel.loose.startswith(LAID_OVER) for panel in pattern.panels):
        return MOUNTED
    if is_boned(pattern) and STRENGTH not in layers:
        return CHANNELLED
    if is_boned(pattern) or pattern.binding is not None or any(panel.layer == LINING for panel in pattern.panels):
        return IN_LAST
    return FELLED


def is_set_on(panel: Panel) -> bool:
    """Return whether a piece is fitted on the body, as a strap or a sleeve: the halves are one by then."""
    skirt = any(edge.kind == WAIST and edge.mate is not None for edge in panel.edges)
    held = any(edge.mate is not None for edge in panel.edges)
    return panel.added and held and not (panel.let_in or panel.loose or skirt)


def is_capped(panel: Panel) -> bool:
    """Return whether a piece is a sleeve or a part of one."""
    return any(edge.name.startswith("cap ") for edge in panel.edges)


def has_sleeves(pattern: Pattern) -> bool:
    """Return whether the sleeves are among the pieces."""
    return any(panel.added and is_capped(panel) for panel in pattern.panels)


def mounted(pattern: Pattern) -> Iterator[str]:
    """Yield what is basted piece by piece before any seam, where a piece has two layers that are sewn as one."""
    if pattern.toile:
        return
    layers = layers_of(pattern)
    if STRENGTH in layers and OUTER in layers and not is_boned(pattern):
        yield (
            "Baste the strength layer to the wrong side of every piece of outer cloth, and sew the two as one from there on."
        )
    if lining_way(pattern) == MOUNTED:
        yield (
            "Baste every piece of the bodice that is cut from outer cloth and lining alike on its lining, edges level, and sew the "
            "two as one from there on."
        )


def lined(pattern: Pattern) -> Iterator[str]:
    """Yield how the lining of a bodice goes in, whose pieces are those of the outer cloth."""
    notes = [note.says for note in pattern.notes if note.kind == "sewing lining"]
    if lining_way(pattern) != FELLED:
        return
    edges = list(_edges(pattern))
    open_ = []
    if has_sleeves(pattern):
        open_.append("the armholes for the sleeves")
    if any(edge.kind == SHOULDER and edge.mate and pattern.by_name[edge.mate.panel].added for _, edge in edges):
        open_.append("the ends that the straps are sewn to")
    if skirt_edges(pattern):
        open_.append("the waist for the skirt")
    if any(edge.kind == PLEAT_HEAD for _, edge in edges):
        open_.append("the pleat heads, turned in when they lie folded")
    left = f", but leave open {phrases.listed(open_)}" if open_ else ""
    pleats = (
        " In the skirts it goes into the pleats with the outer cloth."
        if any(edge.kind == PLEAT_HEAD for _, edge in edges)
        else ""
    )
    yield from notes
    yield (
        "Make the lining up like the outer cloth, seam for seam, and lay it in, wrong side to wrong side, waist on waist. Turn in "
        f"the edges of both toward each other and fell them together{left}.{pleats}"
    )


def lined_last(pattern: Pattern) -> Iterator[str]:
    """Yield how a lining goes in that comes last, inside the bones."""
    if lining_way(pattern) == IN_LAST:
        notes = [note.says for note in pattern.notes if note.kind == "sewing lining"]
        yield from notes
        joined = (
            ""
            if notes
            else "join its pieces by plain seams on the stitch lines, letter to letter, each as far as told above, and press the allowances "
            "open; "
        )
        tabbed = any(one.kind == SLIT for _, one in _edges(pattern)) or any(
            not slit.name for panel in pattern.panels for slit in panel.slits
        )
        tabs = ", round every skirt by itself, its lining slit like it" if tabbed else ""
        turn_in = phrases.short_length(_turned_in_mm(pattern), pattern.body.units)
        beside = (
            "; beside the eyelets turn it in so far that the fold is clear of their stitches" if pattern.lacings else ""
        )
        yield (
            f"The lining comes last: {joined}lay it in over the bones, wrong side to wrong side. Turn its bound edges in by {turn_in}, so "
            f"that its fold covers the inner edge of the binding, and fell it down there{tabs}{beside}."
        )


OVER_BINDING_MM, TURNED_IN_MM = 3.0, 7.0
"""How far a lining's fold lies over the binding's inner edge, and how far it is turned in where no binding is planned (common
practice, no source)."""


def _turned_in_mm(pattern: Pattern) -> float:
    """How far a lining is turned in at bound edges: half of the binding lies inside, less what is covered of it."""
    if pattern.binding is None:
        return TURNED_IN_MM
    return max(0.5 * pattern.binding.width_mm - OVER_BINDING_MM, OVER_BINDING_MM)


def set_on_layers(pattern: Pattern) -> Iterator[str]:
    """Yield how straps and sleeves are lined that have a lining of their own."""
    pieces = [panel for panel in pattern.panels if is_set_on(panel)]
    if any(LINING in dict(panel.cuts) for panel in pieces) and lining_way(pattern) == FELLED:
        names = phrases.listed([f"{panel.number} ({panel.name})" for panel in pieces if LINING in dict(panel.cuts)])
        several = sum(LINING in dict(panel.cuts) for panel in pieces) > 1
        sleeves = (
            ": but those of sleeves only when they are closed" if any(is_capped(panel) for panel in pieces) else ""
        )
        yield (
            f"Baste {'pieces' if several else 'piece'} {names} on {'their linings' if several else 'its lining'}, edges level, and "
            "sew the two as one. Edges that have an allowance and are sewn to nothing are turned in, both toward each other, and "
            f"felled together{sleeves}."
        )


def stiffened_pieces(pattern: Pattern) -> Iterator[str]:
    """Yield how a loose piece is stiffened that has a strength layer and no bones, as a stomacher."""
    for panel in pattern.panels:
        if panel.loose and STRENGTH in dict(panel.cuts) and not panel.channels:
            yield (
                f"Stiffen the {panel.name} (piece {panel.number}): lay its strength layer, of buckram or of linen pasted double, "
                "between outer cloth and lining, and baste the three together."
            )


def fastened(pattern: Pattern) -> Iterator[str]:
    """Yield what is sewn on to close the garment, other than a lace."""
    if pattern.toile:
        return
    words = {
        "buttons": "Work the buttonholes in the front edge that lies on top and sew the buttons to the other, where they are "
        "marked.",
        "hooks": "Sew the hooks to one edge and eyes to the other, where they are marked.",
        "ties": "Sew the ties on in pairs, where they are marked.",
    }
    if not pattern.lacings and any(one.closed == "lacing" for one in pattern.openings):
        yield "Turn the lacing edges in and work eyelets along them; how many is not planned on these sheets."
    yield from (words[closed] for closed in dict.fromkeys(one.closed for one in pattern.openings) if closed in words)


def skirt_edges(pattern: Pattern) -> list[tuple[Panel, Edge]]:
    """Return the edges at a waist that nothing of this pattern is sewn to: a skirt will be."""
    edges = [one for one in _edges(pattern) if one[1].mate is None and one[0].allowances.get(one[1].name, 0.0) > 0.0]
    found = [one for one in edges if one[1].kind == WAIST]
    hems = [one for one in edges if one[1].kind == HEM]
    if hems and all(float(pattern.block.where(edge.curve.points)[1].min()) > 0.0 for _, edge in hems):
        found += hems
    return found


def skirted(pattern: Pattern) -> Iterator[str]:
    """Yield how a skirt is joined to a bodice that ends at a waist, since none is drawn."""
    if pattern.toile or not skirt_edges(pattern):
        return
    felled = lining_way(pattern) == FELLED
    over = "fell the lining over it" if felled else "overcast it"
    without = "fell it to the lining" if felled else "hem it"
    yield (
        "The waist edge is for a skirt, or for tabs, which are not on these sheets. Hem them; pleat or gather a skirt to the length "
        "of the waist, open where the bodice opens. Lay it on, right side to right side, sew it to the outer cloth along the "
        f"stitch line, turn the allowance up, and {over}. Without a skirt turn the edge in and {without}."
    )


def hemmed(pattern: Pattern) -> Iterator[str]:
    """Yield what is left to do at free edges that have an allowance, and at those that have none and are not bound."""
    if pattern.toile:
        return
    way, at_waist = lining_way(pattern), {edge.name for _, edge in skirt_edges(pattern)}
    kinds = {HEM: "the lower edge", NECKLINE: "the neckline", ARMHOLE: "the armholes"}
    free = {
        kinds[edge.kind]
        for panel, edge in _edges(pattern)
        if edge.kind in kinds and edge.mate is None and panel.allowances.get(edge.name, 0.0) > 0.0
        if way != FELLED and edge.name not in at_waist
    }
    for panel in pattern.panels:
        own = way == FELLED and LINING in dict(panel.cuts)
        if is_set_on(panel) and not own and any(_is_turned(panel, edge) for edge in panel.edges):
            free.add(f"the ends of piece {panel.number} ({panel.name})")
    if free:
        yield f"Turn in and hem by hand {phrases.listed(sorted(free))}, by the allowance that stands there."
    yield from _bare(pattern)


def _is_turned(panel: Panel, edge: Edge) -> bool:
    return edge.kind == HEM and edge.mate is None and panel.allowances.get(edge.name, 0.0) > 0.0


def _bare(pattern: Pattern) -> Iterator[str]:
    """What is bound without the recipe's having planned a binding: edges that are cut on the line itself."""
    if pattern.binding is not None:
        return
    bare = [
        panel
        for panel in sorted(pattern.panels, key=lambda panel: panel.number)
        if not panel.loose and not panel.layer
        for edge in panel.edges
        if edge.mate is None and edge.kind in (TOP, HEM, ARMHOLE, NECKLINE, *(("free",) if panel.added else ()))
        if edge.kind not in OPEN_KINDS and not panel.allowances.get(edge.name, 0.0)
    ]
    if bare:
        numbers = list(dict.fromkeys(panel.number for panel in bare))
        which = f"piece{'s' if len(numbers) > 1 else ''} {phrases.listed(numbers)}"
        closes = ", which closes the channels that end below it" if is_boned(pattern) else ""
        yield f"Bind the edges of {which} that have no allowance with tape or ribbon{closes}."


def _edges(pattern: Pattern) -> Iterator[tuple[Panel, Edge]]:
    """The edges of the drafted pieces, from front to back."""
    for panel in sorted(pattern.panels, key=lambda panel: panel.number):
        if not panel.added and not panel.layer:
            yield from ((panel, edge) for edge in panel.edges)
