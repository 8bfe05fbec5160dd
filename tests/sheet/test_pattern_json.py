"""A stranger's program has the JSON file and nothing else."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from tests.sheet.real import drafted, shipped
from tests.sheet.sample import sample

from fanblock.pattern.model import Finding, Pattern
from fanblock.sheet.json import pattern_json
from fanblock.sheet.sewing import joining

PATTERNS = {"sample": sample(), **shipped()}


def written(pattern: Pattern) -> dict[str, Any]:
    """The pattern as a stranger reads it."""
    found: dict[str, Any] = json.loads(pattern_json(pattern))
    return found


def run_length(points: list[list[float]]) -> float:
    """Length of a run of points."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def from_waist(edge: dict[str, Any], backwards: bool) -> tuple[list[list[float]], float]:
    """An edge's points, turned if need be, and how far along them the waist lies."""
    points, at = edge["points"], edge["waist_at"]
    return (points[::-1], edge["length"] - at) if backwards else (points, at)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_a_stranger_can_add_up_the_waist(name: str) -> None:
    """Pieces on the waist and the gap, both halves, make the finished waist: the body with ease, less the reduction."""
    data = written(PATTERNS[name])
    pieces = sum(run_length(part) for panel in data["panels"] for part in panel["levels"]["waist"])
    whole = 2.0 * pieces + data["gap"]["per_level"]["waist"]
    waist = next(girth for girth in data["girths"] if girth["level"] == "waist")
    assert whole == pytest.approx(waist["finished"], abs=0.5)
    assert whole == pytest.approx(waist["body"] + waist["ease"] - waist["reduction"], abs=0.5)
    assert waist["target"] == pytest.approx(waist["body"] + waist["ease"] - waist["reduction"], abs=1e-3)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_a_stranger_can_add_up_every_level(name: str) -> None:
    """Cloth, gap, takes and what is open above the top edge make the block's level."""
    for girth in written(PATTERNS[name])["girths"]:
        found = girth["parts"] + girth["gap"] + sum(girth["takes"].values()) + girth["open"]
        assert found == pytest.approx(girth["block"], abs=0.25)


@pytest.mark.parametrize("name", sorted(shipped()))
def test_a_stranger_can_walk_every_seam(name: str) -> None:
    """Mates name each other and agree within 0.1 mm on each side of the waist; so do their notches."""
    data = written(PATTERNS[name])
    edges = {(panel["name"], edge["name"]): edge for panel in data["panels"] for edge in panel["edges"]}
    notches = {
        (panel["name"], notch["edge"], notch["kind"]): notch for panel in data["panels"] for notch in panel["notches"]
    }
    assert data["seams"]
    for seam in data["seams"]:
        front, back = ((seam[side]["panel"], seam[side]["edge"]) for side in ("front", "back"))
        one, other = edges[front], edges[back]
        assert one["mate"] == seam["back"]
        assert other["mate"] == seam["front"]
        assert one["letter"] == other["letter"] == seam["letter"]
        (_, at), (_, mate_at) = from_waist(one, False), from_waist(other, one["reversed"])
        assert at == pytest.approx(mate_at, abs=0.1)
        assert one["length"] - at == pytest.approx(other["length"] - mate_at, abs=0.1)
        mine, mates = notches[(*front, "seam")], notches[(*back, "seam")]
        assert mine["count"] == mates["count"]
        mates_at = other["length"] - mates["at"] if one["reversed"] else mates["at"]
        assert mine["at"] - at == pytest.approx(mates_at - mate_at, abs=0.1)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_edges_close_into_a_loop_that_runs_counter_clockwise(name: str) -> None:
    """Each edge begins where the one before ends, and the loop's area is positive (shoelace formula)."""
    for panel in written(PATTERNS[name])["panels"]:
        edges = panel["edges"]
        for one, after in zip(edges, edges[1:] + edges[:1], strict=True):
            assert math.dist(one["points"][-1], after["points"][0]) < 2e-4
        ring = [point for edge in edges for point in edge["points"][:-1]]
        pairs = zip(ring, ring[1:] + ring[:1], strict=True)
        assert sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) > 0.0


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_lengths_are_those_of_the_points_given(name: str) -> None:
    """`length` is the polyline's; `cut_line` does not repeat its first point; every edge says its kind."""
    for panel in written(PATTERNS[name])["panels"]:
        assert panel["cut_line"][0] != panel["cut_line"][-1]
        for edge in panel["edges"]:
            assert edge["length"] == pytest.approx(run_length(edge["points"]), abs=1e-3)


def test_keys_are_those_of_the_schema() -> None:
    """The file holds what the schema promises, slits as pairs of points from the waist down."""
    data = written(PATTERNS["sample"])
    assert data["schema"] == "fanblock-pattern/1"
    assert data["half"] == "left"
    assert {"wearer", "recipe", "block", "panels", "girths", "gap", "seams", "checks"} <= set(data)
    assert set(data["recipe"]) >= {"id", "name", "dials"}
    assert set(data["block"]) >= {"turn_rad", "waist", "bust", "center_front", "center_back", "corrections", "curves"}
    side = data["panels"][1]
    assert set(side) >= {"name", "number", "cut", "fold", "edges", "cut_line", "levels", "grain", "notches", "slits"}
    assert side["cut"] == {"outer": 2, "strength": 4, "lining": 2}
    assert all(start[1] > end[1] for start, end in side["slits"])
    assert {seam["below_waist"] for seam in data["seams"]} == {"open"}


def test_a_stranger_learns_how_it_is_made_up() -> None:
    """The construction, how many pieces of each layer, what ends on what, the order of sewing, and what else is said of it."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    data = json.loads(pattern_json(pattern))
    assert data["construction"] == "whipped"
    assert data["toile"] is False
    for layer, count in data["layers"].items():
        assert count == sum(panel["cut"].get(layer, 0) for panel in data["panels"])
    assert data["layers"] == {"lining": 10, "outer": 10, "strength layer": 20}
    assert data["sewing"] == list(joining(pattern))
    assert {note["kind"] for note in data["notes"]} >= {"toile", "guess"}
    assert data["openings"][0]["closed_with"] == "lacing"
    assert data["lists"]["lacings"][0]["times"] == 1
    assert sum(row["count"] for row in data["lists"]["bones"]) == sum(
        kind["count"] for kind in data["lists"]["bones_by_kind"]
    )
    sewn = json.loads(pattern_json(drafted("ferrywoman", "jacket-pleated-skirts")))
    assert sewn["construction"] == "sewn"
    assert json.loads(pattern_json(drafted("innkeeper", "falling-collar")))["construction"] is None
    lines = {seam["line"] for seam in sewn["seams"]}
    assert all(set(seam["onto"]) <= lines for seam in sewn["seams"])


def test_the_file_says_how_it_is_read() -> None:
    """What a number or a name means stands in the file itself."""
    read = " ".join(json.loads(pattern_json(sample()))["reading"])
    for word in ("construction", "layers", "grain", "slit", "line", "onto", "sewing", "waist_at", "reversed", "lists"):
        assert f"`{word}`" in read or f"A {word} " in read


def test_what_is_not_finite_is_null_and_nothing_is_minus_nought() -> None:
    """JSON knows no infinity; a limit there is not is null."""
    finding = Finding("told", "girth", "holds", -0.0, float("inf"), "mm", "said only")
    text = pattern_json(replace(sample(), findings=(finding,)))
    assert json.loads(text)["checks"][0]["limit"] is None
    assert "-0.0," not in text
    assert "Infinity" not in text


def test_same_pattern_same_text() -> None:
    """Writing twice gives the same text, points on one line each."""
    first = pattern_json(sample())
    assert first == pattern_json(sample())
    assert "[0.0, 0.0]" in first


def test_hostile_names_stay_texts() -> None:
    """A name full of brackets and breaks comes back as it was."""
    name = '"], [\n 1,\n 2\n] <b>&'
    assert written(sample(hostile=name))["wearer"]["name"] == name
