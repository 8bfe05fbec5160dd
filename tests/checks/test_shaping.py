"""What is checked of darts, of pieces that are let in, and of layers with outlines of their own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
from tests.checks.spoiling import failing, one, with_edge, with_panel
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, separate, side_back, side_front

from fanblock.checks import girth, joins, layers, panels, seams
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Pattern


@cache
def darted() -> Pattern:
    """Return a bodice with one dart in front."""
    seam = "seam: {name: side seam, through: [[50%, top edge], [50%, waist]], share: 1}"
    dart = "dart: {name: front dart, through: [[20%, waist], [21%, 75%]], take: 18 mm}"
    return made(recipe(TOP, "hem: {height: waist}", seam, dart, RED, separate("front", "back")))


@cache
def layered() -> Pattern:
    """Return stays with a gusset in the side, and a lining of their own."""
    seams_of = (side_front(), side_back())
    gusset = "gusset: {name: gusset, panel: side, edge: top edge, at: 40%, depth: 60 mm, width: 30 mm}"
    lining = "lining: {layer: lining, panels: [front, side, back, gusset], inside: 4 mm}"
    return made(recipe(GAP, TOP, HEM, *seams_of, RED, THREE, gusset, lining))


def test_legs_of_one_length() -> None:
    """A dart whose one leg is 0.3 mm longer fails; as drawn it holds, and its point is no pucker."""
    pattern = darted()
    assert failing(seams.check(pattern)) == []
    assert one(seams.check(pattern), "dart-front-front-dart").number < 1e-6
    assert one(seams.check(pattern), "dart-point-front-front-dart").state == "holds"
    first, second = pattern.by_name["front"].marks
    longer = replace(second, curve=second.curve.between(-0.3, second.curve.length_mm))
    spoilt = with_panel(pattern, "front", marks=(first, longer))
    assert failing(seams.check(spoilt)) == ["dart-front-front-dart"]


def test_a_point_that_puckers_is_told() -> None:
    """Straight legs that meet at some 14° warn; straight ones of a narrow dart do not."""
    pattern = darted()
    first, second = pattern.by_name["front"].marks
    for wide, state in ((30.0, "warns"), (12.0, "holds")):
        point = np.array([0.0, 120.0])
        legs = [
            replace(leg, curve=Curve.through([[x, 0.0], point]))
            for leg, x in ((first, -wide / 2.0), (second, wide / 2.0))
        ]
        spoilt = with_panel(pattern, "front", marks=tuple(legs))
        assert one(seams.check(spoilt), "dart-point-front-front-dart").state == state


def test_the_edge_across_a_dart_runs_smooth() -> None:
    """As drawn within half a degree; an edge that meets its leg 5° off is caught."""
    pattern = darted()
    found = one(joins.check(pattern), "join-front-front-dart")
    assert (found.state, found.says) == ("holds", "the edge across the dart “front dart” bends by 0.0°")
    curve = pattern.by_name["front"].edge("hem 2").curve
    turn = np.radians(5.0)
    matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    bent = curve.moved(matrix, curve.start - matrix @ curve.start)
    assert "join-front-front-dart" in failing(joins.check(with_edge(pattern, "front", "hem 2", curve=bent)))


def test_the_edge_across_a_piece_that_is_let_in_runs_smooth() -> None:
    """What is let in must run on, though it is a piece of its own; a straight line across its mouth does not."""
    pattern = layered()
    assert failing(joins.check(pattern)) == []
    ends = pattern.by_name["gusset"].edge("top edge").curve.points[[0, -1]]
    spoilt = with_edge(pattern, "gusset", "top edge", curve=Curve.through(ends))
    assert failing(joins.check(spoilt)) == ["join-C1-top", "join-D1-top"]


def test_sides_of_a_piece_longer_than_the_slit_are_caught() -> None:
    """A piece cut 0.3 mm too long at one side."""
    pattern = layered()
    curve = pattern.by_name["gusset"].edge("back side").curve
    longer = with_edge(pattern, "gusset", "back side", curve=curve.between(0.0, curve.length_mm + 0.3))
    assert failing(seams.check(longer)) == ["mates-D1"]


def test_a_level_without_its_slit_does_not_add_up() -> None:
    """A panel as wide as before it was slit is more than the block holds."""
    pattern = layered()
    spoilt = [
        replace(each, parts_mm=each.parts_mm + each.turned_in_mm) if each.turned_in_mm else each
        for each in pattern.girths
    ]
    assert "girth-80" in failing(girth.check(replace(pattern, girths=tuple(spoilt))))


def test_what_is_let_in_is_told_at_the_bust() -> None:
    """Much less than the body where there are gussets warns; so does much more."""
    pattern = layered()
    bust = next(each for each in pattern.girths if each.name == "bust")
    assert bust.body_mm is not None
    rest = bust.parts_mm + bust.open_mm + bust.gap_mm
    for over, state in ((0.0, "holds"), (-20.0, "warns"), (60.0, "holds"), (80.0, "warns")):
        wide = (bust.body_mm + over) / 2.0 - rest
        changed = replace(bust, let_in=(("gusset", wide),))
        girths = tuple(changed if each is bust else each for each in pattern.girths)
        assert one(girth.check(replace(pattern, girths=girths)), "girth-let-in-bust").state == state


def test_a_layer_that_is_not_as_much_smaller_as_its_cloth_asks_is_caught() -> None:
    """Said to lie 6 mm inside, but cut for 4: 12.6 mm too large all round."""
    pattern = layered()
    found = layers.check(pattern)
    assert [finding.state for finding in found] == ["holds"]
    assert found[0].number < 0.01
    spoilt = pattern
    for panel in pattern.panels:
        if panel.layer:
            spoilt = with_panel(spoilt, panel.name, inside_mm=6.0)
    assert failing(layers.check(spoilt)) == ["girth-layer-lining"]
    assert abs(layers.check(spoilt)[0].number - 2.0 * np.pi * 2.0) < 0.01


def test_a_layer_is_a_whole_of_its_own() -> None:
    """Its pieces hang on none of the others, and the garment is still one whole."""
    assert failing(panels.check(layered())) == []
    assert one(panels.check(layered()), "one-whole").number == 1
