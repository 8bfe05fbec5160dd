"""Letters for seams: in order from the front, none that looks like another or reads the same upside down."""

from __future__ import annotations

from collections.abc import Sequence

from fanblock.draft.model import LevelSeam, SeamLine
from fanblock.draft.work import SeamRecord

LETTERS = "ABCDEFGJKLPRTY"
"""H I M N O Q S U V W X Z are left out: they survive being turned, or look alike on cloth (common practice, no source)."""


def letter(number: int) -> str:
    """Return the letter of the ``number``-th seam from the front, counted from 1; after Y come AA, BB and so on.

    >>> letter(1), letter(8), letter(15)
    ('A', 'J', 'AA')
    """
    return LETTERS[(number - 1) % len(LETTERS)] * ((number - 1) // len(LETTERS) + 1)


def letters(lines: Sequence[SeamLine | LevelSeam], records: Sequence[SeamRecord]) -> dict[tuple[str, str], str]:
    """Return every seam edge's letter by the names of its panel and itself.

    Seams that run from edge to edge get capitals in the order of their numbers, each part of one that level seams cut its
    own; one that ends on another seam gets that one's letter in lower case with a number.
    """
    numbers = {(record.line, record.part): record.number for record in records}
    parts = sorted(numbers, key=numbers.__getitem__)
    sewn = {name for name, _ in parts}
    hosts = dict.fromkeys(sewn, "")
    hosts |= {line.name: next((host for host in line.hosts if host in sewn), "") for line in lines if line.name in sewn}
    given: dict[tuple[str, str], str] = {}
    for part in [part for part in parts if not hosts[part[0]]]:
        given[part] = letter(len(given) + 1)
    counts: dict[str, int] = {}
    for part in [part for part in parts if hosts[part[0]]]:
        root = _root(part[0], hosts)
        host = given[next(each for each in parts if each[0] == root)].lower()
        counts[host] = counts.get(host, 0) + 1
        given[part] = f"{host}{counts[host]}"
    return {place: given[record.line, record.part] for record in records for place in (record.front, record.back)}


def _root(name: str, hosts: dict[str, str]) -> str:
    while hosts[name]:
        name = hosts[name]
    return name
