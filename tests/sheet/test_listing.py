"""The lists in words, in the report and on printed pages."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.sheet.real import drafted

from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Words
from fanblock.sheet.json import pattern_json
from fanblock.sheet.listing import (
    binding_table,
    bone_sentences,
    bone_table,
    bone_words,
    lace_sentences,
    lace_table,
    tables,
)
from fanblock.sheet.listpages import list_pages
from fanblock.sheet.paper import A4, LETTER
from fanblock.sheet.report import report_html
from fanblock.sheet.squares import SQUARE_NAME


def stays() -> Pattern:
    """Half-boned stays of someone who measures in centimetres."""
    return drafted("innkeeper", "stays-five-panels")


def inches() -> Pattern:
    """Fully boned stays of someone who measures in inches."""
    return drafted("ferrywoman", "stays-1740s-fully-boned")


def test_every_bone_stands_in_the_list_once() -> None:
    """The numbers in the list are those of the channels, and their counts add up to all bones of both halves."""
    for pattern in (stays(), inches()):
        rows = bone_table(pattern)
        for panel in pattern.panels:
            said = [row[1] for row in rows if row[0] == f"{panel.number} {panel.name}" and "curved" not in row[1]]
            numbers = [number for text in said for number in spelled(text)]
            assert sorted(numbers) == [one.number for one in panel.channels if one.number]
        whole = sum(2 for panel in pattern.panels for one in panel.channels if one.number)
        assert sum(int(row[4]) for row in rows if "curved" not in row[1]) == whole


def spelled(text: str) -> list[int]:
    """The numbers that a text such as 1-3, 5 stands for."""
    found: list[int] = []
    for part in text.split(", "):
        first, _, last = part.partition("-")
        found += range(int(first), int(last or first) + 1)
    return found


def test_lengths_are_in_the_wearer_s_units() -> None:
    """Half centimetres for one, quarter inches for the other; bones themselves in millimetres, as they are sold."""
    assert all(re.fullmatch(r"\d+\.[05] cm", row[3]) for row in bone_table(stays()))
    assert all(re.fullmatch(r"\d+( [13]/4| 1/2)? in", row[3]) for row in bone_table(inches()))
    assert bone_words(stays().panels[0].channels[0].bone) == "6 × 1.5 mm synthetic whalebone"
    first = next(bone_sentences(stays()))
    assert first.startswith("Bone a, 6 × 1.5 mm synthetic whalebone: ")
    assert re.search(r": \d+\.\d m in all, for \d+ of them, \d+ of \d+\.\d cm to spare, and 5 % of waste\.$", first)
    assert re.search(r"\d+ (\d/\d )?yd in all", next(bone_sentences(inches())))


def test_both_strips_of_a_spiral_are_told() -> None:
    """Left and right rows stand beside each other; first and last agree, the others are staggered."""
    pattern = stays()
    lacing = pattern.lacings[0]
    rows = lace_table(lacing, pattern.body.units)
    assert len(rows) == len(lacing.left_mm)
    assert rows[0][1] == rows[0][2] == "1 cm"
    assert rows[-1][1] == rows[-1][2]
    assert all(left != right for _, left, right in rows[1:-1])
    said = " ".join(lace_sentences(lacing, pattern.body.units))
    assert f"{2 * len(rows)} eyelets in all, {len(rows)} on either half, 12 mm from the lacing edge" in said
    assert "on the left half the second hole is only half a space down, on the right half the last one" in said
    assert re.search(r"Lace: \d\.\d m, with its tails, for a gap of 5\.0 cm\.", said)
    crossed = " ".join(lace_sentences(replace(lacing, way="crossed"), "cm"))
    assert "the holes stand in level pairs" in crossed


def test_binding_is_summed() -> None:
    """All of it first, then its parts, whose printed lengths add up to it; one length is bought, 5 % more."""
    rows = binding_table(stays())
    assert [row[0] for row in rows] == ["all", "of it: top edge", "of it: lower edge"]
    whole, top, low = (float(row[1].removesuffix(" cm")) for row in rows)
    assert whole == pytest.approx(top + low, abs=1e-6)
    assert float(rows[0][2].removesuffix(" m")) >= 1.05 * whole / 100.0
    assert [row[2] for row in rows[1:]] == ["–", "–"]


def test_printed_inches_add_up() -> None:
    """The sum of binding in eighths of an inch is that of the numbers below it."""
    whole, *parts = (sum(map(Fraction, row[1].removesuffix(" in").split())) for row in binding_table(inches()))
    assert whole == sum(parts)


def test_a_point_without_a_bone_is_meant() -> None:
    """The point of narrow-fronted stays has no room for a channel below its longest bone, and the list says so."""
    said = [line for line in bone_sentences(drafted("ferrywoman", "stays-five-panels")) if "is meant to" in line]
    assert len(said) == 1
    assert said[0].startswith("The lowest bone of piece 1 (center front) ends 1 3/4 in above the lower edge")


def test_the_report_holds_all_lists() -> None:
    """Bones, eyelets and lace, binding: each under its heading, with what found no place."""
    text = report_html(stays())
    for head in ("<h2>Bones</h2>", "<h2>Eyelets and lace: lacing edge</h2>", "<h2>Binding</h2>"):
        assert head in text
    crowded = drafted("pilot", "stays-five-panels")
    left_out = [note.says for note in crowded.notes if note.kind == "bones"]
    assert left_out
    assert all(says in report_html(crowded) for says in left_out)
    assert "<h2>Bones</h2>" not in report_html(drafted("innkeeper", "falling-collar"))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("pattern", [stays(), inches()], ids=["centimetres", "inches"])
def test_printed_pages_hold_all_rows_and_marks_to_measure(pattern: Pattern, paper: object) -> None:
    """Every row of every list stands on one of the pages, and each page carries a square or two pairs of bars."""
    pages = list_pages(pattern, paper)  # type: ignore[arg-type]
    assert pages
    texts = [item.text for page in pages for group in page.groups for item in group.items if isinstance(item, Words)]
    for _, _, rows, _ in tables(pattern):
        for row in rows:
            assert all(cell in texts or cell.split()[0] in " ".join(texts) for cell in row)
    for page in pages:
        assert [group.name for group in page.groups].count(SQUARE_NAME) in (1, 2)


def test_a_pattern_without_lists_has_no_pages_of_them() -> None:
    """A collar wants no bones."""
    assert list_pages(drafted("innkeeper", "falling-collar"), A4) == ()


def test_a_stranger_reads_channels_eyelets_and_lists() -> None:
    """The JSON holds every channel with its line and rows, every eyelet, and the lists."""
    pattern = inches()
    data = json.loads(pattern_json(pattern))
    for panel, written in zip(sorted(pattern.panels, key=lambda each: each.number), data["panels"], strict=True):
        assert len(written["channels"]) == len(panel.channels)
        for channel in written["channels"]:
            (x0, y0), (x1, y1) = channel["line"][0], channel["line"][-1]
            if channel["kind"] == "bone":
                assert ((x0 - x1) ** 2 + (y0 - y1) ** 2) ** 0.5 == pytest.approx(channel["length"], abs=1e-3)
            assert channel["bone"]["of"] == "synthetic whalebone"
    back = data["panels"][-1]
    lacing = data["lists"]["lacings"][0]
    halves = {
        half: sorted(one["at"] for one in back["eyelets"] if one["half"] in (half, "both"))
        for half in ("left", "right")
    }
    assert halves["left"] == lacing["left"]
    assert halves["right"] == lacing["right"]
    assert lacing["lace_with_tails"] > lacing["lace"]
    bones = data["lists"]["bones"]
    assert sum(row["count"] for row in bones) == sum(kind["count"] for kind in data["lists"]["bones_by_kind"])
    assert all(row["cut"] <= row["channel"] + 0.01 for row in bones)
    assert set(data["lists"]["binding"]["edges"]) == {"top edge", "lower edge"}
