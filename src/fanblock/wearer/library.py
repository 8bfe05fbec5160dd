"""The wearers at hand: the demo wearers that come with the program, by name, and a person's own files, by path."""

from __future__ import annotations

from pathlib import Path

from fanblock.problems import Problem, WearerError, nearest
from fanblock.shipped import wearer_names, wearer_text
from fanblock.units import shown
from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer
from fanblock.yamlfile import LARGEST_BYTES

_ENDINGS = (".yaml", ".yml")


def open_wearer(name_or_path: str) -> Wearer:
    """Return a demo wearer by name, or the wearer in the file at a path.

    A name is looked up in the list of demo wearers and nowhere else; what is not in that list is the path of
    a file. Raises WearerError when there is neither, or when the file needs the maker's hand.

    >>> open_wearer("ferrywoman").name
    'ferrywoman'
    """
    if name_or_path in wearer_names():
        return read_wearer(wearer_text(name_or_path), f"{name_or_path}.yaml")
    return read_wearer(_file_bytes(name_or_path), name_or_path)


def _file_bytes(typed: str) -> bytes:
    try:
        with Path(typed).open("rb") as file:
            return file.read(LARGEST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise _not_there(typed) from error
    except (OSError, ValueError) as error:
        folder = isinstance(error, IsADirectoryError) or Path(typed).is_dir()
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        what = f"the wearer {shown(typed)} cannot be opened ({'it is a folder' if folder else reason.lower()})."
        remedy = "Name a wearer file, or one of the demo wearers."
        raise WearerError([Problem("wearer-unreadable", "", what, remedy)]) from error


def _not_there(typed: str) -> WearerError:
    looks_like_path = "/" in typed or "\\" in typed or typed.endswith(_ENDINGS)
    if looks_like_path:
        stem = Path(typed).stem
        remedy = (
            f"Write `{stem}` for the demo wearer."
            if stem in wearer_names()
            else "Look at its name and folder, or begin one with `fanblock new wearer`."
        )
        return WearerError([Problem("no-wearer", "", f"there is no wearer file {shown(typed)}.", remedy)])
    what = f"there is no demo wearer {shown(typed)}, and no file of that name."
    return WearerError([Problem("no-wearer", "", what, nearest(typed, wearer_names()))])
