"""The sentences of a notes file read: with or without an amount, in capitals or not, or kept as the maker's own words."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from fanblock.fitting.effects import Sentence
from fanblock.fitting.sentences import SENTENCES
from fanblock.problems import Place, nearest
from fanblock.recipe.findings import Findings
from fanblock.units import drawn_length, parse_length, shown
from fanblock.yamlfile import Listing, Node, Table, Text, kind

_AMOUNT = re.compile(r"\s+(?=[-+−]?[0-9.½¼¾⅛⅜⅝⅞⅓⅔])")


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence with its amount in millimetres; the ``usual`` one is taken as the wearer's own tape shows it."""

    sentence: Sentence
    mm: float
    usual: bool = False


def plain(words: str) -> str:
    """Return a sentence as it is looked up: capitals, a full stop and the spelling of centre do not matter.

    >>> plain("Gapes at the  center front.")
    'gapes at the centre front'
    """
    return " ".join(words.split()).rstrip(".!…").casefold().replace("center", "centre")


_BY_PLAIN = {plain(sentence.words): sentence for sentence in SENTENCES}


@dataclass(frozen=True, slots=True)
class Sayings:
    """Reads the list of sentences; ``asked`` are those the garment can have, among which a misspelt one is looked for."""

    findings: Findings
    units: str
    asked: tuple[Sentence, ...]

    def read(self, node: Node | None) -> tuple[tuple[tuple[Said, Place], ...], tuple[str, ...]]:
        """Return the sentences with their places, and what else was written, which changes nothing."""
        if node is None or (isinstance(node, Text) and node.blank):
            return (), ()
        if not isinstance(node, Listing):
            says = f"got {kind(node)}, needs a list."
            self.findings.wrong("fit-notes", "notes", says, "Put a dash before each.", node.place)
            return (), ()
        said, comments = [], []
        for number, one in enumerate(node.items, 1):
            words, amount, place = _item(one)
            sentence = _BY_PLAIN.get(plain(words))
            if sentence is not None:
                said.append((self._said(sentence, amount, f"notes › {number}", place), place))
            elif (isinstance(one, Text) and one.quoted) or not self._is_refused(words, amount, number, place):
                comments.append(words)
        return tuple(said), tuple(comments)

    def _is_refused(self, words: str, amount: str | None, number: int, place: Place) -> bool:
        """Refuse what is like a sentence of ours and is none, or has an amount: a slip must not pass for free words."""
        begun, length = _amount_behind(words)
        own = "To keep it as your own words, put it in quotation marks."
        if amount is None and begun:
            what = f"a colon is missing before the amount in {shown(words)}."
            remedy = f"Write `{begun.words}: {length}`. {own}"
        elif amount is None and not self._is_near(words):
            return False
        else:
            what = f"there is no sentence {shown(words)}."
            near = self._nearest(words)
            if not near.startswith("Did you mean"):
                near = "Write one of the sentences of the correction sheet."
                own = "To keep it as your own words, put all of it in quotation marks."
            remedy = f"{near} {own}"
        self.findings.wrong("fit-sentence", f"notes › {number}", what, remedy, place)
        return True

    def _is_near(self, words: str) -> bool:
        return self._nearest(words).startswith("Did you mean")

    def _nearest(self, words: str) -> str:
        spelt: Iterable[str] = {plain(one.words): one.words for one in self.asked}
        return nearest(plain(words), spelt)

    def _said(self, sentence: Sentence, typed: str | None, trail: str, place: Place) -> Said:
        """Return a sentence with its amount, the usual one where none is given."""
        if typed is None or not sentence.effects:
            return Said(sentence, sentence.typical_mm, usual=True)
        try:
            mm = parse_length(typed, self.units or None)
        except ValueError as error:
            self.findings.wrong("fit-amount", trail, str(error), "", place)
            return Said(sentence, sentence.typical_mm, usual=True)
        if not 0.0 < mm <= sentence.most_mm:
            got, most = (told_in(one, self.units) for one in (mm, sentence.most_mm))
            what = f"got {got} for {shown(sentence.words)}, needs up to {most}."
            self.findings.wrong("fit-amount", trail, what, f"It means {sentence.asks}.", place)
        return Said(sentence, mm)


def told_in(mm: float, units: str) -> str:
    """Return an amount in the units of the file, or in whole millimetres where it has none.

    >>> told_in(38.1, "in"), told_in(30.0, "cm"), told_in(30.0, "")
    ('1 1/2 in', '3 cm', '30 mm')
    """
    if units == "in":
        return drawn_length(mm, units)
    return f"{mm / 10.0:g} cm" if units == "cm" else f"{mm:.0f} mm"


def _amount_behind(words: str) -> tuple[Sentence | None, str]:
    """A sentence that a length follows without a colon, and that length."""
    for found in _AMOUNT.finditer(words):
        sentence, rest = _BY_PLAIN.get(plain(words[: found.start()])), words[found.end() :].rstrip(" .")
        if sentence is not None:
            return sentence, rest
    return None, ""


def _item(item: Node) -> tuple[str, str | None, Place]:
    """Return a sentence, its amount if one stands behind it, and its place."""
    entry = item.entries[0] if isinstance(item, Table) and len(item) == 1 else None
    if entry is not None and isinstance(entry.value, Text):
        return " ".join(entry.name.split()), entry.value.text.strip() or None, entry.place
    if isinstance(item, Text):
        return " ".join(item.text.split()), None, item.place
    return kind(item), "", item.place
