"""``separate``: panels by name, numbered from the front."""

from __future__ import annotations

from tests.samples import FOUR, GAP, HEM, ONE, TOP, garment, made, recipe, seam, side_back, side_front


def test_panels_are_named_and_numbered_from_the_front() -> None:
    """Names are given from front to back, whatever order the seams were drawn in."""
    steps = (GAP, TOP, HEM, side_back(), side_front(), seam("middle", "45%, top edge", "42%, waist", "45%, hem"), FOUR)
    pattern = made(recipe(*steps))
    assert [(panel.number, panel.name) for panel in pattern.panels] == [
        (1, "one"), (2, "two"), (3, "three"), (4, "four"),
    ]  # fmt: skip
    firsts = [float(panel.loop()[:, 0].mean()) for panel in pattern.panels]
    assert firsts == sorted(firsts)


def test_a_half_without_seams_is_one_panel() -> None:
    """Nothing to cut apart leaves the half whole."""
    pattern = made(recipe(GAP, TOP, HEM, ONE))
    assert [panel.name for panel in pattern.panels] == ["whole"]
    assert pattern.seams == ()


def test_edges_run_counter_clockwise_from_the_draft() -> None:
    """Every panel's loop closes and turns left."""
    for panel in made(garment()).panels:
        for edge, following in zip(panel.edges, (*panel.edges[1:], panel.edges[0]), strict=True):
            assert abs(edge.curve.end - following.curve.start).max() < 1e-6
        x, y = panel.loop().T
        assert (
            float((x * y.take(range(1, len(y) + 1), mode="wrap") - x.take(range(1, len(x) + 1), mode="wrap") * y).sum())
            > 0.0
        )
