"""Changing single values in a file that somebody wrote: her words, her comments and her layout stay as they are.

A file is read to nodes that know where they begin; where each ends is found in the text itself. Nothing is written that was
not asked for. What cannot be changed in place raises :class:`UneditableError`, and the caller writes the whole file anew.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from fanblock.problems import Place
from fanblock.yamlfile import Listing, Node, Table, Text, read_yaml

_OPEN, _CLOSED = "[{", "]}"
_LINE_END = re.compile(r"\r\n|\n|\r")
_END_OF_FLOW = re.compile(r"[,\[\]{}\n\r]|\s#|:\s")
_END_OF_LINE = re.compile(r"[\n\r]|\s#")


class UneditableError(Exception):
    """This file is laid out in a way in which a value cannot be changed by itself."""


@dataclass(slots=True)
class Edited:
    """A text with its nodes, and the changes that are to be made in it."""

    text: str
    file: str
    top: Table = field(init=False)
    _starts: list[int] = field(init=False)
    _edits: list[tuple[int, int, str]] = field(init=False)

    def __post_init__(self) -> None:
        """Read the text; FanblockError when it cannot be read at all."""
        self.top = read_yaml(self.text, self.file)
        self._starts = [0, *(found.end() for found in _LINE_END.finditer(self.text))]
        self._edits = []

    @property
    def line_end(self) -> str:
        """How the file ends its lines."""
        return "\r\n" if "\r\n" in self.text else "\n"

    def replace(self, node: Node, new: str) -> None:
        """Write ``new`` where a single value stands, a comment behind it left alone."""
        if not isinstance(node, Text) or self._is_block_text(node):
            raise UneditableError
        start = self._at(node.place)
        self._edits.append((start, self._end(node), new if node.text else f" {new}"))

    def add(self, table: Table, name: str, value: str) -> None:
        """Write a new name with its value behind the last of a table."""
        start = self._at(table.place)
        if self._flows(start):
            self._into_flow(start, len(table) > 0, f"{name}: {value}")
            return
        last = table.entries[-1]
        indent = " " * (table.entries[0].place.column - 1)
        end = max(self._end(last.value), self._at(last.place))
        self._after_line(end, f"{indent}{name}: {value}")

    def append(self, key: str, items: Sequence[str]) -> None:
        """Write more items behind a list of the file, or begin the list at the end of the file."""
        entry = self.top.entry(key)
        if not items:
            return
        if entry is None:
            self._at_end([f"{key}:", *(f"  - {item}" for item in items)])
        elif isinstance(entry.value, Text) and entry.value.blank and not entry.value.text:
            self._after_line(self._at(entry.place), *(f"  - {item}" for item in items))
        elif isinstance(entry.value, Listing):
            self._onto(entry.value, items)
        else:
            raise UneditableError

    def append_line(self, key: str, line: str) -> None:
        """Write a line behind that of a name at the top of the file."""
        entry = self.top.entry(key)
        if entry is None or self.top.place.column != 1 or self._flows(self._at(self.top.place)):
            raise UneditableError
        self._after_line(self._end(entry.value), line)

    def begin(self, key: str, rows: Sequence[str]) -> None:
        """Write a table of names and values at the end of the file."""
        self._at_end([f"{key}:", *(f"  {row}" for row in rows)])

    def remove(self, listing: Listing, number: int) -> None:
        """Take out an item of a list, with the lines it stands on."""
        if self._flows(self._at(listing.place)) or len(listing) == 1:
            raise UneditableError
        item = listing.items[number]
        line, end = item.place.line, self._end(item)
        if self.text[self._starts[line - 1] : self._at(item.place)].strip() != "-":
            raise UneditableError
        self._edits.append((self._starts[line - 1], self._next_line(end), ""))

    def done(self, heading: str = "") -> str:
        """Return the text with every change made, ``heading`` a comment at its top."""
        text = self.text
        for start, end, new in sorted(self._edits, reverse=True):
            text = text[:start] + new + text[end:]
        return f"# {heading}{self.line_end}{text}" if heading else text

    def _onto(self, listing: Listing, items: Sequence[str]) -> None:
        start = self._at(listing.place)
        if self._flows(start):
            self._into_flow(start, len(listing) > 0, ", ".join(f"{item}" for item in items))
            return
        indent = " " * (listing.place.column - 1)
        self._after_line(self._end(listing), *(f"{indent}- {item}" for item in items))

    def _into_flow(self, start: int, more: bool, new: str) -> None:
        end = self._flow_end(start) - 1
        before = end - (len(self.text[:end]) - len(self.text[:end].rstrip()))
        self._edits.append((before, before, f", {new}" if more else new))

    def _after_line(self, at: int, *lines: str) -> None:
        """Write lines behind the line in which a place lies, its comment included."""
        stop = _LINE_END.search(self.text, at)
        new = "".join(f"{line}{self.line_end}" for line in lines)
        if stop is None:
            self._edits.append((len(self.text), len(self.text), self.line_end + new))
        else:
            self._edits.append((stop.end(), stop.end(), new))

    def _at_end(self, lines: Sequence[str]) -> None:
        if self.top.place.column != 1 or self._flows(self._at(self.top.place)):
            raise UneditableError
        ended = "" if not self.text or self.text.endswith(("\n", "\r")) else self.line_end
        self._edits.append(
            (len(self.text), len(self.text), ended + "".join(f"{line}{self.line_end}" for line in lines))
        )

    def _next_line(self, at: int) -> int:
        stop = _LINE_END.search(self.text, at)
        return len(self.text) if stop is None else stop.end()

    def _at(self, place: Place) -> int:
        return self._starts[place.line - 1] + place.column - 1

    def _flows(self, start: int) -> bool:
        return self.text[start : start + 1] in (*_OPEN,)

    def _is_block_text(self, node: Text) -> bool:
        return node.quoted and self.text[self._at(node.place)] in "|>"

    def _end(self, node: Node) -> int:
        """Where a value ends in the text."""
        start = self._at(node.place)
        if isinstance(node, Text):
            return start if node.blank and not node.text else self._text_end(node, start)
        if self._flows(start):
            return self._flow_end(start)
        inner = [entry.value for entry in node] if isinstance(node, Table) else list(node)
        keys = [self._at(entry.place) for entry in node] if isinstance(node, Table) else []
        return max((*keys, *(self._end(one) for one in inner)), default=start)

    def _text_end(self, node: Text, start: int) -> int:
        if self._is_block_text(node):
            raise UneditableError
        if node.quoted:
            return self._quoted_end(start)
        line = self.text[self._starts[node.place.line - 1] : start]
        flows = line.count("{") + line.count("[") > line.count("}") + line.count("]")
        stop = (_END_OF_FLOW if flows else _END_OF_LINE).search(self.text, start)
        end = len(self.text) if stop is None else stop.start()
        return start + len(self.text[start:end].rstrip())

    def _quoted_end(self, start: int) -> int:
        mark, at = self.text[start], start + 1
        while at < len(self.text):
            if mark == '"' and self.text[at] == "\\":
                at += 2
            elif self.text[at] != mark:
                at += 1
            elif mark == "'" and self.text[at + 1 : at + 2] == "'":
                at += 2
            else:
                return at + 1
        raise UneditableError

    def _flow_end(self, start: int) -> int:
        """Behind the bracket that closes the one at ``start``."""
        deep, at = 0, start
        while at < len(self.text):
            sign = self.text[at]
            if sign in "\"'" and self.text[at - 1] in " ,[{:\n\r\t":
                at = self._quoted_end(at)
                continue
            if sign == "#" and self.text[at - 1] in " \t\n\r":
                at = self._next_line(at)
                continue
            deep += (sign in _OPEN) - (sign in _CLOSED)
            at += 1
            if deep == 0:
                return at
        raise UneditableError
