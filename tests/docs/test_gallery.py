"""The gallery is what the program draws today."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image
from tests.docs.pages import ROOT

from fanblock.gallery import SECOND, Exhibit, exhibits, main
from fanblock.shipped import recipe_ids

GALLERY = ROOT / "gallery"
NAMES = tuple(name for recipe_id in recipe_ids() for name in (recipe_id, f"{recipe_id}-{SECOND}"))
WIDEST_PX = 1200
MEAN_STEPS, FAR_STEPS, FAR_SHARE = 0.5, 48, 0.004
"""Of 255 steps of light: how far the pictures may differ on average, and what part of their points by more than a little."""


@pytest.fixture(scope="module")
def shown() -> dict[str, Exhibit]:
    """All exhibits, by the names of their files."""
    return {one.name: one for one in exhibits()}


def test_every_recipe_hangs_in_the_gallery_and_nothing_else() -> None:
    """A picture and a table for every shipped recipe on both wearers."""
    wanted = {f"{name}.{ending}" for name in NAMES for ending in ("png", "txt")}
    assert {path.name for path in GALLERY.iterdir()} == wanted, "run: python -m fanblock.gallery"


@pytest.mark.parametrize("name", NAMES)
def test_tables_are_up_to_date(name: str, shown: dict[str, Exhibit]) -> None:
    """A table is, letter for letter, what is found today."""
    assert (GALLERY / f"{name}.txt").read_text(encoding="utf-8") == shown[name].text


@pytest.mark.parametrize("name", NAMES)
def test_pictures_are_up_to_date(name: str, shown: dict[str, Exhibit]) -> None:
    """A picture is what is drawn today, but for a little at the edges of its lines."""
    kept = pixels((GALLERY / f"{name}.png").read_bytes())
    drawn = pixels(shown[name].png)
    assert kept.shape == drawn.shape
    assert kept.shape[1] <= WIDEST_PX
    apart = np.abs(kept - drawn)
    assert apart.mean() <= MEAN_STEPS
    assert (apart > FAR_STEPS).mean() <= FAR_SHARE


def test_the_command_writes_the_gallery(tmp_path: object) -> None:
    """The one command writes a picture and a table for every recipe into the folder it is given."""
    folder = ROOT.__class__(str(tmp_path)) / "hung"
    assert main([str(folder)]) == 0
    assert len(list(folder.iterdir())) == 2 * len(NAMES)


def pixels(png: bytes) -> np.ndarray:
    """A picture as numbers."""
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=float)
