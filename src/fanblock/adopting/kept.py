"""The draft a drawing was made from, as its folder keeps it: body, block, dials and panels, all from ``pattern.json``.

Every length in that file is rounded to a ten-thousandth of a millimetre and its block is given as two lines, so the block
is taken up again as a traced one: it agrees with the one that was drafted to about a hundredth of a millimetre.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np

from fanblock.block.stand import stand_on
from fanblock.block.traced import TracedBlock, traced_line
from fanblock.draft.model import Draft
from fanblock.geometry.curve import Curve, Points
from fanblock.problems import GeometryError, Problem
from fanblock.units import shown
from fanblock.wearer.body import Body

FILE = "pattern.json"
DRAWING = "pattern.svg"
_SCHEMA = "fanblock-pattern/1"
_LARGEST_BYTES = 40_000_000
"""A larger file is not read: that of the largest recipe has about two million bytes."""

_AGAIN = "Draft it again, and take the drawing from the new folder."


@dataclass(frozen=True, slots=True, eq=False)
class KeptEdge:
    """One edge of a panel as it was drafted, in the block's frame, in loop order."""

    name: str
    kind: str
    curve: Curve


@dataclass(frozen=True, slots=True, eq=False)
class KeptMark:
    """One line drawn on a panel, as it was drafted, in the block's frame."""

    name: str
    kind: str
    curve: Curve


@dataclass(frozen=True, slots=True, eq=False)
class KeptPanel:
    """One panel as it was drafted; ``added`` tells that it was not cut from the block. ``cut`` runs around it and is closed.

    ``rest`` are lines on it that follow from its steps and are never read back: rows of stitching, slits, the grain.
    ``eyelets`` are what its eyelets are called.
    """

    name: str
    number: int
    added: bool
    edges: tuple[KeptEdge, ...]
    levels: Mapping[str, tuple[Curve, ...]]
    cut: Curve | None = None
    marks: tuple[KeptMark, ...] = ()
    rest: tuple[KeptMark, ...] = ()
    eyelets: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """What the piece is called on every sheet."""
        return f"{self.number} {self.name}"

    def loop(self) -> Points:
        """Return its stitch line as one closed run of points, the first not repeated."""
        return np.vstack([edge.curve.points[:-1] for edge in self.edges])


@dataclass(frozen=True, slots=True, eq=False)
class Kept:
    """A draft as its folder keeps it. ``dials`` are numbers: millimetres, or ratios of a measure."""

    wearer: str
    recipe: str
    number: int
    code: str
    dials: Mapping[str, float]
    start: Draft
    panels: tuple[KeptPanel, ...]


def open_kept(folder: str) -> Kept:
    """Return the draft in a folder; GeometryError when there is none or it cannot be understood."""
    path = Path(folder) / FILE
    try:
        with path.open("rb") as file:
            data = file.read(_LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        what = f"there is no draft in {shown(folder)}: it holds no file {FILE} that can be opened."
        remedy = "Name the folder that `fanblock draft` wrote, from which the drawing comes."
        raise GeometryError([Problem("no-draft", "from", what, remedy)]) from error
    try:
        if len(data) > _LARGEST_BYTES:
            raise ValueError
        read = json.loads(data)
        if read["schema"] != _SCHEMA:
            raise ValueError
        if "stands_on" not in read["block"]:
            what = "is a band: it stands on no bust and no waist, so lines drawn on it have no place on other bodies."
            raise GeometryError([Problem("adopt-band", shown(folder), what, "Change its lengths in a recipe.")])
        if read.get("halves"):
            what = "has two halves that are not alike, and a recipe draws one for both."
            remedy = (
                "If a fitting changed one half (`half:` in the garment file): draw a copy of the garment file without the "
                "changes that say `half: left` or `half: right`, and move the lines on that drawing; the changes stay in "
                "your garment. If the wearer's left and right differ: draft the recipe for a wearer with one measure for "
                "both sides."
            )
            raise GeometryError([Problem("adopt-halves", shown(folder), what, remedy)])
        return _kept(read)
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError) as error:
        what = f"{shown(str(path))} is no pattern that this version of fanblock wrote."
        raise GeometryError([Problem("no-draft", "from", what, _AGAIN)]) from error


def _kept(read: Any) -> Kept:
    wearer, recipe, block = read["wearer"], read["recipe"], read["block"]
    side = float(block["side"])
    body = Body(
        name=str(wearer["name"]),
        over=str(wearer["over"]),
        lengths=MappingProxyType({str(name): float(mm) for name, mm in wearer["lengths"].items()}),
        side_ratio=side,
        units=str(wearer["units"]),
    )
    waist, bust = (traced_line(_curve(block["curves"][name])) for name in ("waist", "bust"))
    sheet = TracedBlock(waist, bust, "", side)
    lower, upper = (str(level["girth"]) for level in block["stands_on"])
    start = Draft(body, sheet, stand=stand_on(sheet, body, lower, upper))
    return Kept(
        wearer=body.name,
        recipe=str(recipe["id"]),
        number=int(read["draft"]),
        code=str(read["code"]),
        dials=MappingProxyType({str(name): float(value) for name, value in recipe["dials"].items()}),
        start=start,
        panels=tuple(_panel(panel) for panel in read["panels"]),
    )


def _panel(panel: Any) -> KeptPanel:
    edges = tuple(KeptEdge(str(one["name"]), str(one["kind"]), _curve(one["points"])) for one in panel["edges"])
    levels = {str(name): tuple(_curve(part) for part in parts) for name, parts in panel["levels"].items()}
    ring = panel["cut_line"]
    cut = _curve([*ring, ring[0]]) if ring else None
    marks = tuple(KeptMark(str(one["name"]), str(one["kind"]), _curve(one["points"])) for one in panel["marks"])
    return KeptPanel(
        name=str(panel["name"]),
        number=int(panel["number"]),
        added=bool(panel["added"]),
        edges=edges,
        levels=MappingProxyType(levels),
        cut=cut,
        marks=marks,
        rest=tuple(_rest(panel)),
        eyelets=tuple(f"eyelet {half}{int(one['number'])}" for one in panel["eyelets"] for half in ("", "L", "R")),
    )


def _rest(panel: Any) -> Iterator[KeptMark]:
    """Yield the lines of a panel that follow from its steps, called as its drawing calls them."""
    for channel in panel["channels"]:
        name = str(channel["name"] or f"channel {channel['number']}")
        yield from (KeptMark(name, "channel", _curve(row)) for row in channel["rows"])
    for number, slit in enumerate(panel["slits"], start=1):
        yield KeptMark(f"slit {number}", "slit", _curve(slit))
    if panel["grain"] is not None:
        yield KeptMark("grain", "grain", _curve(panel["grain"]))


def _curve(points: Any) -> Curve:
    array = np.array(points, dtype=np.float64)
    if array.ndim != 2 or array.shape[1] != 2 or len(array) < 2 or not np.all(np.isfinite(array)):
        raise ValueError(points)
    curve = Curve.through(array)
    if len(curve.points) < 2:
        raise ValueError(points)
    return curve
