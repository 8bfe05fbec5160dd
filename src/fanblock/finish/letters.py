"""Letters for seams: in order from the front, none that looks like another or reads the same upside down."""

from __future__ import annotations

from collections.abc import Sequence

from fanblock.draft.model import SeamLine
from fanblock.draft.work import SeamRecord

LETTERS = "ABCDEFGJKLPRTY"
"""H I M N O Q S U V W X Z are left out: they survive being turned, or look alike on cloth (common practice, no source)."""


def letter(number: int) -> str:
    """Return the letter of the ``number``-th seam from the front, counted from 1; after Y come AA, BB and so on.

    >>> letter(1), letter(8), letter(15)
    ('A', 'J', 'AA')
    """
    return LETTERS[(number - 1) % len(LETTERS)] * ((number - 1) // len(LETTERS) + 1)


def letters(lines: Sequence[SeamLine], records: Sequence[SeamRecord]) -> dict[tuple[str, str], str]:
    """Return every seam edge's letter by the names of its panel and itself.

    Seams that run from edge to edge get capitals from front to back; one that ends on another seam gets that one's
    letter in lower case with a number.
    """
    by_line = sorted({record.line: record.number for record in records}.items(), key=lambda item: item[1])
    hosts = {name: "" for name, _ in by_line} | {line.name: next(iter(line.hosts), "") for line in lines}
    given: dict[str, str] = {}
    for name in [name for name, _ in by_line if not hosts[name]]:
        given[name] = letter(len(given) + 1)
    counts: dict[str, int] = {}
    for name in [name for name, _ in by_line if hosts[name]]:
        host = given[_root(name, hosts)].lower()
        counts[host] = counts.get(host, 0) + 1
        given[name] = f"{host}{counts[host]}"
    return {place: given[record.line] for record in records for place in (record.front, record.back)}


def _root(name: str, hosts: dict[str, str]) -> str:
    while hosts[name]:
        name = hosts[name]
    return name
