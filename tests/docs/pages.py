"""The pages people read, taken apart: code boxes, links, headings."""

from __future__ import annotations

import importlib.util
import re
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
FIRST_PAGES = tuple(path for path in (ROOT / "README.md",) if path.exists())
PAGES = (*FIRST_PAGES, *sorted(DOCS.rglob("*.md")))

_FENCE = re.compile(r"^```(?P<kind>[a-z]*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\((?P<to>[^()\s]+)\)")
_HEAD = re.compile(r"^#+ (?P<text>.+)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Box:
    """A box of code in a page: its kind and its text."""

    page: Path
    kind: str
    text: str

    @property
    def where(self) -> str:
        """The page's path, as a name for a test."""
        return self.page.relative_to(ROOT).as_posix()


def text_of(page: Path) -> str:
    """A page's text."""
    return page.read_text(encoding="utf-8")


def name_of(page: Path) -> str:
    """A page's path from the top."""
    return page.relative_to(ROOT).as_posix()


def boxes(kind: str) -> list[Box]:
    """All boxes of a kind in all pages."""
    found = ((page, box) for page in PAGES for box in _FENCE.finditer(text_of(page)))
    return [Box(page, box["kind"], box["text"]) for page, box in found if box["kind"] == kind]


def prose(page: Path) -> str:
    """A page without its boxes."""
    return _FENCE.sub("", text_of(page))


def links(page: Path) -> list[str]:
    """Where a page's links lead, those to the web left out."""
    return [link["to"] for link in _LINK.finditer(prose(page)) if not link["to"].startswith(("http:", "https:"))]


def anchors(page: Path) -> set[str]:
    """The names of a page's headings, as links call them."""
    return {_anchor(head["text"]) for head in _HEAD.finditer(prose(page))}


def _anchor(heading: str) -> str:
    kept = re.sub(r"[^\w\s-]", "", heading.lower())
    return re.sub(r"\s", "-", kept.strip())


@cache
def make() -> ModuleType:
    """The command that draws the pictures and writes the tables."""
    spec = importlib.util.spec_from_file_location("docs_make", DOCS / "make.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["docs_make"] = module
    spec.loader.exec_module(module)
    return module
