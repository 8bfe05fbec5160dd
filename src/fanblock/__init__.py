"""From a few tape measures of one body to a fitted block, and from the block to patterns that can be cut and sewn.

The whole walk, as in a notebook, where the last line shows the pattern as a picture::

    from fanblock import draft_pattern, open_recipe, open_wearer

    wearer = open_wearer("ferrywoman")
    recipe = open_recipe("stays-five-panels")
    draft_pattern(wearer, recipe, {"gap": "4 cm"})

Importing this module does no work: every function loads what it needs when it is called. Whether a pattern fits, only
a toile tells; and it is for costume, not a word about anybody's health.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from fanblock.problems import (
    ExportError,
    FanblockError,
    GeometryError,
    Place,
    Problem,
    RecipeError,
    WearerError,
)
from fanblock.version import __version__

if TYPE_CHECKING:
    from fanblock.block.ruled import Block
    from fanblock.drafted import Drafted
    from fanblock.recipe.model import Recipe
    from fanblock.wearer.body import Body
    from fanblock.wearer.model import Wearer

__all__ = [
    "ExportError",
    "FanblockError",
    "GeometryError",
    "Place",
    "Problem",
    "RecipeError",
    "WearerError",
    "__version__",
    "block_of",
    "body_of",
    "draft_pattern",
    "explained",
    "open_recipe",
    "open_wearer",
    "read_recipe",
    "read_wearer",
    "recipe_ids",
    "wearer_names",
]


def wearer_names() -> tuple[str, ...]:
    """Return the names of the demo wearers, sorted."""
    from fanblock.shipped import wearer_names

    return wearer_names()


def recipe_ids() -> tuple[str, ...]:
    """Return the ids of the recipes that come with fanblock, sorted."""
    from fanblock.shipped import recipe_ids

    return recipe_ids()


def open_wearer(name_or_path: str | Path) -> Wearer:
    """Return a demo wearer by name, or the wearer in the file at a path; WearerError when it cannot be read.

    >>> open_wearer("ferrywoman").overs
    ('shift', 'stays')
    """
    from fanblock.wearer.library import open_wearer

    return open_wearer(str(name_or_path))


def open_recipe(id_or_path: str | Path) -> Recipe:
    """Return a shipped recipe by its id, or the recipe in the file at a path; RecipeError when it cannot be read.

    >>> open_recipe("stays-five-panels").makes
    'stays'
    """
    from fanblock.recipe.library import open_recipe

    return open_recipe(str(id_or_path))


def read_wearer(text: str | bytes, file: str = "wearer.yaml") -> Wearer:
    """Return the wearer that a text holds; ``file`` is its name in messages. Raises WearerError with all problems."""
    from fanblock.wearer.reading import read_wearer

    return read_wearer(text, file)


def read_recipe(text: str | bytes, file: str = "recipe.yaml") -> Recipe:
    """Return the recipe that a text holds; ``file`` is its name in messages. Raises RecipeError with all problems."""
    from fanblock.recipe.reading import read_recipe

    return read_recipe(text, file)


def explained(recipe: Recipe, settings: Mapping[str, str] | None = None) -> str:
    """Return a recipe in full as text, every default filled in, its dials set; RecipeError for a wrong setting."""
    from fanblock.recipe.explain import explained

    return explained(recipe, settings)


def body_of(wearer: Wearer, over: str = "shift") -> Body:
    """Return the wearer's body over one layer (``shift`` or ``stays``), what is missing guessed and said so."""
    from fanblock.wearer.body import body_of

    return body_of(wearer, over)


def block_of(body: Body) -> Block:
    """Return the block of a body: half of it, flat, centre front to centre back, before any garment."""
    from fanblock.block.from_body import block_of

    return block_of(body)


def draft_pattern(
    wearer: Wearer,
    recipe: Recipe,
    settings: Mapping[str, str] | None = None,
    *,
    over: str | None = None,
    draft: int = 1,
    despite: Collection[str] = (),
) -> Drafted:
    """Return the finished, checked pattern of a recipe for a wearer; it shows itself, and has ``save(folder)``.

    ``settings`` turn dials, like ``{"gap": "4 cm"}``. ``over`` chooses the measures over the ``shift`` or the
    ``stays``; left out, the recipe does, and measures over stays that were not taken are predicted. ``draft`` is the number on every piece. ``despite`` names refusals to be overridden:
    ``reduction``, ``turn``, ``waist``. Raises FanblockError's children; a pattern that fails a check comes
    back all the same, with ``sound`` false.

    >>> draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels")).sound
    True
    """
    from fanblock.drafted import Drafted
    from fanblock.make import draft_pattern

    return Drafted.of(draft_pattern(wearer, recipe, settings, over=over, draft=draft, despite=despite))
