"""A drawing as bare XML, read so that a stranger's file can do nothing but be one.

The parser refuses entities, document types and whatever lies outside the file, and what it meets is counted. Scripts,
styles, pictures and references are not followed. This is the one place that knows defusedxml.
"""

from __future__ import annotations

import re
import xml.sax
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any
from xml.sax.handler import ContentHandler

from fanblock.problems import FanblockError, Place, Problem

LARGEST_BYTES = 20_000_000
"""A larger drawing is refused; one with a photograph in it to trace over has a few million bytes."""

MOST_ELEMENTS, DEEPEST = 50_000, 60
"""Most elements, and most of them within one another, that are read."""

_UNDRAWN = frozenset(
    {"defs", "symbol", "clipPath", "mask", "marker", "pattern", "metadata", "foreignObject", "style", "script"}
)
_LONGEST_NAME = 200


@dataclass(slots=True, eq=False)
class Element:
    """An element as it stands in the file; ``names`` are what its id, its label and its title call it."""

    tag: str
    attributes: Mapping[str, str]
    line: int
    column: int
    parent: Element | None
    names: list[str] = field(default_factory=list)
    children: list[Element] = field(default_factory=list)
    drawn: bool = True

    def place(self, file: str) -> Place:
        """Return where it stands."""
        return Place(file, self.line, self.column)

    def all(self) -> Iterator[Element]:
        """Yield it and everything that is drawn in it, in the order of the file."""
        waiting = [self]
        while waiting:
            one = waiting.pop()
            if one.drawn:
                yield one
                waiting += reversed(one.children)


def plain_name(text: str) -> str:
    """Return a name as names are compared: small letters, blanks for hyphens and underscores, ``center``.

    >>> plain_name("Centre-Front")
    'center front'
    """
    words = re.sub(r"[-_\s]+", " ", text.casefold()).strip()
    return re.sub(r"\bcentre\b", "center", words)


class _TooMuchError(Exception):
    """A drawing that is refused before it has been read; its text says why."""


class _Handler(ContentHandler):
    """Gathers the elements of a file, and stops at one element too many."""

    def __init__(self, locator: Any) -> None:
        super().__init__()
        self.root: Element | None = None
        self.open: list[Element] = []
        self.count = 0
        self.locator = locator

    @property
    def place(self) -> tuple[int, int]:
        """Line and column that the parser has come to, counted from 1."""
        return self.locator.getLineNumber() or 1, (self.locator.getColumnNumber() or 0) + 1

    def startElement(self, name: str, attrs: Any) -> None:  # noqa: N802  (the name that SAX calls)
        self.count += 1
        if self.count > MOST_ELEMENTS:
            raise _TooMuchError(f"it has more than {MOST_ELEMENTS} elements.")
        if len(self.open) >= DEEPEST:
            raise _TooMuchError(f"its groups lie more than {DEEPEST} deep in one another.")
        parent = self.open[-1] if self.open else None
        attributes = {key: attrs.getValue(key) for key in attrs.getNames()}
        tag = name.rsplit(":", 1)[-1]
        drawn = tag not in _UNDRAWN and (parent is None or parent.drawn)
        names = [] if tag == "title" else _names(attributes)
        element = Element(tag, attributes, *self.place, parent, names, drawn=drawn)
        if parent is None:
            self.root = element
        else:
            parent.children.append(element)
        self.open.append(element)

    def endElement(self, name: str) -> None:  # noqa: N802
        closed = self.open.pop()
        if closed.tag == "title" and closed.parent is not None:
            closed.parent.names += closed.names

    def characters(self, content: str) -> None:
        inside = self.open[-1] if self.open else None
        if inside is not None and inside.tag == "title":
            text = ("".join(inside.names) + content)[:_LONGEST_NAME]
            inside.names[:] = [text]


def _names(attributes: Mapping[str, str]) -> list[str]:
    """Return the names that an element's own attributes give it."""
    keys = [key for key in attributes if key == "id" or key == "data-name" or key.endswith(":label")]
    return [attributes[key][:_LONGEST_NAME] for key in sorted(keys)]


def read_elements(data: bytes, file: str, error: type[FanblockError]) -> Element:
    """Return the root element of the drawing ``data``; raises ``error`` for what is no drawing, or would do more than be one."""
    from defusedxml.common import DefusedXmlException
    from defusedxml.expatreader import create_parser

    if len(data) > LARGEST_BYTES:
        raise _refused(error, file, 1, 1, f"it is larger than {LARGEST_BYTES // 1_000_000} million bytes.", SAVE)
    parser = create_parser(forbid_dtd=True, forbid_entities=True, forbid_external=True)
    handler = _Handler(parser)
    parser.setContentHandler(handler)
    try:
        parser.feed(data)  # all at once: a long attribute that comes in parts is read again with every part
        parser.close()
    except DefusedXmlException:
        what = "it has a document type (a line that begins with <!DOCTYPE), which may lead anywhere."
        raise _refused(error, file, _line_of(data, b"<!DOCTYPE"), 1, what, f"Delete that line, or {SAVE_AS}.") from None
    except xml.sax.SAXParseException as fault:
        what = f"it cannot be read as a drawing ({fault.getMessage()})."
        raise _refused(
            error, file, fault.getLineNumber() or 1, (fault.getColumnNumber() or 0) + 1, what, SAVE
        ) from None
    except _TooMuchError as fault:
        line, column = handler.place
        raise _refused(
            error, file, line, column, str(fault), "Keep the lines that are wanted, and delete the rest."
        ) from None
    except (UnicodeError, ValueError) as fault:
        raise _refused(error, file, 1, 1, f"it cannot be read as text ({fault}).", SAVE) from None
    if handler.root is None or handler.root.tag != "svg":
        raise _refused(error, file, 1, 1, "it is no SVG drawing.", SAVE)
    return handler.root


SAVE_AS = "save it from the drawing program as plain SVG"
SAVE = f"{SAVE_AS[0].upper()}{SAVE_AS[1:]}."
"""What mends most drawings that cannot be read."""


def _refused(error: type[FanblockError], file: str, line: int, column: int, what: str, remedy: str) -> FanblockError:
    return error([Problem("drawing", "", f"the drawing is refused: {what}", remedy, Place(file, line, column))])


def _line_of(data: bytes, mark: bytes) -> int:
    at = data.upper().find(mark)
    return 1 if at < 0 else data.count(b"\n", 0, at) + 1
