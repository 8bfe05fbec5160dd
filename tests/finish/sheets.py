"""A plain sheet of cloth to lay channels on, so that places and lengths can be worked out by hand."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

from tests.samples import GAP, HEM, THREE, TOP, recipe, side_back, side_front, worked

from fanblock.draft.plans import BESIDE, FAN, PARALLEL, ChannelPlan, Clear
from fanblock.draft.work import Work
from fanblock.finish.clearing import Ground, ground_of
from fanblock.finish.laying import Laid, laid
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.bones import Bone, Channel
from fanblock.pattern.model import CENTER, LACING, SEAM, Edge, Panel, Slit
from fanblock.pattern.model import HEM as HEM_KIND
from fanblock.pattern.model import TOP as TOP_KIND

WIDE, HIGH, WAIST = 100.0, 300.0, 100.0
CLEAR = Clear(10.0, 12.0, 6.0, 12.7, 6.0, 6.0)
SIX = Bone(6.0, 1.5, "synthetic whalebone")


def sheet(wide: float = WIDE, high: float = HIGH, *, waist: float | None = WAIST, left: str = CENTER, right: str = SEAM,
          slits: tuple[float, ...] = (), top_wide: float | None = None) -> Panel:  # fmt: skip
    """Return a sheet, ``wide`` below and ``top_wide`` above, its front side upright at x = 0, slit below the waist."""
    corners = [[0.0, 0.0], [wide, 0.0], [top_wide or wide, high], [0.0, high], [0.0, 0.0]]
    names = (("hem", HEM_KIND), ("back side", right), ("top edge", TOP_KIND), ("front side", left))
    edges = tuple(
        Edge(name, kind, Curve(frozen([start, end])))
        for (name, kind), start, end in zip(names, corners, corners[1:], strict=False)
    )
    levels = {} if waist is None else {"waist": (Curve(frozen([[0.0, waist], [wide, waist]])),)}
    cuts = tuple(Slit(frozen([x, waist]), frozen([x, 0.0])) for x in slits)
    grain = (frozen([0.5 * wide, 20.0]), frozen([0.5 * wide, high - 20.0]))
    return Panel("sheet", 1, edges, MappingProxyType(levels), cuts, grain, added=True)


def plan(way: str = PARALLEL, *edges: str, **options: Any) -> ChannelPlan:
    """Return a plan for the sheet."""
    given = {"bone": SIX, "play_mm": 2.0, "clear": CLEAR, **options}
    return ChannelPlan(panel="sheet", way=way, edges=edges or ("front side",), **given)


def work() -> Work:
    """Return a work to have a block and a body; the sheet is not a panel of it."""
    return worked(recipe(GAP, TOP, HEM, side_front(), side_back(), THREE))


WORK = work()


def ground(panel: Panel) -> Ground:
    """Return the ground of a sheet."""
    return ground_of(WORK, panel)


def lay(panel: Panel, wanted: ChannelPlan) -> Laid:
    """Return the channels laid on a sheet."""
    return laid(WORK, ground(panel), wanted)


def middles(channels: tuple[Channel, ...]) -> list[float]:
    """Return where upright channels stand, from the front side."""
    return sorted(float(channel.line.start[0]) for channel in channels)


__all__ = ["BESIDE", "CLEAR", "FAN", "HIGH", "LACING", "PARALLEL", "SIX", "WAIST", "WIDE", "WORK", "ground", "lay",
           "middles", "plan", "sheet"]  # fmt: skip
