"""Bones, eyelets and binding as a recipe planned them, laid on the finished panels.

Eyelets come first, then the busk, then bones beside the eyelets, then all other bones in the recipe's order: each keeps
clear of those before it. Curved bones lie across the inside and keep clear of nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

from fanblock.draft.plans import BESIDE, BuskPlan, ChannelPlan, EyeletPlan, ShapingPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import Ground, ground_of
from fanblock.finish.eyeleting import eyeleted
from fanblock.finish.layer import Laid
from fanblock.finish.laying import laid
from fanblock.finish.stiffening import busked, shaped
from fanblock.pattern.bones import BONE, Binding, Channel, Lacing
from fanblock.pattern.model import Note, Panel

LEFT_OUT = "bones"
"""The kind of note that tells which bones found no place."""


@dataclass(frozen=True, slots=True, eq=False)
class Boned:
    """Panels with their channels and eyelets, how each opening is laced, what binds the edges, and what was left out."""

    panels: tuple[Panel, ...]
    lacings: tuple[Lacing, ...] = ()
    binding: Binding | None = None
    notes: tuple[Note, ...] = ()


def boned(work: Work) -> Boned:
    """Return the panels of a work, whose grain and notches are known, with all that its plans ask for.

    GeometryError when an eyelet row, a busk or a curved bone does not fit; a straight bone that does not is left out and
    told in a note.
    """
    if not work.plans:
        return Boned(work.panels)
    names = {name for plan in work.plans for name in _panels_of(work, plan)}
    grounds = {panel.name: ground_of(work, panel) for panel in work.panels if panel.name in names}
    grounds, lacings = _with_eyelets(work, grounds)
    for busk in _only(work, BuskPlan):
        grounds[busk.panel] = busked(grounds[busk.panel], busk)
    notes = []
    channels = sorted(_only(work, ChannelPlan), key=lambda plan: plan.way != BESIDE)
    for plan in channels:
        found = laid(work, grounds[plan.panel], plan)
        grounds[plan.panel] = grounds[plan.panel].with_channels(found.channels)
        notes += list(_notes(grounds[plan.panel].panel, found))
    first = 1
    for shaping in _only(work, ShapingPlan):
        grounds = shaped(work, grounds, shaping, first)
        first += shaping.count
    panels = tuple(_numbered(grounds[panel.name]) if panel.name in grounds else panel for panel in work.panels)
    binding = next(iter(_only(work, Binding)), None)
    return Boned(panels, lacings, binding, tuple(notes))


Kind = TypeVar("Kind")


def _only(work: Work, kind: type[Kind]) -> list[Kind]:
    return [plan for plan in work.plans if isinstance(plan, kind)]


def _panels_of(work: Work, plan: object) -> Iterable[str]:
    match plan:
        case ChannelPlan(panel=name) | BuskPlan(panel=name):
            return (name,)
        case ShapingPlan(panels=names):
            return names
        case EyeletPlan(edge=edge):
            return [panel.name for panel in work.panels if any(one.name == edge for one in panel.edges)]
        case _:
            return ()


def _with_eyelets(work: Work, grounds: dict[str, Ground]) -> tuple[dict[str, Ground], tuple[Lacing, ...]]:
    lacings = []
    for plan in _only(work, EyeletPlan):
        names = list(_panels_of(work, plan))
        made, lacing = eyeleted(work, [grounds[name] for name in names], plan)
        grounds.update(zip(names, made, strict=True))
        lacings.append(lacing)
    return grounds, tuple(lacings)


def _notes(panel: Panel, found: Laid) -> Iterator[Note]:
    whole = sum(count for count, _ in found.left_out) + len(found.channels)
    for count, why in found.left_out:
        bones = f"{count} of {whole} bones is left out" if count == 1 else f"{count} of {whole} bones are left out"
        yield Note(LEFT_OUT, f"On piece {panel.number} ({panel.name}) {bones}: {why}.")


def _numbered(ground: Ground) -> Panel:
    """Return the panel with its straight bones in order from the front side and numbered so; busk and curved ones last."""

    def from_front(channel: Channel) -> float:
        return float((channel.line.start + channel.line.end) @ ground.back)

    straight = sorted((one for one in ground.panel.channels if one.kind == BONE), key=from_front)
    others = [one for one in ground.panel.channels if one.kind != BONE]
    numbered = [replace(channel, number=number) for number, channel in enumerate(straight, start=1)]
    eyelets = sorted(ground.panel.eyelets, key=lambda eyelet: (eyelet.edge, eyelet.at_mm, eyelet.half))
    return replace(ground.panel, channels=(*numbered, *others), eyelets=tuple(eyelets))
