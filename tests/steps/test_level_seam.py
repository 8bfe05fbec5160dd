"""``level seam``: every panel that it crosses is cut into an upper and a lower one, whose edges are one line."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import (
    BODIES,
    GAP,
    HEM,
    ONE,
    RED,
    SOME,
    TOP,
    failed,
    made,
    recipe,
    recipe_text,
    seam,
    separate,
    side_back,
    side_front,
)

from fanblock.pattern.model import LOWER, SEAM, UPPER, Pattern
from fanblock.problems import FanblockError
from fanblock.recipe.explain import explained
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.sewing import joining

LONG = "hem: {height: waist - 160 mm}"
FLAT = "top edge: {through: [[center front, bust], [50%, bust], [center back, bust]]}"
SEAMS = (side_front(), side_back())
SIX = separate("front", "front skirt", "side", "side skirt", "back", "back skirt")
THREE = separate("front", "side", "back")


def level(options: str, name: str = "waist seam") -> str:
    """Return a level seam with these options."""
    return f"level seam: {{name: {name}, {options}}}"


def skirted(options: str, body: str = "ordinary", *, seams: tuple[str, ...] = SEAMS) -> Pattern:
    """Return a garment of three panels a half with skirts below a level seam."""
    return made(recipe(GAP, TOP, LONG, *seams, level(options), RED, SIX), body)


def test_a_tube_is_cut_into_two_oblongs() -> None:
    """By hand: where bust is waist, 900 mm, the half is an oblong 450 wide. From the bust, 175 mm up, to 80 mm below the waist
    it is 255 high; a seam at the waist leaves 175 above and 80 below. Its two edges are 450 long and name each other.
    """
    pattern = made(recipe(FLAT, HEM, level("height: waist"), separate("bodice", "skirt")), "bust is waist")
    upper, lower = pattern.panels
    assert (upper.name, upper.number, lower.name, lower.number) == ("bodice", 1, "skirt", 2)
    assert shapely.Polygon(upper.loop()).area == pytest.approx(450.0 * 175.0, abs=1.0)
    assert shapely.Polygon(lower.loop()).area == pytest.approx(450.0 * 80.0, abs=1.0)
    over, under = upper.edge("waist seam"), lower.edge("waist seam")
    assert (over.kind, over.across, under.kind, under.across) == (SEAM, LOWER, SEAM, UPPER)
    assert over.curve.length_mm == pytest.approx(450.0, abs=0.01)
    assert under.curve.length_mm == pytest.approx(450.0, abs=0.01)
    assert (over.mate.panel, over.mate.edge, over.letter) == ("skirt", "waist seam", "A")  # type: ignore[union-attr]
    assert (under.mate.panel, under.mate.edge, under.letter) == ("bodice", "waist seam", "A")  # type: ignore[union-attr]
    assert over.waist_at_mm is None
    assert [(notch.kind, round(notch.at_mm)) for notch in upper.notches] == [("seam", 180)]
    assert failed(pattern) == []


def test_the_waist_is_counted_once() -> None:
    """The seam along the waist is an edge of both panels; the waist belongs to the upper ones and comes to what it did."""
    whole = made(recipe(GAP, TOP, LONG, *SEAMS, RED, THREE))
    cut = skirted("height: waist")
    assert cut.girths[0].parts_mm == pytest.approx(whole.girths[0].parts_mm, abs=0.01)
    told = sum(part.length_mm for panel in cut.panels for part in panel.levels["waist"])
    assert told == pytest.approx(cut.girths[0].parts_mm, abs=0.2)
    assert [panel.name for panel in cut.panels if panel.levels["waist"]] == ["front", "side", "back"]


@settings(max_examples=24, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(BODIES)), st.integers(-90, 110), st.booleans())
def test_at_any_height_it_takes_nothing(body: str, height: int, first: bool) -> None:
    """At any height, drawn before or after the upright seams: no check fails, every level comes to what it did without it,
    the two edges of the level seam are one line, and together the panels are as large as before.
    """
    line = level(f"height: waist {'-' if height < 0 else '+'} {abs(height)} mm")
    steps = (line, *SEAMS) if first else (*SEAMS, line)
    cut, whole = (
        made(recipe(GAP, TOP, LONG, *steps, RED, SIX), body),
        made(recipe(GAP, TOP, LONG, *SEAMS, RED, THREE), body),
    )
    assert failed(cut) == []
    for one, other in zip(cut.girths, whole.girths, strict=True):
        assert one.parts_mm == pytest.approx(other.parts_mm, abs=0.05)
        assert one.open_mm == pytest.approx(other.open_mm, abs=0.05)
    for sewn in cut.seams:
        front = cut.by_name[sewn.front.panel].edge(sewn.front.edge).curve
        back = cut.by_name[sewn.back.panel].edge(sewn.back.edge).curve.reversed()
        if sewn.line == "waist seam":
            shares = np.linspace(0.0, 1.0, 21).tolist()
            off = [front.at(s * front.length_mm) - back.at(s * back.length_mm) for s in shares]
            assert np.abs(off).max() < 0.01
        assert front.length_mm == pytest.approx(back.length_mm, abs=0.01)
    areas = [sum(shapely.Polygon(panel.loop()).area for panel in pattern.panels) for pattern in (cut, whole)]
    assert areas[0] == pytest.approx(areas[1], rel=1e-4)


@pytest.mark.parametrize("body", SOME)
@pytest.mark.parametrize(
    "options",
    [
        "height: waist",
        "through: [[center front, waist - 30 mm], [50%, waist], [center back, waist - 10 mm]]",
        "pointed: front, through: [[center front, waist - 50 mm], [30%, waist], [60%, waist], [center back, waist]]",
    ],
    ids=["level", "shaped", "pointed"],
)
def test_level_shaped_and_pointed_are_sound(body: str, options: str) -> None:
    """Level, gently shaped or running out in a point before, no check fails on any body."""
    assert failed(skirted(options, body)) == []


def test_at_a_centre_line_it_stands_square_unless_it_is_pointed() -> None:
    """The report tells how far from square it meets the centre front; where it is pointed nothing is asked."""
    codes = {finding.code for finding in skirted("height: waist").findings}
    assert {"square-center-front-waist-seam-1"} <= codes
    through = "[[center front, waist - 50 mm], [30%, waist], [center back, waist]]"
    codes = {finding.code for finding in skirted(f"pointed: front, through: {through}").findings}
    assert "square-center-front-waist-seam-1" not in codes


def test_seams_that_open_below_the_waist_open_below_it() -> None:
    """Of a seam that parts into tabs everything below the level seam is the side of a tab, and nothing above it."""
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    for height in ("waist", "waist - 25 mm"):
        pattern = skirted(f"height: {height}", seams=seams)
        assert failed(pattern) == []
        assert [edge.kind for edge in pattern.by_name["front"].edges if edge.name.startswith("side front")] == ["seam"]
        skirt = [(edge.name, edge.kind) for edge in pattern.by_name["front skirt"].edges]
        assert ("side front below waist", "slit") in skirt
        assert [sewn.letter for sewn in pattern.seams] == ["A", "B", "C", "C", "C"]


def test_skirts_under_it_are_cut_into_tabs() -> None:
    """A panel that hangs from a level seam has its slits from there down, at shares of its upper edge."""
    slits = "tabs: {slits: {front skirt: [50%], side skirt: [33%, 67%]}, corner: 12 mm}"
    pattern = made(recipe(GAP, TOP, LONG, *SEAMS, level("height: waist"), RED, SIX, slits))
    skirt = pattern.by_name["side skirt"]
    head = skirt.edge("waist seam 2").curve.reversed()
    assert len(skirt.slits) == 2
    assert skirt.slits[0].start == pytest.approx(head.at(0.33 * head.length_mm), abs=0.05)
    assert failed(pattern) == []


def test_an_allowance_named_for_it_serves_all_its_pieces() -> None:
    """The name of a seam gives the width beyond every edge that lies on it, and that of an upright seam beyond both parts."""
    wide = "allowances: {waist seam: 22 mm, side front: 18 mm}"
    pattern = made(recipe(GAP, TOP, LONG, *SEAMS, level("height: waist"), RED, SIX, wide))
    widths = {(panel.name, edge): mm for panel in pattern.panels for edge, mm in panel.allowances.items()}
    assert {mm for (_, edge), mm in widths.items() if edge.startswith("waist seam")} == {22.0}
    assert {mm for (_, edge), mm in widths.items() if edge.startswith("side front")} == {18.0}
    assert {mm for (_, edge), mm in widths.items() if edge.startswith("side back")} == {15.0}


def test_explained_it_reads_to_the_same() -> None:
    """Written out in full a level seam is read again as it was."""
    read = recipe(GAP, TOP, LONG, *SEAMS, level("height: waist, to: side back"), RED, separate(*"abcde"))
    again = read_recipe(explained(read), "again.yaml")
    assert [step.options for step in again.steps] == [step.options for step in read.steps]


AT = "r.yaml:15"
WRONG = {
    "without a height": (
        (level("pointed: front"), ONE),
        f"{AT}:5: step 4 (level seam) › height › neither `height` nor `through` is given. Say at what height it runs.",
    ),
    "a height and points": (
        (level("height: waist, through: [[0%, waist], [100%, waist]]"), ONE),
        f"{AT}:60: step 4 (level seam) › through › stands beside a height. Keep one: one height, or points.",
    ),
    "points and a beginning": (
        (level("from: 20%, through: [[0%, waist], [100%, waist]]"), ONE),
        f"{AT}:56: step 4 (level seam) › through › stands beside `from` or `to`. The points say themselves where it begins "
        "and ends.",
    ),
    "one point": (
        (level("through: [[0%, waist]]"), ONE),
        f"{AT}:45: step 4 (level seam) › through › needs at least two points. Give them from front to back.",
    ),
    "the name of a place": (
        (level("height: waist", "waist"), ONE),
        f"{AT}:24: step 4 (level seam) › name › “waist” is the name of a place on every block. Name the seam otherwise, such "
        "as “waist seam”.",
    ),
    "a name twice": (
        (level("height: waist"), level("height: waist + 50 mm"), ONE),
        "r.yaml:16:24: step 5 (level seam) › name › there is a seam “waist seam” already. Give every seam a name of its own.",
    ),
    "a seam that ends on it before it is drawn": (
        (seam("s", "50%, top edge", "50%, waist seam"), level("height: waist"), ONE),
        f"{AT}:54: step 4 (seam) › through › point 2 › height › the level seam “waist seam” has not been drawn before this "
        "step. Move that seam before this step.",
    ),
    "after the draft is cut apart": (
        (ONE, level("height: waist")),
        "r.yaml:16:5: step 5 (level seam) › draws on the block, but stands after `separate` (step 4). Move it before that step.",
    ),
    "points from back to front": (
        (level("through: [[50%, waist], [20%, waist]]"), ONE),
        f"{AT}:5: step 4 (level seam) › seam “waist seam” › through › point 2 stands at 20% around, not behind point 1, at "
        "50%. Give the points from front to back.",
    ),
    "an end in the cloth": (
        (level("height: waist, to: 40%"), ONE),
        "r.yaml:16:5: step 5 (separate) › seam “waist seam” › it ends in the midst of the cloth, before it meets lacing edge "
        "at 93% around. Let its ends reach an edge or a seam.",
    ),
    "a beginning in the cloth": (
        (side_front(), level("height: waist, from: 40%"), ONE),
        "r.yaml:17:5: step 6 (separate) › seam “waist seam” › it ends in the midst of the cloth, before it meets side front "
        "at 14% around. Let its ends reach an edge or a seam.",
    ),
    "off the cloth": (
        (level("height: bust + 150 mm"), ONE),
        "r.yaml:16:5: step 5 (separate) › seam “waist seam” › it does not run through the cloth on this body. Move it up or "
        "down.",
    ),
    "two that cross": (
        (
            level("height: waist"),
            level("through: [[center front, waist - 20 mm], [center back, waist + 40 mm]]", "yoke seam"),
            ONE,
        ),
        "r.yaml:17:5: step 6 (separate) › seam “yoke seam” › it runs into waist seam. Move one of the two up or down.",
    ),
    "a take where a seam ends on it": (
        (level("height: waist"), seam("s", "50%, top edge", "50%, waist seam", take="{waist: 10 mm}"), ONE),
        "r.yaml:16:5: step 5 (seam) › seam “s” › take › it takes or springs where it ends on waist seam; its two sides could "
        "not meet there. Let it take nothing at that end.",
    ),
    "too few names": (
        (side_front(), level("height: waist"), separate("front", "side")),
        "r.yaml:17:5: step 6 (separate) › panels › 2 names are given, and the seams make 4 panels. Give one name for each, "
        "from front to back.",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_cannot_be_drawn_is_refused_whole(name: str) -> None:
    """The whole message says which seam, what is wrong and what to do."""
    steps, says = WRONG[name]
    with pytest.raises(FanblockError) as caught:
        made(read_recipe(recipe_text(GAP, TOP, LONG, *steps), "r.yaml"))
    assert str(caught.value) == says


def test_it_cannot_cross_a_shoulder() -> None:
    """A level so high that it runs into the shoulders, which are sewn to each other, is refused."""
    shoulders = """top edge:
      edges:
        - {name: neck, kind: neckline, through: [[center front, bust + 60 mm], [14%, bust + 160 mm]], straight: yes}
        - {name: front shoulder, kind: shoulder, through: [[22%, bust + 120 mm]], sewn to: back shoulder}
        - {name: armhole, kind: armhole, through: [[36%, bust], [60%, bust], [78%, bust + 120 mm]]}
        - {name: back shoulder, kind: shoulder, through: [[86%, bust + 160 mm]]}
        - {name: back neck, kind: neckline, through: [[center back, bust + 150 mm]]}"""
    with pytest.raises(FanblockError) as caught:
        made(recipe(GAP, shoulders, HEM, level("height: bust + 140 mm"), ONE))
    assert str(caught.value).endswith(
        "it runs into front shoulder, which is sewn to another edge. Move one of the two up or down."
    )


TAKE = "height: 40%, take: {center front: 6 mm, 50%: 0 mm}"


def upright_mm(pattern: Pattern, panel: str) -> float:
    """Return how long the centre front of a panel is."""
    return pattern.by_name[panel].edge("center front").curve.length_mm


def test_a_tube_loses_what_a_level_seam_takes_and_no_more() -> None:
    """By hand: where bust is waist the half is an oblong 450 mm wide. A take of 6 mm at the centre front that runs out smoothly
    to the middle takes 6 mm off the upper centre front, none off the back, and half of 6 · 225 mm² of cloth; below nothing.
    """
    steps = (FLAT, HEM, "{}", separate("bodice", "skirt"))
    plain, taken = (
        made(recipe(*(step.format(level(options)) if step == "{}" else step for step in steps)), "bust is waist")
        for options in ("height: 40%", TAKE)
    )
    assert failed(taken) == []
    assert upright_mm(plain, "bodice") - upright_mm(taken, "bodice") == pytest.approx(6.0, abs=1e-6)
    for panel, lost in (("bodice", 6.0 * 225.0 / 2.0), ("skirt", 0.0)):
        areas = [shapely.Polygon(each.by_name[panel].loop()).area for each in (plain, taken)]
        assert areas[0] - areas[1] == pytest.approx(lost, abs=2.0)
    backs = [each.by_name["bodice"].edge("center back").curve.length_mm for each in (plain, taken)]
    assert backs[0] == pytest.approx(backs[1], abs=1e-6)
    (seam,) = taken.seams
    assert (seam.front.panel, seam.how) == ("bodice", "eased")
    assert seam.fullness_mm == pytest.approx(
        6.0**2 * 0.6 / 225.0, abs=0.05
    )  # a smooth step is so much longer than flat


@pytest.mark.parametrize("body", SOME)
def test_what_a_level_seam_takes_leaves_all_sums_and_seams_right(body: str) -> None:
    """Upright mates above it are shortened alike and stay mates, girths are untouched, both edges are told with what is eased."""
    plain, taken = skirted("height: 40%", body), skirted(TAKE, body)
    assert failed(taken) == []
    assert [girth.parts_mm for girth in taken.girths] == [girth.parts_mm for girth in plain.girths]
    assert upright_mm(plain, "front") - upright_mm(taken, "front") == pytest.approx(6.0, abs=1e-6)
    assert upright_mm(plain, "front skirt") == upright_mm(taken, "front skirt")
    for panel in ("front", "side", "back"):
        assert shapely.Polygon(taken.by_name[panel].loop()).is_valid
    for one in taken.seams:
        edges = [taken.by_name[place.panel].edge(place.edge).curve.length_mm for place in (one.front, one.back)]
        assert edges[0] - edges[1] == pytest.approx(one.fullness_mm, abs=0.1)
        assert one.fullness_mm < 3.0
    assert any("(waist seam 1)" in finding.says and "are eased, on" in finding.says for finding in taken.findings)
    assert (
        "Join C to C right across: above 1 (front), 3 (side) and 5 (back), below 2 (front skirt), 4 (side skirt) and "
        "6 (back skirt); ease the longer edge in where one is."
    ) in joining(taken)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (
            "height: 40%, to: side back, take: {center front: 6 mm}",
            "seam “waist seam” › take › it takes 6.0 mm at its end on side back, whose other side would then be longer. "
            "Let it take 0 mm there.",
        ),
        (
            "height: 40%, take: {center front: 6 mm, 1%: 2 mm}",
            "seam “waist seam” › take › on this body two takes stand at 0% around, nearly at one place. Leave one of them out.",
        ),
        ("height: 40%, take: {center front: -6 mm}", "take › got -6.0 mm, needs 0 or more. Leave out the minus."),
        (
            "height: 40%, take: {center front: 300 mm}",
            "panel “front” › its lower edge takes 300.0 mm off center front, which is 135.0 mm long. Let the level seam take less.",
        ),
    ],
)
def test_takes_that_a_level_seam_cannot_have(options: str, says: str) -> None:
    """At an end on another seam, twice at one place, less than nothing, or more than there is."""
    names = SIX if "to:" not in options else separate("front", "front skirt", "side", "side skirt", "back")
    with pytest.raises(FanblockError) as caught:
        made(recipe(GAP, TOP, LONG, *SEAMS, level(options), RED, names))
    assert says in str(caught.value)
