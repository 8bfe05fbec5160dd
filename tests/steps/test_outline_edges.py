"""``edges`` of the top edge and the hem: a bodice with shoulders is a pattern like any other, and slips are told."""

from __future__ import annotations

import pytest
from tests.samples import BODIES, FILE, failed, made, recipe, recipe_text, seam, separate, wearer

from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.reading import read_recipe

ARMHOLE = "[[37%, underarm + 20 mm], [46%, underarm - 20 mm], [54%, underarm - 20 mm], [center back - 150 mm, 82% of back length]]"
BODICE = f"""top edge:
      edges:
        - {{name: front neckline, kind: neckline, through: [[center front, bust + 20 mm], [center front + 100 mm, bust + 30 mm]]}}
        - {{name: front strap, kind: neckline, through: [[center front + 95 mm, bust + 190 mm]], straight: yes}}
        - {{name: front shoulder, kind: shoulder, through: [[center front + 150 mm, bust + 178 mm]], sewn to: back shoulder}}
        - {{name: armhole, kind: armhole, through: {ARMHOLE}}}
        - {{name: back shoulder, kind: shoulder, through: [[center back - 95 mm, 84% of back length]]}}
        - {{name: back neckline, kind: neckline, through: [[center back, 74% of back length]]}}"""
WAIST = "[[center front, waist - 40 mm], [30%, waist], [70%, waist], [center back, waist - 60 mm]]"
POINTS = f"hem: {{edges: [{{name: waist, kind: waist, through: {WAIST}, pointed: yes}}]}}"
SIDE = seam("side seam", "50%, top edge", "50%, waist", share="1")
TWO = separate("front", "back")


def bodice(name: str = "ordinary", top: str = BODICE, hem: str = POINTS) -> Pattern:
    """Return a bodice in two panels for a body of the catalogue."""
    return made(recipe(top, hem, SIDE, TWO), name)


@pytest.mark.parametrize("name", BODIES)
def test_a_bodice_adds_up_and_sews_up_on_every_body(name: str) -> None:
    """All checks hold that hold for stays: sums, mates, smooth joins, single outlines."""
    assert failed(bodice(name)) == []


@pytest.mark.parametrize("name", BODIES)
def test_shoulders_are_mates_and_equally_long(name: str) -> None:
    """What is sewn together agrees within a tenth of a millimetre, closer than a needle is thick (common practice)."""
    pattern = bodice(name)
    front, back = pattern.by_name["front"].edge("front shoulder"), pattern.by_name["back"].edge("back shoulder")
    assert front.curve.length_mm == pytest.approx(back.curve.length_mm, abs=0.1)
    assert front.mate is not None
    assert back.mate is not None
    assert (front.mate.edge, back.mate.edge, front.letter) == ("back shoulder", "front shoulder", back.letter)
    assert [one.name for one in pattern.seams] == ["side seam", "back shoulder"]


def test_every_edge_keeps_its_name_and_kind_and_gets_its_allowance() -> None:
    """A panel's edges go by the names of the recipe; each kind has a width of its own (common practice)."""
    front = bodice().by_name["front"]
    kinds = {edge.name: (edge.kind, front.allowances[edge.name]) for edge in front.edges}
    assert kinds == {
        "waist": ("waist", 15.0),
        "side seam": ("seam", 15.0),
        "armhole": ("armhole", 10.0),
        "front shoulder": ("shoulder", 20.0),
        "front strap": ("neckline", 10.0),
        "front neckline": ("neckline", 10.0),
        "center front": ("center", 15.0),
    }


def test_a_neckline_is_square_to_the_centre_unless_it_is_pointed() -> None:
    """Two halves that meet at another angle make a peak or a dent; a V neck is meant to (plane geometry)."""
    square = "square-center-front-front-neckline"
    curve, sharp = (
        bodice(),
        bodice(
            top=BODICE.replace(
                "[center front + 100 mm, bust + 30 mm]]", "[center front + 100 mm, bust + 90 mm]], straight: yes"
            )
        ),
    )
    pointed = bodice(
        top=BODICE.replace(
            "[center front + 100 mm, bust + 30 mm]]",
            "[center front + 100 mm, bust + 90 mm]], straight: yes, pointed: yes",
        )
    )
    assert next(one.number for one in curve.findings if one.code == square) < 2.0
    assert failed(sharp) == [square]
    assert failed(pointed) == []


def test_a_waist_with_points_is_the_lower_edge() -> None:
    """Where it rises above the waist line the sums there know that the cloth has ended; half of 680 mm in all."""
    pattern = bodice()
    waist = next(girth for girth in pattern.girths if girth.name == "waist")
    level = bodice(hem="hem: {height: waist}")
    assert 2.0 * (waist.parts_mm + waist.open_mm) == pytest.approx(680.0, abs=0.5)
    assert 0.0 < waist.open_mm < waist.parts_mm
    fronts = [one.by_name["front"].edge("center front").curve.length_mm for one in (pattern, level)]
    assert fronts[0] - fronts[1] == pytest.approx(40.0, abs=0.1)


def test_ease_at_the_bust_is_taken_below_an_armhole_that_goes_under_it() -> None:
    """Where no seam comes up to the bust the seams that end under the arm give what the bust shall have."""
    deep = BODICE.replace("underarm - 20 mm", "underarm - 60 mm")
    low = wearer(880.0, 680.0, 160.0, raised=190.0, underarm=195.0, back_length=400.0, hip=960.0)
    pattern = draft_pattern(low, recipe("ease: {bust: 20 mm}", deep, POINTS, SIDE, TWO))
    assert failed(pattern) == []
    bust = next(girth for girth in pattern.girths if girth.name == "bust")
    assert bust.takes == (("side seam", pytest.approx(-10.0)),)


def test_a_recipe_with_edges_can_be_written_out_and_read_again() -> None:
    """What `explain` prints draws the same."""
    read = recipe(BODICE, POINTS, SIDE, TWO)
    assert read_recipe(explained(read), FILE).steps == read.steps


def refusal(top: str = BODICE, hem: str = POINTS, *steps: str) -> str:
    """Return what is said of a recipe that cannot be read."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text(top, hem, *(steps or (SIDE,)), TWO), FILE)
    return str(caught.value)


AT = "r.yaml:7:9: step 1 (top edge) › edges › "
SLIPS = {
    "another edge's name": (
        BODICE.replace("name: front strap", "name: front neckline"),
        "two edges are called “front neckline”. Give every edge a name of its own.",
    ),
    "sewn to nothing": (
        BODICE.replace("sewn to: back shoulder", "sewn to: back sholder"),
        "“front shoulder” is sewn to “back sholder”, and there is no such edge. Did you mean “back shoulder”?",
    ),
    "sewn to itself": (
        BODICE.replace("sewn to: back shoulder", "sewn to: front shoulder"),
        "“front shoulder” is sewn to itself. Name the edge it is sewn to.",
    ),
    "sewn to two": (
        BODICE.replace("kind: armhole,", "kind: armhole, sewn to: back shoulder,"),
        "“armhole” and “back shoulder” are not the only two. Sew an edge to one other, and say so with one of them.",
    ),
    "a place's name": (
        BODICE.replace("name: armhole", "name: underarm"),
        "“underarm” is the name of a place on every block. Name the edge otherwise, such as “underarm edge”.",
    ),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_in_the_edges_are_told_when_the_recipe_is_read(slip: str) -> None:
    """No body is needed to see them, and the message says where they stand."""
    top, says = SLIPS[slip]
    assert refusal(top) == AT + says


def test_one_curve_and_edges_exclude_each_other() -> None:
    """A top edge is given one way, a hem one of three ways."""
    both = BODICE + "\n      through: [[center front, bust], [center back, bust]]"
    assert refusal(both) == (
        "r.yaml:13:16: step 1 (top edge) › through › needs either `through` or `edges`. "
        "Give one smooth curve, or named edges with corners."
    )
    assert refusal(BODICE, POINTS.replace("{edges:", "{height: waist, edges:")) == (
        "r.yaml:13:19: step 2 (hem) › height › needs one of `height`, `through` and `edges`. "
        "Give one height, points from front to back, or named edges."
    )


def test_names_are_given_once_over_the_whole_draft() -> None:
    """Top edge, hem and seams share one set of names, for allowances and sheets go by them."""
    assert refusal(BODICE, POINTS.replace("name: waist", "name: armhole")) == (
        "r.yaml:13:18: step 2 (hem) › edges › something called “armhole” has been drawn already. "
        "Give every edge and seam a name of its own."
    )
    taken = "there is an edge “{}” already. Give every seam a name of its own."
    for name in ("armhole", "shoulder"):
        says = refusal(BODICE, POINTS, seam(name, "50%, top edge", "50%, waist", share="1"))
        assert says == f"r.yaml:14:18: step 3 (seam) › name › {taken.format(name)}"


def test_a_seam_to_a_hem_with_points_must_say_how_it_is_made_up_below() -> None:
    """A lower edge that goes below the waist asks of every seam that reaches it: open or sewn."""
    unsaid = SIDE.replace("[50%, waist]", "[50%, waist], [50%, hem]").replace(", below waist: sewn", "")
    assert refusal(BODICE, POINTS, unsaid) == (
        "r.yaml:14:5: step 3 (seam) › below waist › the seam runs on below the waist, but does not say how it is made up "
        "there. Write `below waist: open` if it parts into tabs, `below waist: sewn` if it is sewn to the hem."
    )
