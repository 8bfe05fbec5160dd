"""``lining``: copies of the panels for one layer, as much smaller or larger as the turn of cloth asks, joined as they are."""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.pattern.model import Edge, Panel, Pattern, Seam
from fanblock.problems import FanblockError

TABS = "tabs: {slits: {side: 2}, corner: 10 mm}"


def lined(*steps: str, name: str = "ordinary", below: str = "open", gap: str = GAP) -> Pattern:
    """Return stays of three panels with these steps on them; the first of them is step 8."""
    seams = (side_front(below_waist=below), side_back(below_waist=below))
    return made(recipe(*([gap] if gap else []), TOP, HEM, *seams, RED, THREE, *steps, makes="stays"), name)


def lining(panels: str = "front, side, back", layer: str = "lining", **options: str) -> str:
    """Return a lining step; it lies 4 mm inside unless it is told otherwise."""
    chosen = options or {"inside": "4 mm"}
    words = "".join(f", {key.replace('_', ' ')}: {value}" for key, value in chosen.items())
    return f"lining: {{layer: {layer}, panels: [{panels}]{words}}}"


def copies(pattern: Pattern, layer: str = "lining") -> list[Panel]:
    """Return the pieces of a layer."""
    return [panel for panel in pattern.panels if panel.layer == layer]


def waist(panels: list[Panel]) -> float:
    """Return what the waist levels of panels add up to."""
    return sum(part.length_mm for panel in panels for part in panel.levels["waist"])


def seams_of(pattern: Pattern, layer: str = "lining") -> Iterator[tuple[Seam, Edge, Edge]]:
    """Yield a layer's seams with both their edges."""
    for seam in pattern.seams:
        front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
        if front.layer == layer:
            yield seam, front.edge(seam.front.edge), back.edge(seam.back.edge)


def test_a_lining_by_hand() -> None:
    """4 mm further in is 2π x 4 = 25.13 mm less round, half of it in a half (published: 0.63 cm for each mm)."""
    pattern = lined(lining())
    drafted = [panel for panel in pattern.panels if not panel.added]
    assert waist(drafted) - waist(copies(pattern)) == pytest.approx(math.pi * 4.0, abs=0.01)
    assert 2.0 * math.pi * 10.0 / 10.0 == pytest.approx(6.3, abs=0.02)  # a millimetre of cloth
    assert [panel.name for panel in copies(pattern)] == ["front lining", "side lining", "back lining"]
    assert [panel.cuts for panel in copies(pattern)] == [(("lining", 2),)] * 3
    assert failed(pattern) == []
    found = next(finding for finding in pattern.findings if finding.code == "girth-layer-lining")
    assert found.says == (
        "the lining lies 4.0 mm inside: its pieces are 25.1 mm less round than what they are copies of; by the turn of cloth "
        "25.1 mm. At the waist they measure 584.5 mm, the others 609.6 mm"
    )


def test_a_panel_has_its_part_of_the_turn() -> None:
    """Each panel is narrower by its part of the girth: a third of the waist has about a third of the turn."""
    pattern = lined(lining())
    for copy in copies(pattern):
        panel = pattern.by_name[copy.copy_of]
        part = waist([panel]) / waist([one for one in pattern.panels if not one.added])
        assert waist([panel]) - waist([copy]) == pytest.approx(part * math.pi * 4.0, abs=1.2)


def test_centre_and_lacing_edges_stay() -> None:
    """Only seams move: the centre front and the lacing edge are as long as before and lie where they did."""
    pattern = lined(lining())
    for panel, edge in (("front", "center front"), ("back", "lacing edge")):
        one, other = (LineString(pattern.by_name[name].edge(edge).curve.points) for name in (panel, f"{panel} lining"))
        assert one.hausdorff_distance(other) < 0.01


@settings(max_examples=15)
@given(st.floats(-6.0, 8.0).filter(lambda mm: abs(mm) > 1.0), st.booleans(), st.sampled_from(SOME))
def test_what_holds_for_every_layer(inside: float, tabbed: bool, name: str) -> None:
    """The turn of cloth is exact, its seams agree to a tenth of a millimetre, and all checks hold."""
    side = {"inside": f"{inside:.2f} mm"} if inside > 0.0 else {"outside": f"{-inside:.2f} mm"}
    pattern = lined(*([TABS] if tabbed else []), lining(**side), name=name)
    assert failed(pattern) == []
    drafted = [panel for panel in pattern.panels if not panel.added]
    assert waist(drafted) - waist(copies(pattern)) == pytest.approx(math.pi * round(inside, 2), abs=0.02)
    found = list(seams_of(pattern))
    assert len(found) == 2
    for _, front, back in found:
        assert LineString(front.curve.points).length == pytest.approx(LineString(back.curve.points).length, abs=0.1)
    assert all(Polygon(panel.loop()).is_valid for panel in copies(pattern))


def test_letters_and_ticks_are_those_of_the_panels() -> None:
    """A to A, as in the other layers; a layer has its own pieces, not its own letters."""
    pattern = lined(lining())
    by_name = {seam.name: seam for seam in pattern.seams}
    for seam, front, _ in seams_of(pattern):
        first = by_name[seam.name.removeprefix("lining ")]
        assert seam.letter == first.letter == front.letter
        ticks = [
            [(notch.kind, notch.count) for notch in pattern.by_name[end.panel].notches if notch.edge == end.edge]
            for end in (seam.front, first.front)
        ]
        assert ticks[0] == ticks[1] != []


def test_a_lining_that_ends_at_the_waist() -> None:
    """No tabs: every piece ends on the waist level, where the seams' waist bars are."""
    pattern = lined(TABS, lining(inside="3 mm", down_to="waist"))
    assert failed(pattern) == []
    for copy in copies(pattern):
        (hem,) = (edge for edge in copy.edges if edge.kind == "hem")
        assert max(abs(pattern.block.where(hem.curve.points)[1])) < 0.02
        assert copy.slits == ()
        assert not any(edge.kind == "slit" for edge in copy.edges)
    for _, front, back in seams_of(pattern):
        assert front.waist_at_mm == pytest.approx(0.0, abs=0.01)
        assert back.waist_at_mm == pytest.approx(back.curve.length_mm, abs=0.01)


def test_a_layer_that_ends_between_waist_and_hem() -> None:
    """Cut off 30 mm below the waist across seams that are sewn on: smooth across them, and 30 mm along the centre front."""
    pattern = lined(lining(inside="2 mm", down_to="waist - 30 mm"), below="sewn")
    assert failed(pattern) == []
    front = pattern.by_name["front lining"]
    drafted = pattern.by_name["front"]
    depth = 80.0 - 30.0
    cut = drafted.edge("center front").curve.length_mm - front.edge("center front").curve.length_mm
    assert cut == pytest.approx(depth, abs=0.1)


def test_an_interlining_cut_short_of_the_edges() -> None:
    """6 mm short above and below: another library's inward buffer finds the same, and the sides stay where they were."""
    pattern = lined(lining(layer="interlining", inside="0 mm", short_of_edges="6 mm"), below="sewn")
    assert failed(pattern) == []
    for copy in copies(pattern, "interlining"):
        panel = pattern.by_name[copy.copy_of]
        for name in ("top edge", "hem"):
            one, other = (LineString(each.edge(name).curve.points) for each in (panel, copy))
            middle = other.interpolate(0.5, normalized=True)
            assert one.distance(middle) == pytest.approx(6.0, abs=0.05)
        assert Polygon(copy.loop()).difference(Polygon(panel.loop())).area < 0.01


def test_a_lining_longer_below() -> None:
    """5 mm longer (TRADE: half a centimetre, common practice): below the waist bars every seam has 5 mm more."""
    plain, longer = (lined(lining(inside="3 mm", down_to="waist", **more)) for more in ({}, {"longer": "5 mm"}))
    for (_, one, _), (_, other, back) in zip(seams_of(plain), seams_of(longer), strict=True):
        assert other.curve.length_mm - one.curve.length_mm == pytest.approx(5.0, abs=0.15)
        assert other.waist_at_mm == pytest.approx(5.0, abs=0.15)
        assert back.waist_at_mm is not None
        assert back.curve.length_mm - back.waist_at_mm == pytest.approx(5.0, abs=0.15)
    assert failed(longer) == []
    note = [note.says for note in longer.notes if note.kind == "sewing lining"]
    assert note == [
        "The lining (pieces 4 to 6) lies 3.0 mm inside the layer that was drafted and is cut smaller for it: 18.8 mm all round, "
        "shared among the seams. Sew it together by itself, letter to letter; set it in smooth but not strained. It is 5.0 mm "
        "longer below than the rest: ease that in."
    ]


def test_a_turn_finer_than_the_scissors() -> None:
    """0.2 mm of cloth changes no seam by a millimetre: no pieces of its own, and the panels are cut of that layer too."""
    pattern = lined(lining(inside="0.2 mm"), "cut: {outer: 2}")
    assert copies(pattern) == []
    assert [panel.cuts for panel in pattern.panels] == [(("outer", 2), ("lining", 2))] * 3
    assert [note.says for note in pattern.notes if note.kind == "sewing lining"] == [
        "The lining lies so near the cloth that was drafted that it differs by 1.3 mm all round, less than a millimetre at any "
        "seam: cut it by the same outline."
    ]


def test_a_lining_with_its_gusset() -> None:
    """The slit, its piece and both their seams are copied; without the piece the slit stays open and the note says so."""
    gusset = "gusset: {name: gusset, panel: side, edge: top edge, at: 40%, depth: 60 mm, width: 30 mm}"
    pattern = lined(gusset, lining("front, side, back, gusset"))
    assert failed(pattern) == []
    assert len(list(seams_of(pattern))) == 4
    copy = pattern.by_name["gusset lining"]
    assert (copy.let_in, copy.copy_of, copy.levels) == (True, "gusset", {})
    bare = lined(gusset, lining("front, side, back"))
    assert failed(bare) == []
    assert [note.says for note in bare.notes if note.kind == "sewing lining"][-1].endswith(
        " It has no piece for gusset: there the slit in it stays open."
    )


def test_layers_are_told_apart_from_what_is_worn() -> None:
    """They have no part in girths, in the fold or binding of the others, nor in what is counted of these."""
    pattern = lined(lining(), "grain: {front: center front}", "cut: {outer: 2, on fold: [front]}")
    without = lined("grain: {front: center front}", "cut: {outer: 2, on fold: [front]}")
    assert pattern.girths == without.girths
    front = pattern.by_name["front lining"]
    assert (front.fold, front.cuts) == ("center front", (("lining", 1),))
    assert front.grain is not None
    direction = front.grain[1] - front.grain[0]
    assert abs(direction[0]) < 1e-6  # along the centre front, as the panel's
    assert front.loose == "sewn in along the edges"


BAD = {
    "nothing above where it ends": (
        (lining(inside="3 mm", down_to="bust + 400 mm"),),
        "step 8 (lining) › down to › nothing of panel “front” lies above where the layer shall end. Leave that panel out.",
    ),
    "cut so short that it crosses itself": (
        (lining(inside="0 mm", short_of_edges="90 mm", down_to="waist"),),
        "step 8 (lining) › short of edges › panel “side” cannot be cut short so. Cut it less short, or end it higher.",
    ),
}


@pytest.mark.parametrize("slip", BAD)
def test_layers_that_cannot_be_cut_are_refused(slip: str) -> None:
    """What is wrong on this body, and what to do."""
    steps, says = BAD[slip]
    with pytest.raises(FanblockError) as caught:
        lined(*steps)
    assert str(caught.value).splitlines()[0].partition(": ")[2] == says


def test_a_gore_cannot_be_cut_off() -> None:
    """Nobody can tell where a line across the block would lie on it."""
    gore = "gusset: {name: gore, in seam: side back, width: 50 mm}"
    with pytest.raises(FanblockError) as caught:
        lined(gore, lining("front, side, back, gore", inside="3 mm", down_to="waist"))
    assert str(caught.value).partition(": ")[2] == (
        "step 9 (lining) › down to › “gore” is not cut from the block, so nobody can tell where the layer would end on it. "
        "Leave that piece or `down to` out."
    )


def test_a_panel_without_a_seam_has_nowhere_to_be_narrower() -> None:
    """One piece from centre to centre."""
    with pytest.raises(FanblockError) as caught:
        made(recipe(TOP, HEM, "separate: {panels: [whole]}", lining("whole")))
    assert str(caught.value).partition(": ")[2] == (
        "step 4 (lining) › panels › panel “whole” has no seam at which it could be made narrower. Leave it out."
    )


STATIC = {
    "inside and outside": (
        (lining(inside="2 mm", outside="1 mm"),),
        "step 8 (lining) › outside › stands beside `inside`. A layer lies on one side of the cloth that was drafted.",
    ),
    "no panels": ((lining(""),), "step 8 (lining) › panels › names none. Name the panels that have this layer."),
    "a panel twice": (
        (lining("front, front"),),
        "step 8 (lining) › panels › “front” stands twice. Name every panel once.",
    ),
    "a panel that is not there": (
        (lining("front, sides"),),
        "step 8 (lining) › panels › there is no panel “sides” in `separate` (step 7). Did you mean “side”?",
    ),
    "an odd count": (
        (lining(inside="2 mm", count="3"),),
        "step 8 (lining) › count › got 3, needs an even number from 2. Panels are cut in pairs, one for each half.",
    ),
    "less than nothing": (
        (lining(inside="-2 mm"),),
        "step 8 (lining) › inside › got -2.0 mm, needs 0 or more. Leave out the minus.",
    ),
    "counted twice": (
        (lining(), "cut: {outer: 2, lining: 2}"),
        "step 9 (cut) › lining › the lining has pieces of its own (step 8), which are counted there. "
        "Take `lining` out here, or say it for the panels without one.",
    ),
    "a layer without a name": (
        (lining(layer='"2nd layer"'),),
        "step 8 (lining) › layer › “2nd layer” cannot be a name.",
    ),
    "the same layer twice": (
        (lining("front"), lining("front")),
        "step 9 (lining) › there is a panel “front lining” already. Give every piece a name of its own.",
    ),
}


@pytest.mark.parametrize("slip", STATIC)
def test_words_that_make_no_layer(slip: str) -> None:
    """What is wrong in the recipe, and what to do."""
    steps, says = STATIC[slip]
    with pytest.raises(FanblockError) as caught:
        lined(*steps)
    assert any(text.partition(": ")[2].startswith(says) for text in str(caught.value).splitlines())


def test_a_layer_of_some_panels_may_be_counted_for_the_others() -> None:
    """The front has an interlining of its own outline, the side is cut of it by its own."""
    steps = (lining("front", layer="interlining", inside="2 mm"), "cut: {panels: [side], outer: 2, interlining: 2}")
    pattern = lined(*steps)
    assert pattern.by_name["side"].cuts == (("outer", 2), ("interlining", 2))
    assert failed(pattern) == []
