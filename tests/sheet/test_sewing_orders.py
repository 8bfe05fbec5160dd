"""The order of sewing of every shipped recipe, read as somebody does who sews by it."""

from __future__ import annotations

import re
from functools import cache

import pytest
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.finish.toile import toile_of
from fanblock.pattern.joins import separate_parts
from fanblock.pattern.model import ARMHOLE, CENTER, HEM, LET_IN, NECKLINE, PLEAT_HEAD, TOP, WAIST, Pattern
from fanblock.problems import GeometryError
from fanblock.sheet.finishing import is_capped, is_set_on
from fanblock.sheet.sewing import joining

BANDS = {"cape-collar", "circular-peplum", "falling-collar", "ruffle-strip", "sleeve-flounce-eccentric"}
GARMENTS = sorted(set(RECIPES) - BANDS)

WEARERS = ("apprentice", "ferrywoman", "innkeeper", "pilot")


@cache
def made(recipe: str) -> Pattern:
    """A recipe drafted for the first demo wearer whom it can be drafted for."""
    for wearer in WEARERS[2:] + WEARERS[:2]:
        try:
            return drafted(wearer, recipe)
        except GeometryError:
            continue
    raise AssertionError(recipe)


def joins(lines: tuple[str, ...]) -> list[tuple[str, int]]:
    """Each letter that is joined, with the line it is joined at."""
    found = [
        (re.search(r"\b(?:Join|Whip|Close piece \d+ \([\w ]+\):) (\w+) to \1\b.*", line), at)
        for at, line in enumerate(lines)
    ]
    return [(pair, at) for match, at in found if match for pair in re.findall(r"\b(\w+) to \1\b", match[0])]


def first(lines: tuple[str, ...], words: str) -> int | None:
    """The first line with these words, if there is one."""
    return next((at for at, line in enumerate(lines) if words in line), None)


def in_order(lines: tuple[str, ...], *words: str) -> None:
    """Check that what is told by these words is told in this order, as far as it is told."""
    places = [at for at in (first(lines, one) for one in words) if at is not None]
    assert places == sorted(places), words


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_seam_of_the_graph_of_joins_is_sewn_once(recipe: str) -> None:
    """No letter is left out and none comes twice; the pieces of the graph that hang together do so by these seams."""
    pattern = made(recipe)
    told = joins(joining(pattern))
    seams = [seam for seam in pattern.seams if not pattern.by_name[seam.front.panel].layer]
    lines = {(letter, at) for letter, at in told}
    assert sorted({letter for letter, _ in lines}) == sorted({seam.letter for seam in seams})
    assert len(told) == len({(seam.letter, seam.front.panel, seam.back.panel) for seam in seams})
    groups = {panel.name: {panel.name} for panel in pattern.panels if not panel.layer}
    for seam in seams:
        group = groups[seam.front.panel] | groups[seam.back.panel]
        groups.update(dict.fromkeys(group, group))
    parts = {
        frozenset(part) for part in separate_parts(pattern) if not any(pattern.by_name[name].layer for name in part)
    }
    assert {frozenset(group) for group in groups.values()} >= {part for part in parts if len(part) > 1}


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_piece_is_spoken_of_by_its_number(recipe: str) -> None:
    """Drafted, added and loose ones; the pieces of a layer of its own as a run."""
    pattern = made(recipe)
    said = " ".join(joining(pattern))
    for panel in pattern.panels:
        if panel.layer:
            run = re.search(r"pieces (\d+) to (\d+)", said)
            assert run
            assert int(run.group(1)) <= panel.number <= int(run.group(2))
        elif recipe in BANDS and len(pattern.panels) == 1:
            continue
        else:
            assert re.search(rf"(?:[Pp]ieces?|and|,|above|below) {panel.number}\b", said), panel.name


@pytest.mark.parametrize("recipe", GARMENTS)
def test_nothing_is_shut_before_what_it_encloses(recipe: str) -> None:
    """Darts and gussets before the seams beside them, the half before the halves, those before lining, pleats and what is set
    on; eyelets after channels and bones; binding, then a lining that lies over the bones (common practice, no source)."""
    pattern = made(recipe)
    lines = joining(pattern)
    turn = dict(joins(lines))
    half = first(lines, "as a mirror image") or first(lines, "on the other side")
    assert half is not None
    let_in: list[int] = []
    inner: list[int] = []
    set_on: list[int] = []
    for seam in pattern.seams:
        panels = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
        if panels[0].layer:
            continue
        kinds = {panels[0].edge(seam.front.edge).kind, panels[1].edge(seam.back.edge).kind}
        group = let_in if LET_IN in kinds else set_on if any(is_set_on(panel) for panel in panels) else inner
        group.append(turn[seam.letter])
    assert max(let_in, default=-1) < min(inner)
    assert max(inner) < half < min(set_on, default=len(lines))
    for word in ("Lay the gathered front", "fold the dart", "Let piece"):
        assert (first(lines, word) or 0) <= max(inner)
    in_order(
        lines,
        "two centre",
        "Make the lining up",
        "Fold the pleats",
        "work the eyelets",
        "Bind the edges",
        "lining comes last",
    )
    in_order(lines, "Then the channels", "Put in the bones", "work the eyelets", "Bind the edges")
    in_order(lines, "the two centre backs", "the two centre back skirts", "Fold the pleats at the centre back")
    in_order(lines, "on their linings", "Close piece", "The sleeve is set in", "Put the garment on")
    laced = first(lines, "work the eyelets")
    fitted = first(lines, "on the body")
    assert laced is None or fitted is None or laced < fitted


@pytest.mark.parametrize("recipe", GARMENTS)
def test_straps_come_before_sleeves_and_sleeves_are_closed_first(recipe: str) -> None:
    """A cap is sewn to its armhole when the strap is on, flat stretches first; the spare comes last (common practice)."""
    pattern = made(recipe)
    turn = dict(joins(joining(pattern)))
    own: list[int] = []
    flat: list[int] = []
    full: list[int] = []
    straps: list[int] = []
    for seam in pattern.seams:
        panels = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
        capped = [is_capped(panel) for panel in panels]
        if all(capped):
            own.append(turn[seam.letter])
        elif any(capped):
            (full if seam.fullness_mm else flat).append(turn[seam.letter])
        elif any(is_set_on(panel) for panel in panels):
            straps.append(turn[seam.letter])
    order = [*sorted(straps), *sorted(own), *sorted(flat), *sorted(full)]
    assert order == sorted(order)


@pytest.mark.parametrize("recipe", GARMENTS)
def test_no_edge_is_left_raw(recipe: str) -> None:
    """Every free edge is bound, felled with the lining, hemmed, turned in, or waits for a skirt."""
    pattern = made(recipe)
    said = " ".join(joining(pattern))
    felled = "Make the lining up" in said
    for panel in pattern.panels:
        if panel.layer or panel.loose:
            continue
        for edge in panel.edges:
            if edge.mate is not None or edge.kind not in (TOP, HEM, ARMHOLE, NECKLINE, WAIST, PLEAT_HEAD):
                continue
            if edge.kind == PLEAT_HEAD:
                assert "turn in the pleat heads" in said
            elif edge.kind == WAIST:
                assert "The waist edge is for a skirt" in said
            elif not panel.allowances.get(edge.name, 0.0):
                assert "Bind the edges" in said, (panel.name, edge.name)
            elif edge.kind == HEM and "The waist edge is for a skirt" in said and not panel.added:
                continue
            else:
                assert felled or "hem by hand" in said, (panel.name, edge.name)


@pytest.mark.parametrize("recipe", GARMENTS)
def test_what_is_cut_is_used(recipe: str) -> None:
    """A lining goes in, a strength layer is basted or carries channels, and what closes the garment is sewn on."""
    pattern = made(recipe)
    said = " ".join(joining(pattern))
    layers = {layer for panel in pattern.panels for layer, _ in panel.cuts}
    assert "lining" not in layers or "lining" in said
    assert "strength layer" not in layers or "strength layer" in said or "Baste its layers together" in said
    for opening in pattern.openings:
        word = {
            "lacing": "eyelets",
            "buttons": "buttonholes",
            "hooks": "eyes",
            "ties": "Sew the ties",
            "pins": "pinned",
        }
        assert word[opening.closed] in said
    centers = [edge for panel in pattern.panels for edge in panel.edges if edge.kind == CENTER]
    assert not centers or "the two centre" in said


def test_a_stomacher_is_stiffened() -> None:
    """One without bones gets its stiffness from a layer of its own (common practice, no source); boned ones from these."""
    lines = joining(made("gown-bodice-open-front"))
    assert (
        first(lines, "Stiffen the stomacher (piece 4): lay its strength layer")
        == (first(lines, "Bind the stomacher") or 0) - 1
    )
    assert first(joining(made("stays-front-lacing")), "Stiffen the stomacher") is None


def test_a_gown_says_how_its_skirt_is_joined() -> None:
    """Felled under the lining where that was left open; a jacket cut in one with its skirts has no such edge."""
    lines = joining(made("gown-bodice-open-front"))
    at = first(lines, "The waist edge is for a skirt")
    assert at is not None
    assert lines[at].endswith(
        "Lay it on, right side to right side, sew it to the outer cloth along the stitch line, turn the allowance up, and fell the "
        "lining over it. Without a skirt turn the edge in and fell it to the lining."
    )
    assert (
        "the ends that the straps are sewn to and the waist for the skirt"
        in lines[first(lines, "Make the lining up") or 0]
    )
    assert first(joining(made("jacket-pleated-skirts")), "The waist edge") is None


def test_pieces_on_the_fold_are_both_halves() -> None:
    """Nobody is told to make a second back where the back lies on the fold."""
    both = "Join the same seams on the other side: every piece lies on the fold and is both halves."
    assert both in joining(made("kirtle-bodice-side-lacing"))
    one = (
        "Sew the other half to it as a mirror image: turn every other piece over; piece 2, on the fold, is both halves."
    )
    assert one in joining(made("kirtle-bodice-front-lacing"))


@pytest.mark.parametrize("recipe", ["gown-bodice-open-front", "jacket-pleated-skirts", "kirtle-bodice-front-lacing"])
def test_a_toile_is_neither_lined_nor_finished(recipe: str) -> None:
    """What is taken apart again has no lining, hem, binding or stiffening (common practice, no source)."""
    said = " ".join(joining(toile_of(made(recipe))))
    for word in ("lining up", "hem by hand", "Bind", "Stiffen", "strength layer", "Hem them", "robings"):
        assert word not in said
