"""Single values of a recipe file: what each kind needs, in words, and how its text is read."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Literal, get_args, get_origin

from fanblock.problems import nearest
from fanblock.recipe.parts import (
    NEEDS_AMOUNT,
    NEEDS_AROUND,
    NEEDS_EXTENT,
    NEEDS_HEIGHT,
    NEEDS_SETTING,
    NEEDS_SHARE,
    parse_amount,
    parse_around,
    parse_extent,
    parse_height,
    parse_setting,
    parse_share,
)
from fanblock.recipe.phrase import NUMBER, UnreadableError, Vocabulary, respelled
from fanblock.terms import Amount, Around, Extent, Height, Length, Share
from fanblock.units import shown
from fanblock.yamlfile import Text

Setting = Length | Share
"""What a dial may be set to."""

LARGEST_COUNT = 99
_LONGEST_TEXT = 2000
_MOST_LISTED = 6

NEEDS: Mapping[Any, str] = MappingProxyType(
    {
        Amount: NEEDS_AMOUNT,
        Setting: NEEDS_SETTING,
        Height: NEEDS_HEIGHT,
        Around: NEEDS_AROUND,
        Extent: NEEDS_EXTENT,
        Share: NEEDS_SHARE,
        str: "a text",
        bool: "`yes` or `no`",
        int: f"a whole number from 0 to {LARGEST_COUNT}",
        float: "a number such as `2` or `1.5`",
    }
)
"""What each kind of single value needs, in words that follow “needs”."""


def is_scalar(kind: Any) -> bool:
    """Return whether a kind is written as one single value."""
    return kind in NEEDS or get_origin(kind) is Literal


def needs(kind: Any) -> str:
    """Return what a kind of single value needs, in words that follow “needs”."""
    if get_origin(kind) is Literal:
        words = [f"`{word}`" for word in sorted(get_args(kind))]
        return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else words[0]
    return NEEDS[kind]


def read_scalar(node: Text, kind: Any, vocabulary: Vocabulary) -> Any:
    """Return the value of a single text as the kind wanted; raises UnreadableError."""
    if get_origin(kind) is Literal:
        return _word(node, kind)
    return _READERS[kind](node, vocabulary)


def _word(node: Text, kind: Any) -> str:
    legal = get_args(kind)
    word = respelled(node.text)
    if word not in legal and len(legal) > _MOST_LISTED:
        raise UnreadableError(
            f"got {shown(node.text)}, which is not one of the words known here.", nearest(word, legal)
        )
    if word not in legal:
        what = f"got {shown(node.text)}, needs {needs(kind)}."
        found = nearest(word, legal)
        raise UnreadableError(what, found if found.startswith("Did") else "")
    return word


def _text(node: Text, _vocabulary: Vocabulary) -> str:
    if len(node.text) > _LONGEST_TEXT:
        raise UnreadableError(f"got a text of {len(node.text)} letters, more than {_LONGEST_TEXT}.", "Shorten it.")
    if not node.text.strip():
        raise UnreadableError("nothing stands here, needs a text.")
    return node.text.strip()


def _truth(node: Text, _vocabulary: Vocabulary) -> bool:
    if node.truth is None:
        raise UnreadableError(f"got {shown(node.text)}, needs {NEEDS[bool]}.")
    return node.truth


def _count(node: Text, _vocabulary: Vocabulary) -> int:
    number = node.whole_number
    if number is None or not 0 <= number <= LARGEST_COUNT:
        raise UnreadableError(f"got {shown(node.text)}, needs {NEEDS[int]}.")
    return number


def _number(node: Text, _vocabulary: Vocabulary) -> float:
    if re.fullmatch(rf"[+-]?{NUMBER}", node.text) is None:
        raise UnreadableError(f"got {shown(node.text)}, needs {NEEDS[float]}.")
    return 0.0 + round(float(node.text), 6)


_READERS: Mapping[Any, Callable[[Text, Vocabulary], Any]] = {
    Amount: lambda node, vocabulary: parse_amount(node.text, vocabulary),
    Setting: lambda node, vocabulary: parse_setting(node.text, vocabulary),
    Height: lambda node, vocabulary: parse_height(node.text, vocabulary),
    Extent: lambda node, vocabulary: parse_extent(node.text, vocabulary),
    Around: lambda node, vocabulary: parse_around(node.text, vocabulary),
    Share: lambda node, _vocabulary: parse_share(node.text),
    str: _text,
    bool: _truth,
    int: _count,
    float: _number,
}
