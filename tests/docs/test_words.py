"""The pages are written for people who sew, in the house's words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.docs.pages import DOCS, PAGES, name_of, prose, text_of

JARGON = (
    "boolean", "CLI", "dataclass", "dictionary", "float", "integer", "JSON schema", "module", "null", "parameter", "parse",
    "parser", "polygon", "polyline", "runtime", "string value", "syntax", "tuple", "variable", "YAML",
)  # fmt: skip
"""Words of programmers that have a plain one here."""

OTHER_WORDS = {
    "suppression": "take",
    "seam allowances of": "allowance",
    "mock-up": "toile",
    "muslin": "toile",
    "neckhole": "top edge",
    "centerline": "centre line",
}
"""Words for which the glossary has another; one word for each idea."""

PLACES = re.compile(r"(?<![\w./])/(?:home|root|tmp|usr|var|work|Users|mnt)\b|[A-Z]:\\")
"""Folders of somebody's machine."""

PROMISES = (
    "cures",
    "heals",
    "slims",
    "supports the back",
    "good for your",
    "improves posture",
    "harmless",
    "is safe to lace",
)
"""What must not be said: nothing is claimed about anybody's health."""


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_plain_words(page: Path) -> None:
    """No page speaks like a programmer, or uses a second word for an idea."""
    text = prose(page)
    for word in JARGON:
        assert not re.search(rf"\b{re.escape(word)}s?\b", text), word
    for word, ours in OTHER_WORDS.items():
        assert word not in text.lower(), f"{word}: write {ours}"


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_no_folder_of_anybody_s_machine_and_nothing_unfinished(page: Path) -> None:
    """No path of a machine, no blanks left to fill."""
    text = text_of(page)
    assert not PLACES.search(text)
    assert not re.search(r"\b(?:TODO|FIXME|XXX|TBD|lorem)\b", text)


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_nothing_is_promised(page: Path) -> None:
    """No page claims anything about health."""
    text = text_of(page).lower()
    for words in PROMISES:
        assert words not in text


def test_the_cautions_defer_to_clinicians_and_keep_scissors_at_hand() -> None:
    """The cautions say the things that must be said (C. Gau, 1998, for the tenth; the rest common practice)."""
    text = " ".join(text_of(DOCS / "cautions.md").split())
    for words in (
        "clinician",
        "scissors",
        "growing child",
        "numbness",
        "20 to 30 minutes",
        "not a medical",
        "more than 10 %",
    ):
        assert words in text.lower() or words in text


@pytest.mark.parametrize("page", [page for page in PAGES if DOCS in page.parents], ids=name_of)
def test_lines_fit_an_editor(page: Path) -> None:
    """Lines that people write are at most 120 letters long; tables, pictures and made parts may run on."""
    made = re.sub(r"<!-- made:.*?<!-- end -->", "", prose(page), flags=re.DOTALL)
    for line in made.splitlines():
        assert len(line) <= 125 or line.startswith(("|", "![")), line
