"""Two drafts compared: what moved is told with its number, and drawn; what is the same is not told."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fanblock.fitting.compare import overlaid, rows
from fanblock.fitting.seen import SeenDraft, open_draft
from fanblock.problems import ExportError
from fanblock.shipped import wearer_text

GARMENT = "garment: 1\nwearer: me.yaml\nrecipe: stays-three-panels\n"


@cache
def _drafts(folder: Path) -> tuple[SeenDraft, SeenDraft]:
    (folder / "me.yaml").write_text(wearer_text("pilot"), encoding="utf-8")
    (folder / "one.yaml").write_text(GARMENT, encoding="utf-8")
    changes = "draft: 2\nchanges:\n  - {take: {seam: side front, at: waist, more: -6 mm}}\n"
    (folder / "two.yaml").write_text(GARMENT + changes, encoding="utf-8")
    return open_draft(str(folder / "one.yaml")), open_draft(str(folder / "two.yaml"))


@pytest.fixture(scope="module")
def drafts(tmp_path_factory: pytest.TempPathFactory) -> tuple[SeenDraft, SeenDraft]:
    """A garment, and the same let out at one seam."""
    return _drafts(tmp_path_factory.mktemp("room"))


def test_what_moved_is_told(drafts: tuple[SeenDraft, SeenDraft]) -> None:
    """The seam lets out 6 mm a half, so the worn waist grows by 12 in all; the bust is as it was and not told."""
    told = {what: by for what, _, _, by in rows(*drafts)}
    assert told["worn waist"].startswith("+")
    assert drafts[1].numbers["worn waist"] - drafts[0].numbers["worn waist"] == pytest.approx(12.0, abs=0.05)
    assert "worn bust" not in told
    assert not any(what.startswith("back,") for what in told)


def test_the_same_draft_has_nothing_to_tell(drafts: tuple[SeenDraft, SeenDraft]) -> None:
    """Against itself nothing moved."""
    assert rows(drafts[0], drafts[0]) == ()


def test_pieces_lie_on_one_another(drafts: tuple[SeenDraft, SeenDraft]) -> None:
    """Each piece is drawn twice, the old one dashed, and of an unchanged piece both lines are one."""
    drawing = overlaid(*drafts)
    groups = {group.name: [item for item in group.items if hasattr(item, "beziers")] for group in drawing.groups}
    pieces = [name for name in groups if name != "heading"]
    assert len(pieces) == len(drafts[1].pieces)
    assert all([stroke.pen for stroke in groups[name]] == ["stitch", "slit"] for name in pieces)
    old, new = groups["3 back"]
    assert np.allclose(old.beziers, new.beziers, atol=0.05)
    for strokes in groups.values():
        for stroke in strokes:
            points = stroke.beziers.reshape(-1, 2)
            assert points.min() > 0.0
            assert (points.max(axis=0) < (drawing.width_mm, drawing.height_mm)).all()


@pytest.mark.parametrize("text", ["{}", "[1]", "no", json.dumps({"schema": "fanblock-pattern/1"})])
def test_what_is_no_draft_is_told(tmp_path: Path, text: str) -> None:
    """A folder without numbers, and numbers that are none of ours."""
    with pytest.raises(ExportError, match=r"holds no pattern\.json\. Name the folder of a draft, or a garment file\."):
        open_draft(str(tmp_path))
    (tmp_path / "pattern.json").write_text(text)
    with pytest.raises(ExportError, match=r"is not the numbers of a draft\. Draw the draft again into a new folder\."):
        open_draft(str(tmp_path))
