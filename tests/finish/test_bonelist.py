"""The lists: bones cut by hand, counted for the whole garment, and rounded as they are cut and sold."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.finish.sheets import LACING, SIX, lay, plan, sheet
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.finish.bonelist import bone_rows, bone_totals, cut_mm
from fanblock.pattern.bones import Bone
from fanblock.pattern.model import Panel, Pattern
from fanblock.units import sold_length
from fanblock.wearer.body import Body

CUT = "cut: {outer: 2, on fold: [front]}"


def garment(*steps: str) -> Pattern:
    """Return the sample garment, its front on the fold, with more steps."""
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, *steps, CUT))


def boned(units: str = "cm", **changes: object) -> Pattern:
    """Return a pattern of one full sheet: eleven bones in channels of 277.3 mm."""
    pattern = garment()
    channels = tuple(replace(one, number=at) for at, one in enumerate(lay(sheet(), plan(fully=True)).channels, start=1))
    panel: Panel = replace(sheet(), channels=channels, **changes)
    body: Body = replace(pattern.body, units=units)
    return replace(pattern, panels=(panel,), seams=(), body=body)


def test_bones_are_cut_down_to_half_a_centimetre_or_a_quarter_inch() -> None:
    """277.3 mm: 27.5 cm or 10 3/4 in; what is half a centimetre already stays."""
    assert cut_mm(277.3, "cm") == 275.0
    assert cut_mm(277.3, "in") == pytest.approx(10.75 * 25.4)
    assert cut_mm(275.0, "mm") == 275.0
    assert cut_mm(10.75 * 25.4, "in") == pytest.approx(10.75 * 25.4)


def test_lengths_are_bought_up_to_ten_centimetres_or_an_eighth_of_a_yard() -> None:
    """1,635 mm: 1.7 m or 1 7/8 yd (lengths as shops sell them, common practice)."""
    assert sold_length(1635.0, "cm") == "1.7 m"
    assert sold_length(1635.0, "in") == "1 7/8 yd"
    assert sold_length(1700.0, "cm") == "1.7 m"


def test_a_row_for_each_kind_and_length_counted_in_both_halves() -> None:
    """Eleven channels alike are one row of twenty-two bones, 6.05 m of them; with two of
    27.5 cm to spare and 5 % of waste (common practice) that makes 6.93."""
    pattern = boned()
    (row,) = bone_rows(pattern)
    assert (row.number, row.panel, row.channels) == (1, "sheet", tuple(range(1, 12)))
    assert (row.channel_mm, row.cut_mm, row.pieces) == (pytest.approx(277.3), 275.0, 22)
    (total,) = bone_totals(pattern)
    assert (total.bone, total.pieces, total.spares, total.longest_mm, total.tips) == (SIX, 22, 2, 275.0, 0)
    assert total.length_mm == pytest.approx((22 + 2) * 275.0 * 1.05)


def test_a_whole_piece_is_counted_once_and_steel_is_tipped() -> None:
    """A stomacher is no pair; every steel bone has two tips."""
    assert bone_rows(boned(whole=True))[0].pieces == 11
    pattern = boned()
    steel = tuple(replace(one, bone=Bone(6.0, 0.5, "flat steel")) for one in pattern.panels[0].channels)
    pattern = replace(pattern, panels=(replace(pattern.panels[0], channels=steel),))
    assert bone_totals(pattern)[0].tips == 44


def test_a_busk_is_one_and_has_no_spare() -> None:
    """One busk in the whole garment."""
    pattern = garment("busk: {panel: front}")
    (row,) = bone_rows(pattern)
    assert (row.name, row.pieces) == ("busk", 1)
    (total,) = bone_totals(pattern)
    assert (total.pieces, total.spares, total.length_mm) == (1, 0, row.cut_mm)


def test_a_curved_bone_across_a_closed_front_is_one_of_twice_the_length() -> None:
    """Its parts on two panels and in both halves make one bone; where the front is open it is two."""
    step = "shaping bones: {panels: [front, side], through: [[center front, bust], [35%, bust]]}"
    pattern = garment(step)
    parts = sum(one.line.length_mm for panel in pattern.panels for one in panel.channels)
    (row,) = bone_rows(pattern)
    assert (row.name, row.pieces) == ("shaping 1", 1)
    assert row.channel_mm == pytest.approx(2.0 * parts)
    laced = made(
        recipe("lacing gap: {at: center front, width: 20 mm}", TOP, HEM, side_front(), side_back(), RED, THREE,
               step.replace("center front", "6%"))
    )  # fmt: skip
    (open_row,) = bone_rows(laced)
    assert open_row.pieces == 2


def test_bones_beside_eyelets_are_listed_with_the_others() -> None:
    """Two kinds on one panel are two rows, in the order of their channels."""
    pattern = garment(
        "eyelets: {from edge: 12 mm}",
        "channels: {panel: back, bone: 5 mm, beside: lacing edge}",
        "channels: {panel: back, bone: 7 mm, parallel: lacing edge, count: 1}",
    )
    rows = bone_rows(pattern)
    assert {row.bone.width_mm for row in rows} == {5.0, 7.0}
    assert sorted(number for row in rows for number in row.channels) == [1, 2, 3]
    assert [total.bone.width_mm for total in bone_totals(pattern)] == [5.0, 7.0]
    assert LACING in {edge.kind for edge in pattern.by_name["back"].edges}
