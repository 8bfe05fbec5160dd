"""How numbers, texts and names are written in files: the same value gives the same characters everywhere."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

_MINUS_ZERO = "-0.0000"
_NOT_WRITABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def number(value: float) -> str:
    """Return ``value`` with four decimals, without exponent and without minus zero.

    A ten-thousandth of a millimetre is far under :data:`fanblock.tolerances.READ_BACK_MM`.

    >>> number(25.4), number(-0.00001)
    ('25.4000', '0.0000')
    """
    return numbers((value,))


def numbers(values: Iterable[float]) -> str:
    """Return ``values`` as :func:`number` writes them, a space between."""
    text = " ".join([f"{value:.4f}" for value in values])
    return text.replace(_MINUS_ZERO, _MINUS_ZERO[1:]) if _MINUS_ZERO in text else text


def plain(text: str) -> str:
    """Return ``text`` as one line of composed characters that every file format takes.

    Characters that steer (line breaks, bells, direction marks) become spaces and runs of spaces become one.
    """
    if text.isprintable():
        return " ".join(unicodedata.normalize("NFC", text).split())
    composed = unicodedata.normalize("NFC", _NOT_WRITABLE.sub(" ", text))
    kept = "".join(" " if unicodedata.category(one) in ("Cc", "Cf", "Zl", "Zp") else one for one in composed)
    return " ".join(kept.split())


def identifier(name: str, taken: set[str]) -> str:
    """Return an id made from ``name``: small letters, digits and hyphens, beginning with a letter; add it
    to ``taken``.

    A name that gives an id already taken gets the next free number behind it.

    >>> ids = set()
    >>> identifier("3 · Side front", ids), identifier("3 side FRONT", ids)
    ('n3-side-front', 'n3-side-front-2')
    """
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    base = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:60] or "part"
    if base[0].isdigit():
        base = f"n{base}"
    found, count = base, 1
    while found in taken:
        count += 1
        found = f"{base}-{count}"
    taken.add(found)
    return found
