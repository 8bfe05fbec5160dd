"""Where the recipe that another is based on comes from: the shelf of shipped recipes, or a file beside it.

``based on`` names a shipped recipe by its id, or a file by its path from the folder of the recipe that says so. The file
lies in that folder or below it; a path that leads anywhere else is refused before anything is opened.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from fanblock.problems import nearest
from fanblock.recipe.phrase import UnreadableError
from fanblock.shipped import recipe_ids, recipe_text
from fanblock.tracing.bare import LARGEST_BYTES as LARGEST_DRAWING
from fanblock.units import shown
from fanblock.yamlfile import LARGEST_BYTES

_ENDINGS = (".yaml", ".yml")
_ELSEWHERE = re.compile(r"[/\\~]|[A-Za-z][A-Za-z0-9+.-]*:")
"""How a path begins that does not go on from where it is written: from the root, a home, a drive, another machine."""


@dataclass(frozen=True, slots=True)
class Base:
    """The text of a recipe that another is based on.

    ``file`` is its name in messages, ``key`` the same for the same recipe however it was named, ``bases`` finds what it
    is based on itself, ``drawings`` the drawings that it names.
    """

    text: str | bytes
    file: str
    key: str
    bases: Bases
    drawings: Drawings = field(default_factory=lambda: no_drawing)


Bases = Callable[[str], Base]
"""Finds a base by what ``based on`` says; raises UnreadableError when there is none."""

Drawings = Callable[[str], tuple[str, bytes]]
"""Finds a drawing by its path: its name in messages, and what is in it; raises UnreadableError when there is none."""


def no_drawing(name: str) -> tuple[str, bytes]:
    """Refuse a drawing: a recipe that lies in no folder of its own can name none."""
    what = f"got {shown(name)}, but this recipe lies in no folder where a drawing could be."
    raise UnreadableError(what, "Save it in a file, in the folder of the drawing.")


def shipped_base(name: str) -> Base:
    """Return the shipped recipe with this id; a recipe read from a text alone has no folder to look in."""
    if name not in recipe_ids():
        raise UnreadableError(f"there is no shipped recipe {shown(name)}.", nearest(name, recipe_ids()))
    return Base(recipe_text(name), f"{name}.yaml", name, shipped_base)


def bases_beside(file: str) -> Bases:
    """Return what finds the bases of the recipe in ``file``: shipped ones by id, others in its folder or below."""

    def found(name: str) -> Base:
        if name in recipe_ids():
            return shipped_base(name)
        try:
            path, text = file_beside(file, name, "recipe", "a shipped recipe")
        except FileNotFoundError:
            raise _not_there(name) from None
        return Base(text, str(path), str(path.resolve()), bases_beside(str(path)), drawings_beside(str(path)))

    return found


def drawings_beside(file: str) -> Drawings:
    """Return what finds the drawings that the recipe in ``file`` names: in its folder or below."""

    def found(name: str) -> tuple[str, bytes]:
        try:
            path, data = file_beside(file, name, "recipe", "", most_bytes=LARGEST_DRAWING, like="my-block.svg")
        except FileNotFoundError:
            raise UnreadableError(f"there is no drawing {shown(name)}.", "Look at its name and folder.") from None
        return str(path), data

    return found


def file_beside(
    file: str, name: str, kind: str, shipped: str, *, most_bytes: int = LARGEST_BYTES, like: str = "my-stays.yaml"
) -> tuple[Path, bytes]:
    """Return the path and the text of a file that ``file``, which is of this kind, names: in its own folder or below.

    One byte more than ``most_bytes`` is read at most; ``like`` is an example of such a file's name. Raises UnreadableError for a path that leads anywhere else or cannot be opened; FileNotFoundError when there is none.
    """
    if _ELSEWHERE.match(name) or "\\" in name:
        what = f"got {shown(name)}, which does not go on from the folder of this {kind}."
        either = f"{shipped}, or " if shipped else ""
        raise UnreadableError(what, f"Name {either}a file in this folder, such as `{like}`.")
    folder = Path(file).parent
    path = folder / name
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            what = f"{shown(name)} lies outside the folder of this {kind}."
            raise UnreadableError(what, "Put both into one folder.")
        if path.exists() and not path.is_file() and not path.is_dir():
            raise UnreadableError(f"{shown(name)} is no plain file.", f"Name a file such as `{like}`.")
        with path.open("rb") as opened:
            return path, opened.read(most_bytes + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise FileNotFoundError(name) from error
    except (OSError, RuntimeError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "its links go round"
        raise UnreadableError(f"the file {shown(name)} cannot be opened ({reason.lower()}).") from None


def _not_there(name: str) -> UnreadableError:
    if "/" in name or name.endswith(_ENDINGS):
        stem = Path(name).stem
        shelf = f"Write `{stem}` for the shipped recipe." if stem in recipe_ids() else ""
        return UnreadableError(f"there is no recipe file {shown(name)}.", shelf or "Look at its name and folder.")
    what = f"there is no shipped recipe {shown(name)}, and no file of that name beside this one."
    return UnreadableError(what, nearest(name, recipe_ids()))
