"""What is written and said of panels above one another, and of panels that are laced at the sides."""

from __future__ import annotations

import json

import numpy as np
import pytest
from tests.samples import GAP, HEM, RED, TOP, made, recipe, seam, separate, side_back, side_front

from fanblock.pattern.model import Pattern
from fanblock.sheet.joined import joined
from fanblock.sheet.json import pattern_json
from fanblock.sheet.labels import edge_wishes, wishes
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.silhouette import silhouette
from fanblock.sheet.tapes import tape_sentence, tape_words
from fanblock.sheet.upright import upright

LONG = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(), side_back())
WAIST = "level seam: {name: waist seam, height: waist}"
SIX = separate("front", "front skirt", "side", "side skirt", "back", "back skirt")
SIDE_GAP = "lacing gap: {at: side, width: 20 mm}"


def skirted() -> Pattern:
    """Return a garment with skirts sewn to a waist seam."""
    return made(recipe(GAP, TOP, LONG, *SEAMS, WAIST, RED, SIX))


def laced(*gaps: str, **seams: str) -> Pattern:
    """Return a front and a back laced at the sides."""
    return made(recipe(*gaps, TOP, HEM, SIDE_GAP, separate("front", "back")))


def joins(lines: tuple[str, ...]) -> list[str]:
    """Return the lines that tell what is joined to what."""
    return [line for line in lines if line.startswith("Join ") and " to " in line]


def test_seams_are_sewn_before_the_one_that_cuts_them() -> None:
    """First the upright seams, each from where to where it runs, then the level seam right across, seams on each other."""
    assert joining(skirted()) == (
        "At each seam lay the two waist bars together first, then the ticks, then the ends.",
        "Where a seam runs right across, lay the seams that meet on it on each other first.",
        "Join A to A: piece 1 (front) to piece 3 (side), from the top to the waist seam.",
        "Join D to D: piece 2 (front skirt) to piece 4 (side skirt), from the waist seam to the lower edge.",
        "Join B to B: piece 3 (side) to piece 5 (back), from the top to the waist seam.",
        "Join E to E: piece 4 (side skirt) to piece 6 (back skirt), from the waist seam to the lower edge.",
        "Join C to C right across: above 1 (front), 3 (side) and 5 (back), below 2 (front skirt), 4 (side skirt) and 6 "
        "(back skirt).",
        "Make the other half as a mirror image: turn every piece over.",
        "Sew the two centre fronts (pieces 1 and 2, both halves) to each other, from the top to the lower edge.",
        "The open edges at the centre back (pieces 5 and 6) are not sewn: they are finished and laced, 50.0 mm apart.",
        "Turn the lacing edges in and work eyelets along them; how many is not planned on these sheets.",
        "Bind the edges of pieces 1, 2, 3, 4, 5 and 6 that have no allowance with tape or ribbon.",
    )


def test_a_level_seam_that_ends_on_a_seam_is_sewn_before_it() -> None:
    """A seam from the front to the side front is closed first; only then can the side front be."""
    level = "level seam: {name: waist seam, height: waist, to: side front}"
    said = joining(made(recipe(GAP, TOP, LONG, *SEAMS, level, RED, separate(*"abcd"))))
    assert [line.split(":")[0] for line in joins(said)[:4]] == [
        "Join a1 to a1",
        "Join B to B",
        "Join A to A",
        "Join A to A",
    ]


def test_a_dart_is_sewn_before_the_seam_it_ends_on() -> None:
    """What ends on a seam comes before it, whatever its panels' numbers."""
    dart = seam("dart", "side front, 55%", "30%, waist", "32%, hem")
    said = joining(made(recipe(GAP, TOP, HEM, *SEAMS, dart, RED, separate(*"abcd"))))
    assert joins(said)[0].startswith("Join a1 to a1")


def test_panels_under_a_waist_seam_have_their_words_at_their_own_top() -> None:
    """TOP stands under the seam they hang from, and the words toward the centre front beside the seam that faces it."""
    for panel in skirted().panels:
        stood = upright(panel)
        found = {wish.name: wish for wish in wishes(stood, skirted())}
        if panel.name.endswith("skirt"):
            head = next(edge for edge in stood.edges if edge.across == "upper").curve.points[:, 1]
            assert all(abs(y + 7.0 - head.mean()) < 12.0 for _, y in found["top"].places)
            assert "waist level" not in found
        else:
            assert "waist level" in found
        assert ("toward center front" in found) == (not panel.name.startswith("front"))


def test_edges_on_a_level_seam_say_which_they_are() -> None:
    """Beside its allowance such an edge says what it is, without the number of its piece."""
    for panel in skirted().panels:
        said = [text for wish in edge_wishes(panel, "mm") for text, _ in wish.texts]
        assert "waist seam · 15 mm allowance" in said


def test_a_piece_that_laces_to_the_front_says_what_faces_it() -> None:
    """The back of a bodice that laces at the sides has the words toward the centre front beside its lacing edge."""
    back = upright(laced().by_name["back"])
    assert "toward center front" in {wish.name for wish in wishes(back, laced())}


def test_laid_seam_to_seam_the_lower_panels_lie_under_the_upper_ones() -> None:
    """In the picture of all pieces the ends of the waist seam's two edges lie on each other."""
    pattern = skirted()
    laid = joined(pattern)
    for one in (one for one in pattern.seams if one.line == "waist seam"):
        over, under = laid[one.front.panel].edge(one.front.edge).curve, laid[one.back.panel].edge(one.back.edge).curve
        assert np.hypot(*(over.start - under.end)) < 25.0
    first = next(one for one in pattern.seams if one.name == "waist seam 1")
    over, under = laid["front"].edge(first.front.edge).curve, laid["front skirt"].edge(first.back.edge).curve
    assert np.hypot(*(over.start - under.end)) < 0.01


def test_from_the_side_the_skirts_hang_below_the_waist() -> None:
    """The picture of the garment as worn shows a stroke for every panel above the waist and for every one that hangs."""
    names = [stroke.name for group in silhouette(skirted()).groups for stroke in group.items if hasattr(stroke, "name")]
    assert {"front", "side", "back"} <= set(names)
    assert names.count("tab") == 3


def test_heights_are_told_through_to_the_top() -> None:
    """A yoke stands on what is below it: the tape goes from the waist to the top edge, as where nothing is cut."""
    yoke = "level seam: {name: yoke seam, height: 60%}"
    names = separate("front yoke", "front", "side yoke", "side", "back yoke", "back")
    cut = tape_words(made(recipe(GAP, TOP, HEM, *SEAMS, yoke, RED, names)))
    assert cut == tape_words(made(recipe(GAP, TOP, HEM, *SEAMS, RED, separate("front", "side", "back"))))


def test_a_slanting_level_seam_faces_no_centre() -> None:
    """A skirt under a deep point has its words toward the centre front beside an upright seam, not beside the point."""
    through = "[[center front, waist - 80 mm], [30%, waist], [60%, waist], [center back, waist]]"
    level = f"level seam: {{name: waist seam, pointed: front, through: {through}}}"
    pattern = made(recipe(TOP, LONG, *SEAMS, level, RED, SIX))
    front = upright(pattern.by_name["front skirt"])
    assert "toward center front" not in {wish.name for wish in wishes(front, pattern)}


def test_laced_at_the_sides_it_says_so_everywhere() -> None:
    """The sewing, the toile and the tape tell the gap at each side, and what both leave of the waist."""
    pattern = laced()
    assert (
        "The open edges at each side (pieces 1 and 2) are not sewn: they are finished and laced, 20.0 mm apart."
    ) in joining(pattern)
    assert any("lace it with 20.0 mm at each side between the edges" in line for line in toile(pattern))
    assert tape_sentence(pattern).endswith("the waist as worn is 680.0 mm, of which 40.0 mm is gap (20.0 mm a side).")
    assert ("gap left open where it laces at each side, at the waist", "20.0 mm") in tape_words(pattern)


def test_laced_in_several_places_each_is_told_with_its_own_gap() -> None:
    """Nobody is told the sum of all gaps as the distance of two edges."""
    pattern = laced(GAP)
    said = " ".join(toile(pattern))
    assert "lace it with 50.0 mm at the centre back and 20.0 mm at each side between the edges" in said
    assert tape_sentence(pattern).endswith("of which 90.0 mm is gap (50.0 mm behind, 20.0 mm a side).")


def test_laid_out_the_laced_edges_lie_the_gap_apart() -> None:
    """A lace joins two pieces in the picture as a seam does, so far apart as it leaves them."""
    laid = joined(laced())
    front, back = (laid[name].edge("lacing edge").curve for name in ("front", "back"))
    assert np.hypot(*(front.start - back.end)) == pytest.approx(20.0, abs=0.5)


def test_other_programs_are_told() -> None:
    """The numbers say which edge of its panel lies on a level seam, where an edge opens, and that a side opens twice."""
    data = json.loads(pattern_json(skirted()))
    edges = {(panel["name"], edge["name"]): edge for panel in data["panels"] for edge in panel["edges"]}
    over, under = edges["front", "waist seam 1"], edges["front skirt", "waist seam 1"]
    assert (over["across"], under["across"], over["waist_at"]) == ("lower", "upper", None)
    assert over["mate"] == {"panel": "front skirt", "edge": "waist seam 1"}
    assert under["mate"] == {"panel": "front", "edge": "waist seam 1"}
    waist = next(girth for girth in data["girths"] if girth["level"] == "waist")
    assert sum(waist["parts_by_panel"].values()) == pytest.approx(waist["parts"], abs=0.2)
    data = json.loads(pattern_json(laced()))
    assert data["gap"]["nominal"] == 40.0
    assert data["gap"]["per_level"]["waist"] == pytest.approx(40.0, abs=0.01)
    assert [(one["at"], one["width"], one["times"]) for one in data["openings"]] == [("side", 20.0, 2)]
    opens = {
        (panel["name"], edge["name"])
        for panel in data["panels"]
        for edge in panel["edges"]
        if edge["opens_at"] == "side"
    }
    assert opens == {("front", "lacing edge"), ("back", "lacing edge")}
