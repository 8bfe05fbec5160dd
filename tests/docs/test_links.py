"""Links within the pages lead somewhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.docs.pages import DOCS, PAGES, anchors, links, name_of


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_links_resolve(page: Path) -> None:
    """Every link names a file or folder that is there, and a heading of that page."""
    for link in links(page):
        name, _, anchor = link.partition("#")
        target = (page.parent / name).resolve() if name else page
        assert target.exists(), link
        if anchor:
            assert anchor in anchors(target), link


def test_every_page_can_be_found_from_the_index() -> None:
    """From the index one comes to every page, in a few clicks."""
    found, waiting = set(), [DOCS / "README.md"]
    while waiting:
        page = waiting.pop()
        if page in found:
            continue
        found.add(page)
        targets = [(page.parent / link.partition("#")[0]).resolve() for link in links(page)]
        waiting += [target for target in targets if target.suffix == ".md" and DOCS in target.parents]
    assert found == set(DOCS.rglob("*.md"))
