"""Sewing order and toile: which seams stop where, what is done at the centres, what a toile wants."""

from __future__ import annotations

from dataclasses import replace

from tests.sheet.real import drafted

from fanblock.finish.toile import toile_of
from fanblock.pattern.model import Pattern
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.sewingorder import is_open


def stays() -> Pattern:
    """Five-panel stays: the front seam sewn to the hem, the others open below the waist."""
    return drafted("innkeeper", "stays-five-panels")


def test_every_seam_says_where_it_stops() -> None:
    """Open seams stop at the waist bar, sewn ones run to the lower edge; so the recipe has it."""
    pattern = left_open()
    assert [is_open(pattern, seam) for seam in pattern.seams] == [False, True, True, True]
    lines = joining(pattern)
    first = place(lines, "Join A to A")
    assert lines[first : first + 2] == (
        "Join A to A: piece 1 (center front) to piece 2 (side front), from the top to the lower edge.",
        "Join B to B: piece 2 (side front) to piece 3 (side), from the top down to the waist bar and no further.",
    )


def test_open_seams_are_secured_where_they_stop() -> None:
    """Where a seam stops at the waist it is secured; its allowance ends there too (common practice, no source)."""
    said = [line for line in joining(stays()) if "secure it there" in line]
    assert len(said) == 1
    assert "press its allowance back: it ends at the bar. The skirts below stay open" in said[0]


def test_a_centre_front_with_an_allowance_is_sewn() -> None:
    """Both halves are sewn to each other at the centre front; the laced centre back is not."""
    lines = joining(left_open())
    at = place(lines, "Sew the two centre fronts")
    assert lines[at : at + 2] == (
        "Sew the two centre fronts (piece 1, both halves) to each other, from the top to the lower edge.",
        "The open edges at the centre back (piece 5) are not sewn: they are finished and laced, 5.0 cm apart.",
    )


def test_a_centre_on_the_fold_is_not_sewn() -> None:
    """A piece cut on the fold has no seam there."""
    pattern = stays()
    first = replace(pattern.panels[0], fold="center front")
    folded = replace(pattern, panels=(first, *pattern.panels[1:]))
    said = " ".join(joining(folded))
    assert "Piece 1 is cut on the fold at the centre front: there is no seam." in said
    assert "Sew the two centre fronts" not in said


def test_a_centre_without_allowance_only_meets() -> None:
    """A finished centre edge is neither sewn nor folded."""
    pattern = stays()
    first = pattern.panels[0]
    bare = {name: width for name, width in first.allowances.items() if name != "center front"}
    pattern = replace(pattern, panels=(replace(first, allowances=bare), *pattern.panels[1:]))
    assert "At the centre front the two halves meet edge to edge, without allowance." in joining(pattern)


def left_open() -> Pattern:
    """The same stays where the recipe leaves open how they are made."""
    return replace(stays(), construction="")


def test_channels_come_first_and_bones_eyelets_and_binding_last() -> None:
    """Where nothing is said channels are stitched on flat pieces; bones, eyelets, binding and lining follow when these hang
    together (common practice, no source)."""
    lines = joining(left_open())
    assert lines[3] == (
        "First the channels, piece by piece: baste the strength layers together and stitch both lines of every channel "
        "through them, and across its lower end."
    )
    assert lines[-6] == "Put in the bones from above, each as long as the list says, with rounded or tipped ends."
    assert lines[-4].startswith(
        "Turn the lacing edges in along the stitch line, over the channels beside them, fold the raw edge under"
    )
    assert lines[-3].endswith(
        "Then work the eyelets through all layers but the lining; the left and the right row are each in the list."
    )
    assert lines[-2] == "Bind the edges with linen tape, which closes the channels that end below it."
    assert lines[-1].startswith("The lining comes last: join its pieces by plain seams on the stitch lines")
    assert "Turn its bound edges in by 7 mm, so that its fold covers the inner edge of the binding" in lines[-1]


def place(lines: tuple[str, ...], words: str) -> int:
    """Which of some lines has these words."""
    return next(number for number, line in enumerate(lines) if words in line)


def test_whipped_pieces_are_finished_before_they_are_joined() -> None:
    """Baste, channels, bones, turned edges, whip, tape, eyelets, bind, lining last (published: green wool stays of about
    1780, whose panels were finished one by one; the order is common practice)."""
    lines = joining(stays())
    order = ("stitch both lines of every channel", "Put in the bones", "stitch across the upper end", "Turn the seam edges",
             "To whip", "lay the two waist bars", "Whip A to A", "Whip D to D",
             "Whip the two centre fronts", "sew a narrow tape", "work the eyelets", "Bind the edges",
             "The lining comes last")  # fmt: skip
    places = [place(lines, words) for words in order]
    assert places == sorted(places)
    assert not any(line.startswith("Join") for line in lines)


def test_sewn_pieces_are_joined_before_their_channels() -> None:
    """Seams, then channels through all the strength layers, then bones (common practice, no source)."""
    lines = joining(replace(stays(), construction="sewn"))
    order = ("Seams first", "Join A to A", "Then the channels", "Put in the bones", "work the eyelets")
    places = [place(lines, words) for words in order]
    assert places == sorted(places)
    assert not any("whip" in line.lower() for line in lines)


def test_a_toile_is_sewn_whatever_the_garment_is() -> None:
    """Simple seams, for they are taken out again."""
    lines = joining(toile_of(stays()))
    assert lines[place(lines, "Join")].startswith("Join A to A")
    assert not any("whip" in line.lower() for line in lines)


def test_a_busk_and_curved_bones_are_told_of() -> None:
    """A busk can be taken out; curved bones lie over the straight ones (common practice, no source)."""
    busk = " ".join(joining(drafted("innkeeper", "bodies-1560s")))
    assert "it stays open above, and the busk is taken out for washing" in busk
    curved = " ".join(joining(drafted("innkeeper", "stays-1740s-fully-boned")))
    assert "Lay the curved bones across the inside of the front, over the straight ones" in curved


def test_a_toile_can_be_laced() -> None:
    """Layers, spare cloth, allowances, lacing at the gap, bones where the channels are (common practice)."""
    said = " ".join(toile(stays()))
    for part in (
        "as many layers as the garment will have, or from one firm cloth",
        "5 to 7 cm",
        "not under the arm",
        "sew them to the outside",
        "with 5.0 cm between the edges",
        "at the centre front, beside the lacing edges, in the side seams. No binding.",
        "Tape bones on where the pieces have their channels",
    ):
        assert part in said
    assert "not planned" not in said


def test_what_a_recipe_does_not_plan_is_said() -> None:
    """Without channels and eyelets the sheets say that they are for the maker to settle."""
    pattern = stays()
    bare = replace(pattern, panels=tuple(replace(panel, channels=(), eyelets=()) for panel in pattern.panels))
    assert "eyelets are not planned on these sheets" in " ".join(toile(bare))
    bare = replace(bare, construction="")
    lines = joining(bare)
    assert not any("channel" in line for line in lines)
    assert lines[place(lines, "Join")].startswith("Join A to A")


def test_a_toile_without_lacing_speaks_of_none() -> None:
    """Without lacing edges there is nothing to lace."""
    pattern = stays()
    back = pattern.panels[-1]
    edges = tuple(replace(edge, kind="center") if edge.kind == "lacing" else edge for edge in back.edges)
    closed = replace(pattern, panels=(*pattern.panels[:-1], replace(back, edges=edges)))
    assert "can be laced" not in " ".join(toile(closed))


def test_edges_that_meet_are_left_open() -> None:
    """A gown closes at the centre front edge to edge: sewn shut it could not be put on."""
    said = " ".join(joining(drafted("pilot", "gown-bodice-1770s")))
    assert (
        "The open edges at the centre front (piece 1) are not sewn: they are finished and pinned edge to edge" in said
    )
    assert "Sew the two centre fronts" not in said


def test_what_is_fitted_on_the_body_is_set_on_last() -> None:
    """Straps and sleeves follow when the halves are one and the lining is in; hems come at the end (common practice)."""
    lines = joining(drafted("ferrywoman", "gown-bodice-1770s"))
    at = {
        what: next(number for number, line in enumerate(lines) if what in line)
        for what in (
            "mirror image",
            "two centre backs",
            "Make the lining up",
            "(strap) to piece 3",
            "Close piece 5",
            "(sleeve) to piece 1",
            "Put the garment on",
            "(sleeve) to piece 4",
            "The waist edge is for a skirt",
        )
    }
    assert list(at.values()) == sorted(at.values())


def test_stays_are_neither_lined_nor_hemmed_like_a_gown() -> None:
    """Their lining comes last and their edges are bound."""
    lines = joining(drafted("ferrywoman", "stays-five-panels"))
    assert not any("Make the lining up" in line or "hem by hand" in line for line in lines)
    assert "The lining comes last" in lines[-1]
