"""The few pieces of HTML that pages are made of; all text is escaped here."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape


def page(title: str, style: str, parts: Iterable[str]) -> str:
    """Return a whole page that needs nothing from anywhere else; ``parts`` are HTML, empty ones are left out."""
    return "\n".join(
        (
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8"/>',
            '<meta name="viewport" content="width=device-width, initial-scale=1"/>',
            f"<title>{escape(title)}</title>",
            f"<style>{style}</style>",
            "</head>",
            "<body>",
            *(part for part in parts if part),
            "</body>",
            "</html>",
            "",
        )
    )


def section(head: str, body: str) -> str:
    """Return a section under its head; nothing where ``body``, which is HTML, is empty."""
    return f"<section><h2>{escape(head)}</h2>{body}</section>" if body else ""


def list_of(texts: Iterable[str], kind: str = "ul") -> str:
    """Return a list of texts, ``ul`` or in order, ``ol``; nothing without any."""
    items = "".join(f"<li>{words(text)}</li>" for text in texts)
    return f"<{kind}>{items}</{kind}>" if items else ""


def words(text: str) -> str:
    """Return a text for the page, begun with a capital: what stands between back ticks is a name and is set as one."""
    return re.sub(r"`([^`]+)`", r"<em>\1</em>", escape(text[:1].upper() + text[1:]))


def table(heads: Sequence[str], rows: Iterable[Sequence[str]], numbers: set[int] | None = None) -> str:
    """Return a table; the columns in ``numbers``, counted from 0, are set to the right. Nothing without rows."""
    right = numbers or set()

    def cells(row: Sequence[str], tag: str) -> str:
        marks = [' class="n"' if at in right else "" for at in range(len(row))]
        return "".join(f"<{tag}{mark}>{escape(text)}</{tag}>" for mark, text in zip(marks, row, strict=True))

    body = "".join(f"<tr>{cells(row, 'td')}</tr>" for row in rows)
    return f'<div class="wide"><table><tr>{cells(heads, "th")}</tr>{body}</table></div>' if body else ""
