"""The parts of the pages that are taken from the program say what it says today."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.docs.pages import DOCS, PAGES, make, name_of, text_of


@pytest.mark.parametrize("page", [page for page in PAGES if DOCS in page.parents], ids=name_of)
def test_made_parts_are_up_to_date(page: Path) -> None:
    """Written anew, a page's tables are as they stand."""
    assert make().tables.with_tables(text_of(page)) == text_of(page), "run: python docs/make.py"
