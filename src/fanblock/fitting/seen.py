"""A draft as its numbers tell it: read back from a folder, or drawn anew from a garment file."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np

from fanblock.garment.keeping import PATTERN_FILE
from fanblock.garment.library import draft_garment, open_garment
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import area_mm2
from fanblock.problems import ExportError, Problem
from fanblock.sheet.json import SCHEMA, pattern_data

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
    """One draft: what it is called, its pieces by name, and the numbers of the whole garment."""

    title: str
    units: str
    pieces: Mapping[str, SeenPiece]
    numbers: Mapping[str, float]


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
    numbers |= {f"worn {girth['level']}": float(girth["finished"]) for girth in data["girths"] if girth["body"]}
    title = f"{data['recipe']['name']}, draft {data['draft']}, code {data['code']}"
    return SeenDraft(title, str(data["wearer"]["units"]), MappingProxyType(pieces), MappingProxyType(numbers))


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
