"""The small grammar under a recipe's amounts, heights and arounds: words, numbers, percentages and signs.

A *vocabulary* is what a recipe may speak of: its dials and seams, the measures there are, and the unit of a
bare number if the recipe states one.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass

from fanblock.units import shown

NUMBER = r"(?:[0-9]{1,6}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})"
"""A plain decimal number, as text of a regular expression; no exponent, no sign."""

_PERCENT = re.compile(rf"({NUMBER})\s*%(?:\s+of\s+)?")
_OF = re.compile(rf"{NUMBER}\s*%\s+of\s+")
_SIGN = re.compile(r"\s*([+-])\s*")
LONGEST_NAME = 40
"""Most letters a name of a dial, seam or panel may have: it has to fit on the piece."""

NAME_REMEDY = f"Begin with a letter; use letters, digits, blanks and hyphens, at most {LONGEST_NAME}."
"""What a name may be made of."""

_MOST_PERCENT = 1000.0


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The names a recipe's texts may use, and the unit of a bare number (empty when there is none).

    ``seams`` are upright seams, which may stand for an around, and ``levels`` level ones, which may stand for a height.
    """

    units: str = ""
    dials: tuple[str, ...] = ()
    seams: tuple[str, ...] = ()
    levels: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


class UnreadableError(ValueError):
    """A text that says nothing legal: ``what`` tells what was met and needed, ``remedy`` what to do."""

    def __init__(self, what: str, remedy: str = "") -> None:
        self.what = what
        self.remedy = remedy
        super().__init__(f"{what} {remedy}".rstrip())

    def __reduce__(self) -> tuple[type[UnreadableError], tuple[str, str]]:
        return type(self), (self.what, self.remedy)


def tidy(text: str) -> str:
    """Return a text with single blanks and plain minus signs.

    >>> tidy("  waist   − 5 mm ")
    'waist - 5 mm'
    """
    return " ".join(text.replace("\u2212", "-").replace("\u2013", "-").split())


def respelled(text: str) -> str:
    """Return a text with single blanks and the spelling ``center``, as this program's own words have it.

    >>> respelled("centre  back")
    'center back'
    """
    return re.sub(r"\bcentre\b", "center", " ".join(text.split()))


def is_name(text: str) -> bool:
    """Return whether a text may be the name of a dial, seam or panel.

    It begins with a letter and holds at most 40 letters, digits, single blanks, hyphens and apostrophes.

    >>> is_name("side-front 2"), is_name("12 mm"), is_name("")
    (True, False, False)
    """
    fits = 0 < len(text) <= LONGEST_NAME and text == " ".join(text.split())
    return fits and text[0].isalpha() and all(letter.isalnum() or letter in " -'’" for letter in text)


def close_to(word: str, legal: Iterable[str]) -> str:
    """Return “Did you mean …?” when a legal word is near, else nothing.

    >>> close_to("wiast", ["waist", "bust"])
    'Did you mean “waist”?'
    """
    close = difflib.get_close_matches(word, sorted(set(legal)), n=3, cutoff=0.6)
    return "Did you mean " + " or ".join(f"“{name}”" for name in close) + "?" if close else ""


def leading_sign(text: str) -> tuple[int, str]:
    """Return the sign a text begins with (1 when there is none) and the rest."""
    found = _SIGN.match(text)
    return (-1 if found.group(1) == "-" else 1, text[found.end() :]) if found else (1, text)


def leading_word(text: str, words: Iterable[str]) -> tuple[str, str] | None:
    """Return the longest of the words that the text begins with, whole, and the rest; None if there is none.

    >>> leading_word("bust to waist - 5 mm", ["bust", "bust to waist"])
    ('bust to waist', ' - 5 mm')
    """
    for word in sorted(words, key=len, reverse=True):
        rest = text.removeprefix(word)
        if len(rest) < len(text) and (not rest or re.match(r"\s*[+-]|\s", rest)):
            return word, rest
    return None


def leading_percentage(text: str) -> tuple[float, bool, str] | None:
    """Return the ratio of a text's leading percentage, whether `of` follows, and the rest; None without one.

    >>> leading_percentage("73% of back length")
    (0.73, True, 'back length')
    """
    found = _PERCENT.match(text)
    if found is None:
        return None
    percent = float(found.group(1))
    if percent > _MOST_PERCENT:
        raise UnreadableError(f"got {shown(text)}, which is more than {_MOST_PERCENT:.0f}%.", "Check the number.")
    return round(percent / 100.0, 8), _OF.match(text) is not None, text[found.end() :]
