"""Letters: in order from the front, lower case on what ends on another seam, none that survives being turned."""

from __future__ import annotations

from dataclasses import replace

from fanblock.draft.model import LevelSeam, SeamLine
from fanblock.draft.work import SeamRecord
from fanblock.finish.letters import LETTERS, letter, letters


def line(name: str, top_on: str = "") -> SeamLine:
    """Return a seam that may hang on another."""
    return SeamLine(name, lambda heights: heights, 1.0, 0.0, None, (), 0.0, "", top_on)


def record(name: str, of: str, number: int) -> SeamRecord:
    """Return the record of a seam or of one of its pieces."""
    return SeamRecord(name, of, number, ("a", name), ("b", name), None, None)


def given(lines: list[SeamLine | LevelSeam], records: list[SeamRecord]) -> dict[str, str]:
    """Return letters by the names of edges, which are the same on both sides."""
    found = letters(lines, records)
    assert all(found["a", name] == found["b", name] for _, name in found)
    return {name: sign for (panel, name), sign in found.items() if panel == "a"}


def test_letters_are_given_from_the_front() -> None:
    """Whatever order seams are drawn in, letters follow their place."""
    lines = [line("side"), line("front"), line("back")]
    records = [record("front", "front", 1), record("side", "side", 2), record("back", "back", 3)]
    assert given(lines, records) == {"front": "A", "side": "B", "back": "C"}


def test_what_ends_on_a_seam_is_lettered_after_it() -> None:
    """Seams that end on B are b1 and b2, one that ends on b1 is b3, and the pieces of B are all B."""
    lines = [line("front"), line("host"), line("one", "host"), line("two", "host"), line("three", "one")]
    records = [
        record("front", "front", 1),
        record("host 1", "host", 2),
        record("host 2", "host", 2),
        record("one", "one", 3),
        record("two", "two", 4),
        record("three", "three", 5),
    ]
    assert given(lines, records) == {
        "front": "A",
        "host 1": "B",
        "host 2": "B",
        "one": "b1",
        "two": "b2",
        "three": "b3",
    }


def test_a_seam_that_ends_on_a_centre_line_is_one_of_its_own() -> None:
    """Centre lines and lacing edges are no seams: what ends on them gets a capital."""
    assert given([line("yoke", "center front")], [record("yoke", "yoke", 1)]) == {"yoke": "A"}


def test_no_letter_reads_the_same_turned() -> None:
    """H I N O S X Z look alike upside down, M W and U are taken for each other (common practice, no source)."""
    assert not set(LETTERS) & set("HINOSXZMWU")
    first = [letter(number) for number in range(1, 60)]
    assert len(set(first)) == len(first)


def test_each_part_of_a_seam_that_is_cut_has_its_own_letter() -> None:
    """A level seam cuts the front seam: what lies above it is A, the level seam B, what hangs below it C."""
    lines = [line("front"), LevelSeam("waist seam", lambda at: at, 0.0, 1.0, "center front", "center back", 1)]
    records = [
        record("front", "front", 1),
        record("waist seam 1", "waist seam", 2),
        record("waist seam 2", "waist seam", 2),
        replace(record("front below waist seam", "front", 3), part="below waist seam"),
    ]
    assert given(lines, records) == {
        "front": "A", "waist seam 1": "B", "waist seam 2": "B", "front below waist seam": "C",
    }  # fmt: skip


def test_what_ends_on_a_seam_that_is_not_sewn_is_lettered_by_itself() -> None:
    """A seam on one that is laced has a capital, since there is no letter to take it from."""
    assert given([line("laced"), line("one", "laced")], [record("one", "one", 1)]) == {"one": "A"}
