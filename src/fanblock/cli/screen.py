"""Writing to the terminal so that it never breaks: odd terminals, closed pipes, hidden characters, narrow windows.

*Answers* go to standard output, problems and progress to standard error.
"""

from __future__ import annotations

import codecs
import json
import os
import re
import shutil
import sys
import textwrap
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any, TextIO

import click

from fanblock.problems import ExportError, Problem

NARROWEST, WIDEST = 50, 100
"""Fewest and most columns that answers are set in."""

_PLAINER = {
    "“": '"', "”": '"', "‘": "'", "’": "'", "›": ">", "…": "...", "–": "-", "—": "-", "−": "-", "·": "-",
    "×": "x", "→": "->", "°": " deg", "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "′": "'", "″": '"', "\u00a0": " ",
}  # fmt: skip
_HIDDEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]")


def prepare() -> None:
    """Make both streams take every character: what they cannot show is written in plainer ones."""
    codecs.register_error("fanblock", _plainer)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="fanblock")


def _plainer(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    text = error.object[error.start : error.end]
    return "".join(_PLAINER.get(sign, "?") for sign in text), error.end


def say(text: str = "", *, style: str = "") -> None:
    """Write lines of the answer; ``style`` is ``good``, ``look``, ``bad``, ``head`` or nothing."""
    _write(text, style, err=False)


def tell(text: str, *, style: str = "") -> None:
    """Write lines beside the answer: problems and the like."""
    _write(text, style, err=True)


# Colour only ever adds to words that say the same.
_STYLES: Mapping[str, Mapping[str, Any]] = {
    "good": {"fg": "green", "bold": True},
    "look": {"fg": "yellow", "bold": True},
    "bad": {"fg": "red", "bold": True},
    "head": {"bold": True},
}


def _write(text: str, style: str, *, err: bool) -> None:
    name = "stderr" if err else "stdout"
    stream: TextIO | None = getattr(sys, name)
    if stream is None:
        return
    plain = _HIDDEN.sub("?", text)
    try:
        stream.write((click.style(plain, **_STYLES[style]) if style and _colored(stream) else plain) + "\n")
        stream.flush()
    except BrokenPipeError:
        _let_go(name)
    except OSError as error:
        _let_go(name)
        says = f"the answer cannot be written ({(error.strerror or 'unknown reason').lower()})."
        raise ExportError([Problem("cannot-answer", "", says, "Make room on the disk it goes to.")]) from error


def _colored(stream: TextIO) -> bool:
    return stream.isatty() and "NO_COLOR" not in os.environ and sys.platform != "win32"


def _let_go(name: str) -> None:
    """Nobody reads this stream any more: what is still to be said goes nowhere, and the work goes on."""
    stream: TextIO = getattr(sys, name)
    try:
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, stream.fileno())
        os.close(null)
    except (OSError, ValueError):
        setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115


def settle() -> bool:
    """Write out what the streams still hold and tell whether that went well; a reader that has gone is no error."""
    well = True
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None or stream.closed:
            continue
        try:
            stream.flush()
        except OSError as error:
            well = well and isinstance(error, BrokenPipeError)
            _let_go(name)
    return well


def say_document(document: Mapping[str, Any]) -> None:
    """Write one JSON document: the whole answer for a machine."""
    say(json.dumps(document, indent=1, allow_nan=False))


def columns() -> int:
    """Return how many columns answers are set in."""
    return min(max(shutil.get_terminal_size((WIDEST, 24)).columns, NARROWEST), WIDEST)


def wrapped(text: str, indent: str = "", hang: str | None = None) -> str:
    """Return a text broken to the width of the screen; following lines begin with ``hang``.

    >>> wrapped("a " * 60, indent="- ").splitlines()[1][:3]
    '  a'
    """
    after = " " * len(indent) if hang is None else hang
    return textwrap.fill(
        " ".join(text.split()),
        columns(),
        initial_indent=indent,
        subsequent_indent=after,
        break_long_words=False,
        break_on_hyphens=False,
    )


@contextmanager
def working(what: str) -> Iterator[None]:
    """Say on a terminal what is being done while it is done, and wipe it away afterwards."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    line = f"… {what}"
    sys.stderr.write(f"\r{line}")
    sys.stderr.flush()
    try:
        yield
    finally:
        sys.stderr.write(f"\r{' ' * len(line)}\r")
        sys.stderr.flush()
