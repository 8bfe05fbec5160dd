"""A maker reads lengths as she measures: in inches or in centimetres, never in both, wherever a garment is told of.

What stands in millimetres for everybody: the marks that prove a printer and the taping (100 mm, 4 in, and lines told in both), and the widths and
thicknesses of bones, since that is how they are sold.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from fanblock.bundle import printed_on
from fanblock.cli.main import main
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.dials import SOLD_IN_MM
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Words
from fanblock.sheet.paper import A4
from fanblock.sheet.report import report_html
from fanblock.sheet.views import Views
from fanblock.shipped import recipe_ids
from fanblock.wearer.library import open_wearer

TEST_MARKS = re.compile(
    r"\b\d+ mm \([\d /]+ in\)|\b100 mm\b|\b4 in\b|\d+(?:\.\d+)? × \d+(?:\.\d+)? mm|in millimetres", re.IGNORECASE
)
"""What everybody reads alike."""

METRIC = re.compile(r"\d ?(?:mm|cm|m)\b|\bcentimet|\bmillimet")
INCHES = re.compile(r"\d ?(?:in|yd)\b(?! all)|\d ?[\"″]|\binch")
"""Lengths in the units of one and of the other; “3 in all” is none."""


def texts_of_html(page: str) -> Iterator[str]:
    """Yield what a page says, text by text; the words of pictures among it, their style sheets not."""
    page = re.sub(r"<style.*?</style>", "", page, flags=re.DOTALL)
    yield from (html.unescape(text).strip() for text in re.findall(r">([^<>]+)<", page))


def texts_of_pdf(pattern: Pattern, views: Views) -> Iterator[str]:
    """Yield every line of text on the pages for a home printer."""
    laid, _ = printed_on(pattern, A4, views.pieces)
    groups = [*laid.drawing.groups, *(group for page in laid.pages for group in (*page.under, *page.over))]
    yield from (item.text for group in groups for item in group.items if isinstance(item, Words))


def wrong(texts: Iterator[str], other: re.Pattern[str], bones: frozenset[str] = frozenset()) -> list[str]:
    """Return the texts that hold a length in the other's units, but for what is the width of bones and nothing else."""
    return sorted({text for text in texts if text not in bones and other.search(TEST_MARKS.sub("", text))})


@pytest.mark.parametrize("recipe", recipe_ids())
@pytest.mark.parametrize(("wearer", "other"), [("ferrywoman", METRIC), ("innkeeper", INCHES)], ids=["inches", "cm"])
def test_every_length_is_told_in_the_wearers_units(wearer: str, other: re.Pattern[str], recipe: str) -> None:
    """Report, printed pages, checks, notes and dials of every shipped recipe."""
    pattern = draft_pattern(open_wearer(wearer), open_recipe(recipe))
    views = Views(pattern)
    bones = frozenset(words for name, words, _ in pattern.dials if name in SOLD_IN_MM)
    assert wrong(texts_of_html(report_html(pattern, views)), other, bones) == []
    assert wrong(texts_of_pdf(pattern, views), other) == []
    said = [*(finding.says for finding in pattern.findings), *(words for _, words, _ in pattern.dials)]
    said += [note.says for note in pattern.notes if note.kind != "wearer"]
    assert wrong(iter(said), other, bones) == []


@pytest.mark.parametrize(("wearer", "other"), [("ferrywoman", METRIC), ("innkeeper", INCHES)], ids=["inches", "cm"])
def test_the_console_speaks_in_the_wearers_units(
    wearer: str, other: re.Pattern[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """All that `draft` says of the open gown, which has stomacher, straps and sleeves."""
    assert main(["draft", wearer, "gown-bodice-open-front", "--out", str(tmp_path / "gown"), "--paper", "a4"]) == 0
    told = capsys.readouterr().out.replace(str(tmp_path), "")
    assert "Open first:" in told
    assert wrong(iter(told.splitlines()), other) == []


def test_what_the_wearer_wrote_stays_as_it_was_written() -> None:
    """Her own words are hers; only what the program says is put into her units."""
    notes = open_wearer("ferrywoman").notes
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels"))
    assert tuple(note.says for note in pattern.notes if note.kind == "wearer") == tuple(notes)


def test_numbers_for_programs_stay_millimetres() -> None:
    """A check's number, its limit and its unit do not follow the words."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels"))
    check = next(one for one in pattern.findings if one.code == "shift-A-above")
    assert check.unit == "mm"
    assert check.limit == pytest.approx(6.0)
    assert check.says.endswith(" in")
