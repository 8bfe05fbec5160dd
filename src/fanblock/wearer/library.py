"""The wearers at hand: the demo wearers that come with the program, by name, and a person's own files, by path."""

from __future__ import annotations

from fanblock.ownfile import Shelf, own_bytes
from fanblock.problems import WearerError
from fanblock.shipped import wearer_names, wearer_text
from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer


def open_wearer(name_or_path: str) -> Wearer:
    """Return a demo wearer by name, or the wearer in the file at a path.

    A name is looked up in the list of demo wearers and nowhere else; what is not in that list is the path of
    a file. Raises WearerError when there is neither, or when the file needs the maker's hand.

    >>> open_wearer("ferrywoman").name
    'ferrywoman'
    """
    if name_or_path in wearer_names():
        return read_wearer(wearer_text(name_or_path), f"{name_or_path}.yaml")
    return read_wearer(own_bytes(name_or_path, _shelf()), name_or_path)


def _shelf() -> Shelf:
    begin = "Look at its name and folder, or begin one with `fanblock new wearer`."
    return Shelf("wearer", "demo wearer", wearer_names(), begin, WearerError)
