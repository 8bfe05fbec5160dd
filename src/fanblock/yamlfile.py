"""Reading the YAML files people write: every value keeps its place, nothing is guessed, nothing is run.

A file is one document, a table of names and values at its top. Plain scalars stay text (``no``, ``1:30``
and ``012`` mean what they say); whoever reads a value decides what it is. Anchors, aliases and tags are
refused, and so are repeated names, nesting deeper than :data:`DEEPEST`, files over :data:`LARGEST_BYTES`
and characters nobody can see.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import yaml

from fanblock.problems import FanblockError, Place, Problem, nearest
from fanblock.units import shown

LARGEST_BYTES = 1_000_000
DEEPEST = 50
_MOST_UNKNOWN = 20
_MOST_HIDDEN = 10
_HIDDEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff\u2028-\u202e\u2066-\u2069\ufeff]")
_LINE_END = re.compile(r"\r\n|\n|\r")
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Text:
    """A single value; ``quoted`` tells that it stood in quotation marks or in a block of text."""

    text: str
    place: Place
    quoted: bool = False

    @property
    def blank(self) -> bool:
        """True when nothing was written (or ``~`` or ``null``, which say nothing)."""
        return not self.quoted and self.text in ("", "~", "null")

    @property
    def whole_number(self) -> int | None:
        """The whole number that was written without quotation marks, else ``None``."""
        number = not self.quoted and re.fullmatch(r"[-+]?[0-9]{1,9}", self.text)
        return int(self.text) if number else None

    @property
    def truth(self) -> bool | None:
        """True for an unquoted ``true`` or ``yes``, False for ``false`` or ``no``, else ``None``."""
        answers = {"true": True, "yes": True, "false": False, "no": False}
        return None if self.quoted else answers.get(self.text.casefold())


@dataclass(frozen=True, slots=True)
class Listing:
    """A list of values."""

    items: tuple[Node, ...]
    place: Place

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


@dataclass(frozen=True, slots=True)
class Entry:
    """One name of a table with its value; ``place`` is where the name stands."""

    name: str
    value: Node
    place: Place


@dataclass(frozen=True, slots=True)
class Table:
    """Names with values, in the order they were written; no name stands twice."""

    entries: tuple[Entry, ...]
    place: Place

    def __iter__(self) -> Iterator[Entry]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)

    @property
    def names(self) -> tuple[str, ...]:
        """The names, in the order they were written."""
        return tuple(entry.name for entry in self.entries)

    def entry(self, name: str) -> Entry | None:
        """Return the entry called ``name``, or ``None``."""
        return next((entry for entry in self.entries if entry.name == name), None)

    def get(self, name: str) -> Node | None:
        """Return the value of ``name``, or ``None`` where the table has no such name."""
        entry = self.entry(name)
        return entry.value if entry else None


Node = Text | Listing | Table


def kind(node: Node) -> str:
    """Return what a value is, in words that fit after “this is”."""
    if isinstance(node, Table):
        return "a table of names and values"
    if isinstance(node, Listing):
        return "a list"
    if node.blank:
        return "blank"
    return "a number" if node.whole_number is not None else "a text"


def unknown_names(table: Table, legal: Iterable[str], where: str = "", code: str = "unknown-name") -> list[Problem]:
    """Return a problem for each name of ``table`` that is not ``legal``, with the nearest legal names.

    After 20 of them the rest become one problem, so that a file of another kind does not fill the screen.
    """
    allowed = sorted(legal)
    strangers = [entry for entry in table if entry.name not in allowed]
    problems = [
        Problem(code, where, f"{shown(entry.name)} is not known here.", nearest(entry.name, allowed), entry.place)
        for entry in strangers[:_MOST_UNKNOWN]
    ]
    if rest := strangers[_MOST_UNKNOWN:]:
        says = f"{len(rest)} more names are not known here."
        problems.append(Problem(code, where, says, "Is this the right kind of file?", rest[0].place))
    return problems


def read_yaml(
    source: str | bytes,
    file: str,
    error: type[FanblockError] = FanblockError,
    problems: list[Problem] | None = None,
) -> Table:
    """Return the table at the top of a YAML file.

    ``source`` is the file's text or its bytes (UTF-8), ``file`` its name for messages. Raises ``error``
    with every problem found, each with its place. A caller with problems of its own to add gives a list:
    problems that leave the rest readable (a repeated name, an anchor, a tag) are then put there instead,
    and the caller must raise them.
    """
    text = _decoded(source, file, error)
    reader = _Reader(file)
    top: Node | None = None
    try:
        top = reader.document(yaml.parse(text, Loader=_LOADER))
    except yaml.YAMLError as yaml_error:
        reader.problems.append(_plain_words(yaml_error, text, file))
    if top is not None and not isinstance(top, Table) and not reader.problems:
        reader.refuse("not-a-table", f"the file holds {kind(top)}.", "Begin lines with a name and a colon.", top.place)
    if not isinstance(top, Table) or (reader.problems and problems is None):
        raise error(reader.problems)
    if problems is not None:
        problems.extend(reader.problems)
    return top


def _decoded(source: str | bytes, file: str, error: type[FanblockError]) -> str:
    data = source.encode("utf-8", "surrogatepass") if isinstance(source, str) else source
    if len(data) > LARGEST_BYTES:
        says = f"the file has {len(data)} bytes; {LARGEST_BYTES} is the most that is read."
        raise error([Problem("too-large", "", says, "Is this the right file?", Place(file, 1, 1))])
    try:
        text = data.decode("utf-8", "surrogatepass") if isinstance(source, str) else data.decode("utf-8")
    except UnicodeDecodeError as bad:
        place = _place(data[: bad.start].decode("utf-8"), file)
        says = "the file is not UTF-8 text."
        raise error([Problem("not-utf-8", "", says, "Save it as plain text in UTF-8.", place)]) from None
    text = text.removeprefix("\ufeff")
    hidden = []
    for found in _HIDDEN.finditer(text):
        says = f"a character that cannot be seen stands here ({_code_point(found[0])})."
        place = _place(text[: found.start()], file)
        hidden.append(Problem("hidden-character", "", says, "Delete the line and type it again.", place))
        if len(hidden) == _MOST_HIDDEN:
            break
    if hidden:
        raise error(hidden)
    return text


def _place(before: str, file: str) -> Place:
    lines = _LINE_END.split(before)
    return Place(file, len(lines), len(lines[-1]) + 1)


def _code_point(character: str) -> str:
    return f"U+{ord(character):04X}"


class _StoppedError(Exception):
    """Nothing after this place can be read with profit."""


class _Reader:
    """Turns the parser's events into nodes and gathers what is wrong on the way."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def refuse(self, code: str, what: str, remedy: str, place: Place) -> None:
        self.problems.append(Problem(code, "", what, remedy, place))

    def place(self, event: yaml.Event) -> Place:
        mark = event.start_mark
        return Place(self.file, mark.line + 1, mark.column + 1) if mark else Place(self.file, 1, 1)

    def document(self, events: Iterator[yaml.Event]) -> Node | None:
        """Return the value of the only document; ``None`` when a problem was found instead."""
        next(events)
        first = next(events)
        if isinstance(first, yaml.StreamEndEvent):
            self.refuse("empty", "the file is empty.", "", Place(self.file, 1, 1))
            return None
        try:
            top = self.node(next(events), events, 1)
        except _StoppedError:
            return None
        next(events)
        second = next(events)
        if isinstance(second, yaml.DocumentStartEvent):
            says = "a second document begins here."
            self.refuse("two-documents", says, "Keep one in a file, without ---.", self.place(second))
        return top

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        place = self.place(event)
        if depth > DEEPEST and isinstance(event, yaml.CollectionStartEvent):
            says = f"the file is nested more than {DEEPEST} deep."
            self.refuse("too-deep", says, "Look for brackets that are not closed.", place)
            raise _StoppedError
        self._refuse_extras(event, place)
        if isinstance(event, yaml.MappingStartEvent):
            return self.table(place, events, depth)
        if isinstance(event, yaml.SequenceStartEvent):
            items = []
            while not isinstance(inner := next(events), yaml.SequenceEndEvent):
                items.append(self.node(inner, events, depth + 1))
            return Listing(tuple(items), place)
        if isinstance(event, yaml.ScalarEvent):
            if found := _HIDDEN.search(event.value):
                says = f"a character that cannot be seen is spelt out here ({_code_point(found[0])})."
                self.refuse("hidden-character", says, "Leave it out.", place)
            return Text(event.value, place, quoted=event.style not in (None, ""))
        return Text("", place)

    def table(self, place: Place, events: Iterator[yaml.Event], depth: int) -> Table:
        entries: dict[str, Entry] = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = self.node(event, events, depth + 1)
            value = self.node(next(events), events, depth + 1)
            if not isinstance(key, Text):
                says = f"{kind(key)} stands where a name should be."
                self.refuse("not-a-name", says, "Write a plain name before the colon.", key.place)
            elif key.text in entries:
                first = entries[key.text].place.line
                says = f"{shown(key.text)} stands here a second time (first in line {first})."
                self.refuse("repeated-name", says, "Keep one of them.", key.place)
            else:
                entries[key.text] = Entry(key.text, value, key.place)
        return Table(tuple(entries.values()), place)

    def _refuse_extras(self, event: yaml.Event, place: Place) -> None:
        if isinstance(event, yaml.AliasEvent):
            says = f"{shown('*' + str(event.anchor))} refers to another place."
            self.refuse("alias", says, "Write the value out, or in quotation marks if you meant a star.", place)
        elif getattr(event, "anchor", None) is not None:
            says = f"{shown('&' + str(getattr(event, 'anchor', '')))} names a place."
            self.refuse("anchor", says, "Leave it out, or use quotation marks if you meant an ampersand.", place)
        if getattr(event, "tag", None) is not None:
            says = f"{shown(str(getattr(event, 'tag', '')))} is a tag."
            self.refuse("tag", says, "Leave it out, or use quotation marks if you meant an exclamation mark.", place)


_WORDS = (
    ("mapping values are not allowed", "a colon stands where none can be.",
     "Put text that holds a colon in quotation marks, and begin the line under the ones it belongs with."),
    ("could not find expected ':'", "a name stands here without its colon.", "Write it as name: value."),
    ("did not find expected key", "this line does not line up with the ones above.",
     "Begin it exactly under the lines it belongs with."),
    ("did not find expected '-'", "this line does not line up with the list above.",
     "Begin it with a dash under the others."),
    ("did not find expected ',' or", "a bracket is not closed or a comma is missing.",
     "Look at the brackets in this line and the one above."),
    ("found unexpected end of stream", "a quotation mark is not closed.",
     "Close it on the line where it opens."),
)  # fmt: skip


def _plain_words(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """Return the parser's complaint in words for somebody who does not know the parser."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    place = Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)
    says = str(getattr(error, "problem", None) or "it is not YAML")
    lines = _LINE_END.split(text)
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    if "\t" in line[: len(line) - len(line.lstrip())] or line[place.column - 1 : place.column] == "\t":
        return Problem("tab", "", "a tab stands where spaces should.", "Indent with spaces.", place)
    if "cannot start any token" in says:
        sign = line[place.column - 1 : place.column]
        remedy = "Put the value in quotation marks."
        return Problem("not-yaml", "", f"{shown(sign)} cannot begin a value.", remedy, place)
    for phrase, words, remedy in _WORDS:
        if phrase in says:
            return Problem("not-yaml", "", words, remedy, place)
    remedy = "Look at the indentation, brackets and quotation marks here and in the line above."
    return Problem("not-yaml", "", f"the file cannot be read from here ({says}).", remedy, place)
