"""``pattern.svg`` opened and saved by a general vector editor keeps its names and its lengths.

The editor is Debian's inkscape, where it is installed; the saved file is read by svgelements.
"""

from __future__ import annotations

import io
import os
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pytest
import svgelements
from tests.sheet.real import drafted

from fanblock.sheet.svg import write_svg
from fanblock.sheet.views import Views
from fanblock.tolerances import READ_BACK_MM

EDITOR = shutil.which("inkscape")
PX_PER_MM = 96.0 / 25.4
LONGEST_S = 120

pytestmark = pytest.mark.skipif(EDITOR is None, reason="inkscape is not installed")


def saved(text: str, folder: Path) -> str:
    """The file as the editor writes it again, without what is its own."""
    before, after = folder / "pattern.svg", folder / "saved.svg"
    before.write_text(text, "utf-8")
    home = {**os.environ, "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "XDG_CACHE_HOME": str(folder)}
    command = [str(EDITOR), "--export-plain-svg", f"--export-filename={after}", str(before)]
    subprocess.run(command, check=True, capture_output=True, timeout=LONGEST_S, env=home)
    return after.read_text("utf-8")


def paths(text: str) -> Mapping[str, svgelements.Path]:
    """The named paths of a file, in pixels of 1/96 in."""
    drawn = svgelements.SVG.parse(io.StringIO(text), ppi=96)
    found = drawn.select(lambda one: isinstance(one, svgelements.Path) and one.id)
    return {str(one.id): one for one in found}


def followed(path: svgelements.Path) -> np.ndarray:
    """Points along a path, in millimetres, the same number for every segment: ends, and three between."""
    points = []
    for segment in path:
        if isinstance(segment, svgelements.Move):
            continue
        points += [segment.point(share) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    return np.array([(point.x, point.y) for point in points]) / PX_PER_MM


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """The file as it is written, and as the editor saves it."""
    text = write_svg(Views(drafted("ferrywoman", "stays-five-panels")).flat)
    return text, saved(text, tmp_path_factory.mktemp("editor"))


def test_names_are_kept(both: tuple[str, str]) -> None:
    """Every id, every name and every title of a piece comes back."""
    before, after = (paths(text) for text in both)
    assert len(before) > 50
    assert [name for name in after if name in before] == list(before)
    for name, one in before.items():
        assert after[name].values["data-name"] == one.values["data-name"]
    for text in both:
        assert "<title" in text
        assert 'id="n3-side"' in text


def test_places_and_lengths_are_kept(both: tuple[str, str]) -> None:
    """Every path lies where it lay and is as long as it was, within a hundredth of a millimetre."""
    before, after = (paths(text) for text in both)
    for name, path in before.items():
        first, second = followed(path), followed(after[name])
        assert first.shape == second.shape, name
        assert np.abs(first - second).max() <= READ_BACK_MM, name
        lengths = [float(np.hypot(*np.diff(run, axis=0).T).sum()) for run in (first, second)]
        assert lengths[0] == pytest.approx(lengths[1], abs=READ_BACK_MM), name


def test_the_sheet_keeps_its_size(both: tuple[str, str]) -> None:
    """Width and height are the same in millimetres, so that it prints as large as before."""
    sizes = [svgelements.SVG.parse(io.StringIO(text), ppi=96) for text in both]
    assert float(sizes[0].width) == pytest.approx(float(sizes[1].width), abs=READ_BACK_MM * PX_PER_MM)
    assert float(sizes[0].height) == pytest.approx(float(sizes[1].height), abs=READ_BACK_MM * PX_PER_MM)


def test_words_are_kept(both: tuple[str, str]) -> None:
    """Every word that stands on the sheet is still text."""
    said = []
    for text in both:
        found = svgelements.SVG.parse(io.StringIO(text), ppi=96).select(lambda one: isinstance(one, svgelements.Text))
        said.append([one.text for one in found])
    assert said[0] == said[1]
    assert "side back" in said[0]
