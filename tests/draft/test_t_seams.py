"""Seams that end on another seam, on a centre line or on the lacing edge."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import BODIES, FOUR, GAP, HEM, RED, TOP, failed, made, recipe, seam, side_back, side_front

from fanblock.geometry.rings import is_simple
from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError

ENDS = {
    "top end on a seam, from behind": ("side front, 55%", "30%, waist", "32%, hem"),
    "top end on a seam, from the front": ("side front, 55%", "6%, waist", "8%, hem"),
    "top end on a seam, close to the centre front": ("side front, 55%", "4%, waist", "5%, hem"),
    "top end on a seam, both ends behind": ("side back, 70%", "50%, waist", "52%, hem"),
    "low end on a seam, from behind": ("38%, top edge", "side front, 25%"),
    "low end on a seam, from the front": ("8%, top edge", "side front, 40%"),
    "top end on the centre front": ("center front, 80%", "8%, waist", "9%, hem"),
    "low end on the centre front": ("8%, top edge", "center front, 40%"),
    "top end on the lacing edge": ("lacing edge, 90%", "86%, waist", "85%, hem"),
    "low end on the lacing edge": ("86%, top edge", "lacing edge, 60%"),
}


def crossed(name: str, body: str = "ordinary", **options: str) -> Pattern:
    """Return a garment of four panels a half, one of its seams ending as named."""
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), seam("dart", *ENDS[name], **options), RED, FOUR), body)


@pytest.mark.parametrize("below", ["open", "sewn"])
@pytest.mark.parametrize("name", ENDS)
def test_every_way_of_ending_makes_a_sound_garment(name: str, below: str) -> None:
    """Panels are simple, girths add up, mates name each other and are equal, and no check fails."""
    takes = {"share": "1"} if "waist" in " ".join(ENDS[name]) else {}
    pattern = crossed(name, below_waist=below, **takes)
    assert failed(pattern) == []
    assert all(is_simple(panel.loop()) for panel in pattern.panels)
    for panel in pattern.panels:
        for edge in panel.edges:
            if edge.mate is not None:
                mate = pattern.by_name[edge.mate.panel].edge(edge.mate.edge)
                assert mate.mate is not None
                assert (mate.mate.panel, mate.mate.edge) == (panel.name, edge.name)
                assert mate.letter == edge.letter
                assert mate.curve.length_mm == pytest.approx(edge.curve.length_mm, abs=1e-6)


@pytest.mark.parametrize("body", BODIES)
def test_a_dart_with_a_take_serves_every_body(body: str) -> None:
    """A seam from another one down to the hem, taking in and springing, is sound on every body of the catalogue."""
    assert failed(crossed("top end on a seam, from behind", body, share="2", spring="15 mm")) == []


def test_the_seam_it_ends_on_is_parted_on_both_sides() -> None:
    """Both sides of the host are parted at one distance from the waist, their pieces numbered from the lowest up."""
    pattern = crossed("top end on a seam, from behind")
    names = [(seam.name, seam.letter, seam.front.panel, seam.back.panel) for seam in pattern.seams]
    assert names == [
        ("side front 1", "A", "one", "two"),
        ("side front 2", "A", "one", "three"),
        ("dart", "a1", "two", "three"),
        ("side back", "B", "three", "four"),
    ]
    one = pattern.by_name["one"]
    pieces = sum(one.edge(f"side front {number}").curve.length_mm for number in (1, 2))
    whole = made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, "separate: {panels: [one, two, four]}"))
    assert pieces == pytest.approx(whole.by_name["one"].edge("side front").curve.length_mm, abs=0.1)


def test_seams_may_end_on_both_sides_of_one_seam() -> None:
    """One from the front and one from behind, at heights of their own: the host lies in three pieces on both sides."""
    front = seam("front dart", "side front, 40%", "7%, waist", "8%, hem", share="1")
    back = seam("back dart", "side front, 60%", "34%, waist", "36%, hem", share="1")
    five = "separate: {panels: [one, two, three, four, five]}"
    pattern = made(recipe(GAP, TOP, HEM, side_front(), side_back(), back, front, RED, five))
    assert failed(pattern) == []
    assert [seam.name for seam in pattern.seams if seam.letter == "A"] == [f"side front {n}" for n in (1, 2, 3)]
    assert sorted(seam.letter for seam in pattern.seams) == ["A", "A", "A", "B", "a1", "a2"]


def test_seams_may_end_on_both_sides_of_one_place() -> None:
    """Where nothing is taken, one from the front and one from behind at one height part the host there, once."""
    front = seam("front dart", "side front, 55%", "8%, waist", "8%, hem")
    back = seam("back dart", "side front, 55%", "30%, waist", "32%, hem")
    five = "separate: {panels: [one, two, three, four, five]}"
    pattern = made(recipe(GAP, TOP, HEM, side_front(), side_back(), front, back, five))
    assert failed(pattern) == []
    assert [seam.name for seam in pattern.seams if seam.letter == "A"] == ["side front 1", "side front 2"]


def test_a_seam_may_end_on_one_that_ends_on_another() -> None:
    """A strut between a dart and the side back gets the lower-case letter of the seam all hang on."""
    dart = seam("dart", "side front, 55%", "30%, waist", "32%, hem")
    strut = seam("strut", "dart, 38%", "48%, -20%", "50%, hem")
    five = "separate: {panels: [one, two, three, four, five]}"
    pattern = made(recipe(GAP, TOP, HEM, side_front(), side_back(), dart, strut, RED, five))
    assert failed(pattern) == []
    assert {seam.name.split()[0]: seam.letter for seam in pattern.seams} == {
        "side": "B", "dart": "a1", "strut": "a2",
    }  # fmt: skip


def strutted(**options: str) -> Pattern:
    """Return a garment with a strut from one seam to the next."""
    middle = seam("middle", "40%, top edge", "38%, waist", "40%, hem")
    strut = seam("strut", "side front, 70%", "middle, 10%", **options)
    five = "separate: {panels: [one, two, three, four, five]}"
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), middle, strut, RED, five))


def test_a_seam_may_end_on_a_seam_at_both_ends() -> None:
    """A strut from one seam to the next is sound and has the lower-case letter of the seam it starts on."""
    pattern = strutted()
    assert failed(pattern) == []
    assert next(seam_.letter for seam_ in pattern.seams if seam_.name == "strut") == "a1"


def test_held_at_both_ends_a_seam_cannot_be_trued() -> None:
    """A strut that takes in cannot be trued at either end; where its sides differ by too much the check says so."""
    assert "mates-a1" in failed(strutted(take="{40%: 6 mm}"))


def test_a_crossing_seam_is_marked_like_any_other() -> None:
    """Both sides carry their ticks, as many as the seam's place from the front; the host's pieces each carry theirs."""
    pattern = crossed("top end on a seam, from behind", share="1")
    for seam_ in pattern.seams:
        counts = []
        for name in (seam_.front, seam_.back):
            panel = pattern.by_name[name.panel]
            counts.append([(notch.kind, notch.count) for notch in panel.notches if notch.edge == name.edge])
        assert counts[0] == counts[1][::1]
        assert [count for kind, count in counts[0] if kind == "seam"] != []


def test_held_at_its_top_a_seam_moves_its_marks() -> None:
    """Where the top end cannot move both sides are measured from it: the waist marks lie at one distance from it, and
    what truing did is told.
    """
    pattern = crossed("top end on a seam, from behind", take="{waist: 12 mm}")
    dart = next(seam_ for seam_ in pattern.seams if seam_.name == "dart")
    front = pattern.by_name[dart.front.panel].edge("dart")
    back = pattern.by_name[dart.back.panel].edge("dart")
    assert front.waist_at_mm is not None
    assert back.waist_at_mm is not None
    assert front.curve.length_mm - front.waist_at_mm == pytest.approx(back.waist_at_mm)
    assert dart.above is not None
    assert 1.0 < dart.above.shift_mm < 6.0


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("top end on a seam, from behind", {"take": "{55%: 4 mm}"}),
        ("low end on a seam, from the front", {"take": "{40%: -4 mm}"}),
        ("low end on the centre front", {"take": "{40%: 4 mm}"}),
        ("top end on the lacing edge", {"take": "{90%: 4 mm}"}),
    ],
)
def test_a_take_where_it_ends_on_another_line_is_refused(name: str, options: dict[str, str]) -> None:
    """There its two sides could not meet: the take has to be nothing at that end."""
    with pytest.raises(GeometryError) as caught:
        crossed(name, **options)
    on = next(word for word in ("side front", "center front", "lacing edge") if word in " ".join(ENDS[name]))
    assert str(caught.value) == (
        f"r.yaml:17:5: step 6 (seam) › seam “dart” › take › it takes or springs where it ends on {on}; "
        "its two sides could not meet there. Let it take nothing at that end."
    )


def test_pieces_lie_edge_to_edge_where_nothing_is_taken() -> None:
    """Without takes the crossing seam's two sides are one line in the block, and so are the host's."""
    pattern = made(
        recipe(
            GAP, TOP, HEM, side_front(spring="0 mm"), side_back(spring="0 mm"),
            seam("dart", *ENDS["top end on a seam, from behind"]), FOUR,
        )
    )  # fmt: skip
    for seam_ in pattern.seams:
        front = pattern.by_name[seam_.front.panel].edge(seam_.front.edge).curve
        back = pattern.by_name[seam_.back.panel].edge(seam_.back.edge).curve.reversed()
        shares = np.linspace(0.0, 1.0, 15)
        apart = [front.at(s * front.length_mm) - back.at(s * back.length_mm) for s in shares.tolist()]
        assert np.abs(apart).max() < 0.02
