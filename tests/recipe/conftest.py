"""The sample recipe that the recipe tests read, change and break."""

from __future__ import annotations

from pathlib import Path

import pytest

from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe

SAMPLES = Path(__file__).parent / "samples"


@pytest.fixture(scope="session")
def trial_text() -> str:
    """The text of the sample recipe."""
    return (SAMPLES / "trial-stays.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def trial(trial_text: str) -> Recipe:
    """The sample recipe, read."""
    return read_recipe(trial_text, "trial-stays.yaml")
