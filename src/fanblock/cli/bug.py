"""A report of our own faults that may be pasted anywhere: it holds no measures, no names and no folders."""

from __future__ import annotations

import platform
import re
import traceback
from collections.abc import Sequence
from importlib import metadata
from pathlib import PurePath

from fanblock.version import __version__

LIBRARIES = (
    "click",
    "defusedxml",
    "ezdxf",
    "fontpkg-source-sans-3",
    "networkx",
    "numpy",
    "pikepdf",
    "PyYAML",
    "resvg-py",
    "scipy",
    "shapely",
    "spyrrow",
    "svgelements",
    "uharfbuzz",
)
_QUOTED = re.compile(r"'[^'\n]*'|\"[^\"\n]*\"|“[^”\n]*”")
_PATH = re.compile(r"(?:[A-Za-z]:)?[^\s'\"“”]*[/\\][^\s'\"“”]*")
_DIGITS = re.compile(r"\d+(?:[.,]\d+)*")
_MOST_FRAMES = 30


def bug_report(error: BaseException, arguments: Sequence[str], commands: Sequence[str]) -> str:
    """Return the report of an unexpected error.

    ``arguments`` are those of the command line, of which only option names and words among ``commands`` are kept.
    """
    lines = [
        "fanblock met a fault of its own. It is not your file's fault, and nothing was half written.",
        "Please report it with the lines between the rules; numbers, names and folders are left out of them.",
        "-" * 72,
        f"fanblock {__version__}, Python {platform.python_version()}, {platform.system()} {platform.machine()}",
        ", ".join(f"{name} {_version(name)}" for name in LIBRARIES),
        f"command: fanblock {' '.join(_bare(arguments, commands))}".rstrip(),
        *_chain(error),
        "-" * 72,
    ]
    return "\n".join(lines)


def _version(library: str) -> str:
    try:
        return metadata.version(library)
    except metadata.PackageNotFoundError:
        return "missing"


def _bare(arguments: Sequence[str], commands: Sequence[str]) -> list[str]:
    kept = []
    for argument in arguments:
        if argument.startswith("-"):
            kept.append(argument.partition("=")[0])
        else:
            kept.append(argument if argument in commands else "…")
    return kept


def _chain(error: BaseException) -> list[str]:
    """The error and what it came from, the first cause first."""
    chain: list[BaseException] = []
    seen: BaseException | None = error
    while seen is not None and seen not in chain:
        chain.append(seen)
        seen = seen.__cause__ or (None if seen.__suppress_context__ else seen.__context__)
    lines = []
    for link in reversed(chain):
        frames = traceback.extract_tb(link.__traceback__)
        if len(frames) > _MOST_FRAMES:
            lines.append(f"  ({len(frames) - _MOST_FRAMES} earlier calls left out)")
        lines += [f"  {_module(frame.filename)}:{frame.lineno} in {frame.name}" for frame in frames[-_MOST_FRAMES:]]
        lines.append(f"{type(link).__name__}: {discreet(str(link))}".rstrip(": "))
    return lines


def _module(filename: str) -> str:
    parts = PurePath(filename).parts
    if "fanblock" in parts:
        last = len(parts) - 1 - parts[::-1].index("fanblock")
        return "/".join(parts[last:])
    return parts[-1] if parts else filename


def discreet(text: str) -> str:
    """Return a message without what it quotes, without numbers, and without folders.

    >>> discreet("no 'ferrywoman' in /home/me/w.yaml: 910.5 mm")
    "no '…' in w.yaml: # mm"
    """
    text = " ".join(text.split())[:300]
    text = _QUOTED.sub("'…'", text)
    text = _PATH.sub(lambda found: re.split(r"[/\\]", found[0])[-1], text)
    return _DIGITS.sub("#", text)
