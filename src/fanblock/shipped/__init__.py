"""The demo wearers and the recipes that come with fanblock, by name, wherever it is installed.

The wearers lie beside this module. The recipes lie beside it too in an installed copy, and in ``recipes/``
at the top of a checkout. A name is only ever looked up in the list of what is there; it never becomes a
path.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from fanblock.problems import FanblockError, Problem, RecipeError, WearerError, nearest

_ENDING = ".yaml"


def wearer_names() -> tuple[str, ...]:
    """Return the names of the demo wearers, sorted."""
    return tuple(_listed(_wearers()))


def wearer_text(name: str) -> str:
    """Return the file text of a demo wearer; raises WearerError with the nearest names if there is none."""
    return _text(name, _wearers(), "wearer", WearerError)


def recipe_ids() -> tuple[str, ...]:
    """Return the ids of the shipped recipes (file names without their ending), sorted."""
    return tuple(_listed(_recipes()))


def recipe_text(recipe_id: str) -> str:
    """Return the file text of a shipped recipe; raises RecipeError with the nearest ids if there is none."""
    return _text(recipe_id, _recipes(), "recipe", RecipeError)


def _wearers() -> Traversable | None:
    return files(__name__) / "wearers"


def _recipes() -> Traversable | None:
    installed = files(__name__) / "recipes"
    if installed.is_dir():
        return installed
    checkout = Path(__file__).resolve().parents[3]
    return checkout / "recipes" if (checkout / "pyproject.toml").is_file() else None


def _listed(folder: Traversable | None) -> Mapping[str, Traversable]:
    if folder is None or not folder.is_dir():
        return {}
    found = {entry.name: entry for entry in folder.iterdir() if entry.name.endswith(_ENDING)}
    return {name.removesuffix(_ENDING): found[name] for name in sorted(found)}


def _text(name: str, folder: Traversable | None, kind: str, error: type[FanblockError]) -> str:
    there = _listed(folder)
    if name not in there:
        says = f"there is no shipped {kind} called “{name}”."
        raise error([Problem(f"no-{kind}", "", says, nearest(name, there))])
    return there[name].read_text(encoding="utf-8")
