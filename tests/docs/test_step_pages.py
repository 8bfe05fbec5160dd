"""One page a step, one step a page; every option is told, with a snippet and a picture."""

from __future__ import annotations

from dataclasses import fields

import pytest
from tests.docs.pages import DOCS, boxes, text_of

from fanblock.recipe.decode import key_of
from fanblock.steps.table import TABLE, StepKind

STEPS = DOCS / "steps"


def slug(kind: StepKind) -> str:
    """What a step's page is called."""
    return kind.name.replace(" ", "-")


def test_pages_and_steps_match_both_ways() -> None:
    """Every row of the table has its page, every page its row."""
    assert {path.stem for path in STEPS.glob("*.md")} - {"README"} == {slug(kind) for kind in TABLE}


@pytest.mark.parametrize("kind", TABLE, ids=slug)
def test_a_step_page_tells_all_of_its_step(kind: StepKind) -> None:
    """A step's page is named for it, tells each option by its word, and shows its picture and a snippet."""
    page = STEPS / f"{slug(kind)}.md"
    text = text_of(page)
    assert text.startswith(f"# {kind.name}\n")
    assert f"<!-- made: options {kind.name} -->" in text
    for field in fields(kind.options):
        if not field.metadata.get("rest"):
            assert f"| `{key_of(field)}` |" in text
    assert f"(../figures/{slug(kind)}.svg)" in text
    assert any(box.page == page and box.text.startswith(f"- {kind.name}:") for box in boxes("yaml"))
