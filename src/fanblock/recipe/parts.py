"""Texts of a recipe read into amounts, heights, arounds and shares.

    amount   12 mm · 1.5 cm · 2 1/4 in · -5 mm · 3% · 3% of waist · a dial's name
    extent   neck · 62 cm · 120% of neck · a dial's name, then ± an amount
    height   waist · bust · held bust · underarm · hem · top edge · 33% · 73% of back length · a level seam's name,
             then ± an amount
    around   center front · side · center back · lacing edge · lacing edge front · a seam's name · 24%, then ± an amount

What cannot be read raises :class:`fanblock.recipe.phrase.UnreadableError`: what was met and what is needed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from fanblock.problems import nearest
from fanblock.recipe.phrase import (
    UnreadableError,
    Vocabulary,
    close_to,
    leading_percentage,
    leading_sign,
    leading_word,
    respelled,
    tidy,
)
from fanblock.terms import (
    LACING_EDGE,
    LANDMARK_AROUNDS,
    LANDMARK_HEIGHTS,
    Amount,
    Around,
    Dial,
    Extent,
    Height,
    Length,
    Share,
)
from fanblock.units import parse_length, shown

NEEDS_AMOUNT = "an amount such as `12 mm`, `3/4 in`, `3% of waist` or the name of a dial"
NEEDS_EXTENT = "a whole length such as `62 cm`, `neck + 2 cm`, `150% of neck` or the name of a dial"
NEEDS_HEIGHT = "a height such as `bust + 30 mm`, `waist`, `33%`, `73% of back length`"
NEEDS_AROUND = "an around such as `center front`, `24%`, `side + 10 mm`, `center back`"
NEEDS_SETTING = "a length such as `50 mm` or a percentage such as `3%`"
NEEDS_SHARE = "a percentage such as `40%`"
_MM_DECIMALS = 6
_MOST_LENGTH_MM = 10_000.0


def parse_amount(text: str, vocabulary: Vocabulary) -> Amount:
    """Return the amount a text says: a length, a share (of a measure, or of what its place says) or a dial.

    >>> parse_amount("3% of waist", Vocabulary(measures=("waist",)))
    Share(ratio=0.03, of='waist')
    """
    words = tidy(text)
    sign, rest = leading_sign(words)
    amount = _unsigned_amount(rest, vocabulary, text)
    if isinstance(amount, Dial) and rest != words:
        raise UnreadableError(
            f"got {shown(text)}, but a dial takes no sign here.",
            f"Write `{amount.name}`, and the sign in its amounts.",
        )
    return negated(amount) if sign < 0 else amount


def negated(amount: Amount) -> Amount:
    """Return a length or share with the other sign; a dial, which has none, comes back unchanged."""
    match amount:
        case Length(mm):
            return Length(0.0 - mm)
        case Share(ratio, of):
            return Share(0.0 - ratio, of)
        case _:
            return amount


def parse_share(text: str) -> Share:
    """Return the bare percentage a text says, as a share of what its place says.

    >>> parse_share("40%")
    Share(ratio=0.4, of='')
    """
    sign, rest = leading_sign(tidy(text))
    found = leading_percentage(rest)
    if found is None or found[1] or found[2]:
        remedy = f"Write `{text.strip()}%`." if re.fullmatch(r"[0-9]+(\.[0-9]+)?", text.strip()) else ""
        raise UnreadableError(f"got {shown(text)}, needs {NEEDS_SHARE}.", remedy)
    if sign < 0 or found[0] > 1.0:
        raise UnreadableError(f"got {shown(text)}, needs a percentage from 0% to 100%.")
    return Share(found[0])


def parse_setting(text: str, vocabulary: Vocabulary) -> Length | Share:
    """Return the length or the bare percentage a dial is set to; a share's measure is the dial's own.

    >>> parse_setting("50 mm", Vocabulary())
    Length(mm=50.0)
    """
    try:
        amount = parse_amount(text, Vocabulary(units=vocabulary.units, measures=vocabulary.measures))
    except UnreadableError as error:
        if NEEDS_AMOUNT in error.what:
            raise UnreadableError(f"got {shown(text)}, needs {NEEDS_SETTING}.") from error
        raise
    if isinstance(amount, Dial) or (isinstance(amount, Share) and amount.of):
        raise UnreadableError(f"got {shown(text)}, needs {NEEDS_SETTING}.", "A dial names its measure once, with `of`.")
    return amount


def parse_extent(text: str, vocabulary: Vocabulary) -> Extent:
    """Return the whole length a text says; a measure's bare name is all of that measure.

    >>> parse_extent("neck + 2 cm", Vocabulary(measures=("neck",)))
    Extent(base=Share(ratio=1.0, of='neck'), plus=Length(mm=20.0), sign=1)
    """
    words = tidy(text)
    base, gap, _ = words.partition(" + ") if " + " in words else words.partition(" - ")
    rest = words[len(base) :] if gap else ""
    if base in vocabulary.measures and base not in vocabulary.dials:
        amount: Amount = Share(1.0, base)
    else:
        if leading_sign(base)[1] != base:
            raise UnreadableError(f"got {shown(text)}, needs {NEEDS_EXTENT}.", "Leave out the sign before it.")
        amount = _extent_base(base, vocabulary, text)
    plus, sign = _plus(rest, base, vocabulary, NEEDS_EXTENT, text)
    return Extent(amount, plus, sign)


def _extent_base(words: str, vocabulary: Vocabulary, text: str) -> Amount:
    try:
        amount = _unsigned_amount(words, vocabulary, text)
    except UnreadableError as error:
        if NEEDS_AMOUNT not in error.what:
            raise
        near = close_to(words, (*vocabulary.dials, *vocabulary.measures))
        raise UnreadableError(f"got {shown(text)}, needs {NEEDS_EXTENT}.", near) from error
    if isinstance(amount, Share) and not amount.of:
        what = f"got {shown(text)}, which does not say of what the {words} are."
        raise UnreadableError(what, f"Name a measure, such as `{words} of neck`.")
    return amount


def parse_height(text: str, vocabulary: Vocabulary) -> Height:
    """Return the height a text says.

    >>> parse_height("bust + 30 mm", Vocabulary())
    Height(landmark='bust', share=None, plus=Length(mm=30.0), sign=1)
    """
    words = tidy(text)
    sign, unsigned = leading_sign(words)
    percentage = leading_percentage(unsigned)
    if percentage is not None:
        ratio, is_of, rest = percentage
        of, rest = _measure(rest, vocabulary, text) if is_of else ("", rest)
        plus, plus_sign = _plus(rest, words, vocabulary, NEEDS_HEIGHT, text)
        return Height(share=Share(0.0 + sign * ratio, of), plus=plus, sign=plus_sign)
    found = leading_word(words, vocabulary.levels) or leading_word(words, LANDMARK_HEIGHTS)
    if found is None:
        raise _no_word(text, words, NEEDS_HEIGHT, (*LANDMARK_HEIGHTS, *vocabulary.levels))
    plus, plus_sign = _plus(found[1], found[0], vocabulary, NEEDS_HEIGHT, text)
    return Height(landmark=found[0], plus=plus, sign=plus_sign)


def parse_around(text: str, vocabulary: Vocabulary) -> Around:
    """Return the around a text says; percentages run from 0% at centre front to 100% at centre back.

    >>> parse_around("24%", Vocabulary())
    Around(landmark='', ratio=0.24, plus=None, sign=1)
    """
    words = tidy(text)
    percentage = leading_percentage(words)
    if percentage is not None:
        ratio, is_of, rest = percentage
        if is_of:
            raise UnreadableError(
                f"got {shown(text)}, needs {NEEDS_AROUND}.", "A percentage around is of the half level."
            )
        if ratio > 1.0:
            raise UnreadableError(f"got {shown(text)}, but around ends at 100%, the centre back.", "Write 0% to 100%.")
        plus, plus_sign = _plus(rest, words, vocabulary, NEEDS_AROUND, text)
        return Around(ratio=ratio, plus=plus, sign=plus_sign)
    known = (*LANDMARK_AROUNDS, *vocabulary.seams)
    laced = tuple(f"{LACING_EDGE} {name}" for name in vocabulary.seams)
    found = leading_word(words, (*vocabulary.seams, *laced)) or leading_word(respelled(words), LANDMARK_AROUNDS)
    if found is None:
        raise _no_word(text, words, NEEDS_AROUND, known)
    plus, plus_sign = _plus(found[1], found[0], vocabulary, NEEDS_AROUND, text)
    return Around(landmark=found[0], plus=plus, sign=plus_sign)


def _unsigned_amount(words: str, vocabulary: Vocabulary, text: str) -> Amount:
    if words in vocabulary.dials:
        return Dial(words)
    percentage = leading_percentage(words)
    if percentage is not None:
        ratio, is_of, rest = percentage
        if not is_of and not rest:
            return Share(ratio)
        if is_of:
            of, rest = _measure(rest, vocabulary, text)
            if not rest:
                return Share(ratio, of)
        raise UnreadableError(f"got {shown(text)}, needs {NEEDS_AMOUNT}.")
    if re.match(r"[0-9.]", words):
        return Length(_length_mm(words, vocabulary, text))
    raise UnreadableError(f"got {shown(text)}, needs {NEEDS_AMOUNT}.", _dial_remedy(words, vocabulary))


def _length_mm(words: str, vocabulary: Vocabulary, text: str) -> float:
    try:
        length_mm = parse_length(words, vocabulary.units or None)
    except ValueError as error:
        what, _, remedy = str(error).partition(". ")
        if "is not a length" in what:
            raise UnreadableError(f"got {shown(text)}, needs {NEEDS_AMOUNT}.") from error
        raise UnreadableError(f"{what}.", remedy) from error
    if not length_mm <= _MOST_LENGTH_MM:
        raise UnreadableError(f"got {shown(text)}, which is longer than 10 m.", "Check the number and the unit.")
    return round(length_mm, _MM_DECIMALS)


def _dial_remedy(words: str, vocabulary: Vocabulary) -> str:
    if not vocabulary.dials:
        return "This recipe has no dials."
    near = close_to(words, vocabulary.dials)
    return near or f"Dials of this recipe: {', '.join(sorted(vocabulary.dials))}."


def _measure(words: str, vocabulary: Vocabulary, text: str) -> tuple[str, str]:
    found = leading_word(words, vocabulary.measures)
    if found is None:
        named = re.split(r"\s+[+-]\s*", words)[0]
        what = f"got {shown(text)}, but there is no measure {shown(named)}." if named else f"got {shown(text)}."
        raise UnreadableError(what, nearest(named, vocabulary.measures))
    return found


def _plus(rest: str, base: str, vocabulary: Vocabulary, needs: str, text: str) -> tuple[Amount | None, int]:
    if not rest.strip():
        return None, 1
    sign, words = leading_sign(rest)
    if words == rest:
        raise UnreadableError(
            f"got {shown(text)}, needs {needs}.",
            f"After {shown(base)} only `+` or `-` and an amount may come.",
        )
    amount = _unsigned_amount(words, vocabulary, text)
    if isinstance(amount, Share) and not amount.of:
        raise UnreadableError(
            f"got {shown(text)}, which does not say of what the {words} are.",
            f"Name a measure, such as `{words} of back length`.",
        )
    return amount, sign


def _no_word(text: str, words: str, needs: str, legal: Sequence[str]) -> UnreadableError:
    named = re.split(r"\s*[+*/]|\s+-", words)[0].strip()
    remedy = nearest(named, legal) if re.match(r"[A-Za-z]", named) else ""
    return UnreadableError(f"got {shown(text)}, needs {needs}.", remedy)
