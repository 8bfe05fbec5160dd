"""A person's own file, opened by the path they typed; what is not there is told with the names that were near."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fanblock.problems import FanblockError, Problem, nearest
from fanblock.units import shown
from fanblock.yamlfile import LARGEST_BYTES

_ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class Shelf:
    """A kind of file (``wearer``, ``recipe``), what its kind that comes with the program is called (``demo wearer``), the
    names of those, how one begins a file of one's own, and the error to raise.
    """

    kind: str
    ready: str
    names: Sequence[str]
    begin: str
    error: type[FanblockError]


def own_bytes(typed: str, shelf: Shelf) -> bytes:
    """Return what is in the file at the path typed, one byte more than is allowed at most.

    Raises the shelf's error when there is no such file or it cannot be opened.
    """
    try:
        with Path(typed).open("rb") as file:
            return file.read(LARGEST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise _not_there(typed, shelf) from error
    except (OSError, ValueError) as error:
        folder = isinstance(error, IsADirectoryError) or Path(typed).is_dir()
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        what = f"the {shelf.kind} {shown(typed)} cannot be opened ({'it is a folder' if folder else reason.lower()})."
        remedy = f"Name a {shelf.kind} file, or one of the {shelf.ready}s."
        raise shelf.error([Problem(f"{shelf.kind}-unreadable", "", what, remedy)]) from error


def _not_there(typed: str, shelf: Shelf) -> FanblockError:
    if "/" in typed or "\\" in typed or typed.endswith(_ENDINGS):
        stem = Path(typed).stem
        remedy = f"Write `{stem}` for the {shelf.ready}." if stem in shelf.names else shelf.begin
        return shelf.error([Problem(f"no-{shelf.kind}", "", f"there is no {shelf.kind} file {shown(typed)}.", remedy)])
    what = f"there is no {shelf.ready} {shown(typed)}, and no file of that name."
    return shelf.error([Problem(f"no-{shelf.kind}", "", what, nearest(typed, shelf.names))])
