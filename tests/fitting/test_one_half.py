"""Notes of a toile for one half alone: kept for that half, or averaged and told; and fittings of garments of two halves."""

from __future__ import annotations

from pathlib import Path

import pytest

from fanblock.fitting.compare import rows
from fanblock.fitting.fellows import in_halves
from fanblock.fitting.fit import Fitted, fitted
from fanblock.fitting.notes import read_notes
from fanblock.fitting.numbers import half_numbers, moved_words
from fanblock.fitting.seen import open_draft
from fanblock.garment.library import draft_garment, open_garment
from fanblock.garment.reading import read_garment
from fanblock.garment.writing import garment_text


def fit(folder: Path, notes: str, garment: str = "") -> Fitted:
    """Return stays for the ferrywoman after these notes."""
    path = folder / "g.yaml"
    path.write_text(garment or "garment: 1\nwearer: ferrywoman\nrecipe: stays-five-panels\n", encoding="utf-8")
    return fitted(open_garment(str(path)), read_notes(f"fit: 1\n{notes}", "n.yaml"))


def waists(done: Fitted) -> list[float]:
    """Return the cloth of each half at the waist after a fitting."""
    halves = draft_garment(done.opened).halves
    return [next(girth for girth in half.girths if girth.name == "waist").parts_mm for half in halves]


def test_a_pinch_of_one_half_is_kept_for_it(tmp_path: Path) -> None:
    """16 mm pinched in on the left are 16 mm of the left half, and the next draft has two halves."""
    done = fit(tmp_path, "draft: 1\npinch: {take: 16 mm, at: side, height: waist, half: left}\n")
    (told,) = done.told
    assert told.changed == ("this garment: 5/8 in taken in at the waist of “side seam”, in the left half alone",)
    assert told.advice == (
        "It is more than the halves may differ, so it is kept for the left half alone: the next draft has two halves."
    )
    (change,) = done.opened.garment.changes
    assert change.half == "left"
    left, right = waists(done)
    assert right - left == pytest.approx(16.0, abs=0.05)


def test_a_small_pinch_of_one_half_is_averaged_and_told(tmp_path: Path) -> None:
    """8 mm are less than the centimetre that halves may differ by: each half is given 4."""
    done = fit(tmp_path, "draft: 1\npinch: {take: 8 mm, at: side, height: waist, half: right}\n")
    (told,) = done.told
    assert told.changed == ("this garment: 5/32 in taken in at the waist of “side seam”, in either half",)
    assert told.advice == (
        "It is averaged, so each half is given half of it: left and right may differ by 13/32 in (see `halves may differ`)."
    )
    assert not draft_garment(done.opened).halves


def test_one_side_off_the_string_goes_into_the_wearers_sides(tmp_path: Path) -> None:
    """The drawn waist 12 mm above the string on the left: that side of the body is so much longer than the other."""
    done = fit(tmp_path, "draft: 1\nline: {waist: 12 mm above string, where: left side}\n")
    shift = done.opened.wearer.sets[0]
    left, right = shift.sides["bust to waist at side"]
    assert left - right == pytest.approx(12.0, abs=0.13)  # kept to 0.01 in
    assert len(draft_garment(done.opened).halves) == 2


def test_a_garment_of_two_halves_is_fitted_again(tmp_path: Path) -> None:
    """What both halves are given leaves the one half's own change as it was: the difference of their waists stays."""
    first = fit(tmp_path, "draft: 1\npinch: {take: 16 mm, at: side, height: waist, half: left}\n")
    again = fit(
        tmp_path,
        "draft: 2\npinch: {take: 6 mm, at: side, height: middle}\ngap: {waist: 6 cm}\n",
        garment_text(first.opened.garment),
    )
    assert draft_garment(again.opened).sound
    left, right = waists(again)
    assert right - left == pytest.approx(16.0, abs=0.05)


def test_a_change_of_one_half_is_written_and_read_back() -> None:
    """The garment file says `half: left`."""
    change = "  - {take: {seam: side seam, at: waist, more: 16 mm}, draft: 2, half: left}\n"
    garment = read_garment(f"garment: 1\nwearer: ferrywoman\nrecipe: stays-five-panels\nchanges:\n{change}", "g.yaml")
    assert garment.own_alterations[0][0] == "left"
    assert garment.alterations == ()
    assert read_garment(garment_text(garment), "g.yaml") == garment


def test_a_draft_of_one_half_is_compared_with_one_of_two(tmp_path: Path) -> None:
    """Each piece of the one is laid beside both of the other: the right ones did not move, the left side did."""
    plain = "garment: 1\nwearer: ferrywoman\nrecipe: stays-five-panels\n"
    change = "changes:\n  - {take: {seam: side seam, at: waist, more: 16 mm}, half: left}\n"
    paths = [tmp_path / "one.yaml", tmp_path / "two.yaml"]
    for path, text in zip(paths, (plain, plain + change), strict=True):
        path.write_text(text, encoding="utf-8")
    one, two = in_halves(*(open_draft(str(path)) for path in paths))
    assert one.pieces.keys() == two.pieces.keys()
    moved = {what.split(",")[0] for what, *_ in rows(one, two)}
    assert {"side left", "side back left"} <= moved
    assert not {name for name in moved if name.endswith(" right")}


SIDE = "pinch: {{take: {mm} mm, at: side, height: middle, half: {half}}}\n"


def test_once_there_are_two_halves_a_note_of_one_goes_into_it_alone(tmp_path: Path) -> None:
    """The garment has two halves already: 6 mm on the right are 6 mm of the right one, and none of the left."""
    first = fit(tmp_path, f"draft: 1\n{SIDE.format(mm=16, half='left')}")
    again = fit(tmp_path, f"draft: 2\n{SIDE.format(mm=6, half='right')}", garment_text(first.opened.garment))
    assert again.opened.garment.changes[-1].half == "right"
    assert again.told[0].changed == (
        "this garment: 1/4 in taken in at the middle of “side seam”, in the right half alone",
    )
    assert again.told[0].advice == ""
    before, after = half_numbers(again.before)["middle"], half_numbers(again.after)["middle"]
    assert before[0] - after[0] == pytest.approx(0.0, abs=0.05)
    assert before[1] - after[1] == pytest.approx(6.0, abs=0.2)


def test_what_one_half_measures_is_told_for_it(tmp_path: Path) -> None:
    """No girth but the middle moves: the whole by 6 mm, the right half by as much, the left not at all."""
    first = fit(tmp_path, f"draft: 1\n{SIDE.format(mm=16, half='left')}")
    again = fit(tmp_path, f"draft: 2\n{SIDE.format(mm=6, half='right')}", garment_text(first.opened.garment))
    moved = moved_words(again.before, again.after)
    assert any(says.startswith("worn middle") for says in moved)
    assert any(says.startswith("right half, middle") for says in moved)
    assert not any(says.startswith("left half, middle") for says in moved)


def test_a_second_pinch_at_one_place_promises_nothing(tmp_path: Path) -> None:
    """It changes nothing, so nothing is said of two halves, and there are none."""
    pinches = "pinch:\n" + "".join(f"  - {{take: {mm} mm, at: side, height: middle, half: left}}\n" for mm in (6, 19))
    done = fit(tmp_path, f"draft: 1\n{pinches}")
    assert done.told[1].changed[0].endswith("speaks of the same place and comes first")
    assert done.told[1].advice == ""
    assert not draft_garment(done.opened).halves


def test_the_girths_of_either_half_are_compared(tmp_path: Path) -> None:
    """6 mm at the middle of the right half end no seam higher or lower: the girths tell it."""
    plain = "garment: 1\nwearer: ferrywoman\nrecipe: stays-five-panels\nchanges:\n"
    paths = [tmp_path / "one.yaml", tmp_path / "two.yaml"]
    changes = [
        f"  - {{take: {{seam: side seam, at: 50%, more: {mm} mm}}, half: {half}}}\n"
        for mm, half in ((16, "left"), (6, "right"))
    ]
    for number, path in enumerate(paths, 1):
        path.write_text(plain + "".join(changes[:number]), encoding="utf-8")
    moved = {what: by for what, _, _, by in rows(*in_halves(*(open_draft(str(path)) for path in paths)))}
    assert moved["worn middle"] == moved["right half, middle"]
    assert moved["worn middle"].startswith("-")
    assert "left half, middle" not in moved
