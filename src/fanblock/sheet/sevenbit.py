"""Texts and names in 7-bit letters, as old formats for exchange want them: readable still, and the same every time."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from types import MappingProxyType

from fanblock.sheet.writing import plain

LONGEST_NAME = 20
"""Most letters of a name that every reader of pattern files takes (common practice, no source)."""

_SPELT = MappingProxyType(
    {
        "·": "-", "–": "-", "—": "-", "−": "-", "×": "x", "…": "...", "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'",
        "′": "'", "″": '"', "⁄": "/", "°": " deg", "ß": "ss", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "ø": "o",
        "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "ð": "d", "Ð": "D", "þ": "th", "Þ": "TH", "ı": "i",
    }
)  # fmt: skip
"""What has no 7-bit letters of its own behind its marks."""


def seven_bit(text: str) -> str:
    """Return ``text`` on one line in printable 7-bit letters; marks are dropped, what cannot be spelt becomes ``?``.

    Back slashes, carets and doubled per cent signs steer in such files and are put otherwise.

    >>> print(seven_bit("Élise’s stays · 3½ %"), seven_bit("Анна"), seven_bit("a^b 5%%d"))
    Elise's stays - 3 1/2 % ???? a b 5%d
    """
    bare = "".join(_spelt(letter) for letter in plain(text))
    return " ".join(re.sub(r"%%+", "%", bare.replace("\\", "/").replace("^", " ")).split())


def _spelt(letter: str) -> str:
    """One letter in 7-bit letters."""
    if " " <= letter <= "~":
        return letter
    if letter in _SPELT:
        return _SPELT[letter]
    parts = [one for one in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(one)]
    spelt = "".join(one if " " <= one <= "~" else _SPELT.get(one, "?") for one in parts)
    return f" {spelt}" if "⁄" in parts else spelt


def short_name(text: str, fallback: str = "part") -> str:
    """Return a name of at most :data:`LONGEST_NAME` letters, digits, hyphens and low lines, its case as it was.

    >>> short_name("2 side front"), short_name("stays-1770s-four-panels"), short_name("Ж")
    ('2-side-front', 'stays-1770s-four-pan', 'part')
    """
    return re.sub(r"[^A-Za-z0-9_]+", "-", seven_bit(text)).strip("-")[:LONGEST_NAME].strip("-") or fallback


def repeated(names: Iterable[str]) -> tuple[str, ...]:
    """Return the names that stand more than once when large and small letters count alike, each once, in order."""
    seen: set[str] = set()
    found: dict[str, None] = {}
    for name in names:
        if name.lower() in seen:
            found[name] = None
        seen.add(name.lower())
    return tuple(found)
