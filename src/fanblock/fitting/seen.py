"""A draft as its numbers tell it: read back from a folder, or drawn anew from a garment file."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np

from fanblock.fitting.effects import MIDDLE
from fanblock.garment.keeping import PATTERN_FILE
from fanblock.garment.library import draft_garment, open_garment
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import area_mm2
from fanblock.pattern.model import NECKLINE
from fanblock.pattern.model import TOP as TOP_KIND
from fanblock.problems import ExportError, Problem
from fanblock.sheet.json import SCHEMA, pattern_data
from fanblock.tolerances import SAME_HEIGHT
from fanblock.wearer.model import HALVES, LEFT, RIGHT

LARGEST_BYTES = 50_000_000
"""A pattern of a hundred pieces is a tenth of this."""


@dataclass(frozen=True, slots=True, eq=False)
class SeenPiece:
    """One piece: its stitch line, the length of each edge, and what it is set upright and laid over another by.

    ``waist`` holds the ends of its waist line, empty where it has none; ``grain`` its grain line.
    """

    name: str
    number: int
    ring: Points
    edges: Mapping[str, float]
    waist: Points
    grain: Points

    @property
    def area_mm2(self) -> float:
        """Area within the stitch line."""
        return abs(area_mm2(self.ring))


@dataclass(frozen=True, slots=True, eq=False)
class SeenDraft:
    """One draft: what it is called, its pieces by name, the numbers of the whole garment, and those of either half.

    ``halves`` has left and right, the same twice where both are alike.
    """

    title: str
    units: str
    pieces: Mapping[str, SeenPiece]
    numbers: Mapping[str, float]
    halves: Mapping[str, tuple[float, float]] = field(default_factory=lambda: MappingProxyType({}))


def open_draft(path: str) -> SeenDraft:
    """Return the draft in a folder, or the draft that a garment file is at; ExportError when there is none."""
    if Path(path).is_dir():
        return _read(Path(path) / PATTERN_FILE)
    if Path(path).name == PATTERN_FILE:
        return _read(Path(path))
    return _seen(pattern_data(draft_garment(open_garment(path))), path)


def _read(path: Path) -> SeenDraft:
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise ValueError("too large")
        data = json.loads(path.read_text(encoding="utf-8"))
        if data["schema"] != SCHEMA:
            raise ValueError("another schema")
        return _seen(data, str(path))
    except FileNotFoundError:
        what = f"there is no draft in “{path.parent}”: it holds no {path.name}."
        raise ExportError([Problem("no-draft", "", what, "Name the folder of a draft, or a garment file.")]) from None
    except (OSError, ValueError, KeyError, TypeError, IndexError):
        what = f"“{path}” is not the numbers of a draft."
        raise ExportError([Problem("draft-unreadable", "", what, "Draw the draft again into a new folder.")]) from None


def _seen(data: Mapping[str, Any], path: str) -> SeenDraft:
    pieces = {panel["name"]: _piece(panel) for panel in data["panels"]}
    numbers = {"gap": float(data["gap"]["nominal"])}
    told = _girths(data)
    numbers |= {f"worn {name}": left + right for name, (left, right) in told.items()}
    title = f"{data['recipe']['name']}, draft {data['draft']}, code {data['code']}"
    return SeenDraft(
        title, str(data["wearer"]["units"]), MappingProxyType(pieces), MappingProxyType(numbers), _of_halves(data, told)
    )


def _girths(data: Mapping[str, Any]) -> dict[str, tuple[float, float]]:
    """What the garment measures, gap and open parts included, at the girths that were measured and half way between the
    two it stands on: left and right."""
    ends = [float(level["height"]) for level in data["block"].get("stands_on", ())]
    middle = 0.5 * sum(ends) if ends else math.inf
    found: dict[str, dict[str, float]] = {}
    for girth in data["girths"]:
        half = float(girth["block"]) - float(girth["takes_total"]) + sum(map(float, girth["let_in"].values()))
        name = MIDDLE if abs(float(girth["height"]) - middle) < SAME_HEIGHT else str(girth["level"])
        if girth["body"] or name == MIDDLE:
            sides = HALVES if girth.get("half", "") not in HALVES else (girth["half"],)
            found.setdefault(name, {}).update(dict.fromkeys(sides, half))
    return {name: (both[LEFT], both[RIGHT]) for name, both in found.items()}


def _of_halves(data: Mapping[str, Any], girths: Mapping[str, tuple[float, float]]) -> Mapping[str, tuple[float, float]]:
    """The girths of either half, and how long its top edge and its neckline are."""
    found = dict(girths)
    for name, kind in (("top edge", TOP_KIND), ("neckline", NECKLINE)):
        both = dict.fromkeys(HALVES, 0.0)
        for panel in data["panels"]:
            long = sum(float(edge["length"]) for edge in panel["edges"] if edge["kind"] == kind)
            if panel["added"] or not long:
                continue
            own = panel.get("half")
            for half in (own,) if own in HALVES else HALVES:
                whole = 0.5 if own not in HALVES and data["half"].startswith("both") else 1.0
                both[half] += whole * long
        if any(both.values()):
            found[name] = (both[LEFT], both[RIGHT])
    return MappingProxyType(found)


def _piece(panel: Mapping[str, Any]) -> SeenPiece:
    ring = np.vstack([np.array(edge["points"], dtype=np.float64)[:-1] for edge in panel["edges"]])
    waist = panel["levels"].get("waist") or []
    ends = [waist[0][0], waist[-1][-1]] if waist else []
    grain = panel["grain"] or [ring.min(axis=0).tolist(), [float(ring[:, 0].min()), float(ring[:, 1].max())]]
    return SeenPiece(
        name=str(panel["name"]),
        number=int(panel["number"]),
        ring=frozen(ring),
        edges=MappingProxyType({str(edge["name"]): float(edge["length"]) for edge in panel["edges"]}),
        waist=frozen(np.array(ends, dtype=np.float64).reshape(-1, 2)),
        grain=frozen(np.array(grain, dtype=np.float64)),
    )
