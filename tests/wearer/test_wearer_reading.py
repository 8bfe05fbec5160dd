"""Reading wearer files: what is understood, and what is refused in which words."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.problems import WearerError
from fanblock.wearer.model import Tilt
from fanblock.wearer.reading import read_wearer

GOOD = """\
wearer: 1
name: ferrywoman
taken: {on: 2026-04-12, over: shift}
units: in
measures:
  bust: 36 1/4
  waist: 28 in
  bust to waist: 6 1/2
  hip: 39
  hip depth: 7
figure:
  - tilt: {at: center back, take: 5/8 in, height: 50%}
"""


def refusal(text: str | bytes) -> str:
    """Return the whole message of a wearer file that must be refused."""
    with pytest.raises(WearerError) as caught:
        read_wearer(text, "w.yaml")
    return str(caught.value)


def measures(*lines: str, units: str = "cm") -> str:
    """Return a wearer file with sound needed measures, each replaced or joined by ``lines``."""
    stated = {line.split(":")[0]: line for line in ("bust: 92", "waist: 74", "bust to waist: 16")}
    stated.update({line.split(":")[0]: line for line in lines})
    body = "\n".join(f"  {line}" for line in stated.values())
    return f"wearer: 1\nname: pilot\nunits: {units}\nmeasures:\n{body}\n"


def with_figure(text: str) -> str:
    """Return a sound wearer file whose figure is ``text``."""
    return measures() + f"figure:{text}\n"


def test_a_whole_file_is_read() -> None:
    """Name, date, layer, measures in mm and corrections come out as they were written."""
    wearer = read_wearer(GOOD, "w.yaml")
    (only,) = wearer.sets
    assert (wearer.name, wearer.units, only.over, only.taken_on) == (
        "ferrywoman",
        "in",
        "shift",
        "2026-04-12",
    )
    assert only.values == {
        "bust": 920.75,
        "waist": 711.2,
        "bust to waist": 165.1,
        "hip": 990.6,
        "hip depth": 177.8,
    }
    assert wearer.figure == (Tilt("center back", 15.875, 0.5, ""),)


def test_several_sets_are_read() -> None:
    """A body may be measured over the shift and over the stays, each with its own date and unit."""
    wearer = read_wearer(
        """\
wearer: 1
name: ferrywoman
sets:
  - taken: {on: 2026-06-01, over: stays}
    units: in
    measures: {bust: 36 1/2, waist: 28 1/2, bust to waist: 7}
  - taken: {on: 2026-04-12, over: shift}
    units: cm
    measures: {bust: 92, waist: 74, bust to waist: 15.5}
""",
        "w.yaml",
    )
    assert wearer.overs == ("shift", "stays")
    assert [values.values["bust to waist"] for values in wearer.sets] == [155.0, 177.8]
    assert [values.taken_on for values in wearer.sets] == ["2026-04-12", "2026-06-01"]


@pytest.mark.parametrize(
    ("text", "tilt"),
    [
        ("{at: centre front, take: 1 cm}", Tilt("center front", 10.0, 0.5, "")),
        ("{at: center back, take: -1 cm, to: side}", Tilt("center back", -10.0, 0.5, "side")),
        ("{at: center back, let out: 1 cm, height: 0%}", Tilt("center back", -10.0, 0.0, "")),
        ("{at: center back, take: 1.5, height: bust}", Tilt("center back", 15.0, 1.0, "")),
    ],
)
def test_tilts_are_read(text: str, tilt: Tilt) -> None:
    """A tilt takes in or lets out, at any height of the stretch, to the far centre line or to the side."""
    assert read_wearer(with_figure(f"\n  - tilt: {text}"), "w.yaml").figure == (tilt,)


def test_notes_are_a_text_or_a_list() -> None:
    """Notes are kept as they stand, one or several."""
    one = read_wearer(measures() + "notes: left shoulder lower\n", "w.yaml")
    two = read_wearer(measures() + "notes:\n  - one\n  - two\n", "w.yaml")
    assert (one.notes, two.notes) == (("left shoulder lower",), ("one", "two"))


def test_units_for_talking_back_follow_the_file() -> None:
    """A file that states no unit is answered in the unit of its first measure."""
    text = "wearer: 1\nname: x\nmeasures: {bust: 36 in, waist: 28 in, bust to waist: 16 cm}\n"
    assert read_wearer(text, "w.yaml").units == "in"


BUST = "58.0 cm and 190.0 cm"
BOARD = "Measure again: tapes level, the one between them taut like a board, not into the hollow and not plumb."


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "name: pilot\n",
            "w.yaml:1:1: the file does not say that it is a wearer. Begin it with wearer: 1.",
        ),
        (
            "recipe: 1\nname: stays\n",
            "w.yaml:1:1: recipe › this file is a recipe, not a wearer. Give a wearer's file here.",
        ),
        (
            "wearer: 2\nnovelty: x\n",
            "w.yaml:1:9: wearer › the file is written in format 2; this fanblock reads format 1. "
            "Upgrade fanblock, or ask whoever wrote the file for an older one.",
        ),
        (
            "wearer: 0\n",
            "w.yaml:1:9: wearer › the file is written in format 0, which is no longer read. "
            "Upgrade the file: write wearer: 1 and look through the names in it.",
        ),
        (
            "wearer: pilot\n",
            "w.yaml:1:9: wearer › the format number is “pilot”. "
            "Write wearer: 1; the name of the person goes into name.",
        ),
        (
            "wearer: 1\nname: pilot\n",
            "w.yaml:1:1: measures › there are no measures. "
            "Write at least bust, waist, bust to waist, each with its length, indented under measures:.",
        ),
        (
            measures().replace("name: pilot", "name:"),
            "w.yaml:2:6: name › the wearer has no name. Write name: and what stands on the pattern pieces.",
        ),
        (
            measures("wiast: 74"),
            "w.yaml:8:3: measures › “wiast” is not known here. Did you mean “wrist” or “waist”?",
        ),
        (
            measures() + "figures: []\n",
            "w.yaml:8:1: “figures” is not known here. Did you mean “figure”?",
        ),
        (
            measures() + "  bust: 93\n",
            "w.yaml:8:3: “bust” stands here a second time (first in line 5). Keep one of them.",
        ),
        (
            measures().replace("units: cm", "units: ell").replace("bust: 92", "bust: 92 cm"),
            "w.yaml:3:8: units › “ell” is not a unit. Write in, cm or mm.",
        ),
        (
            measures().replace("units: cm\n", "").replace("74", "74 cm").replace("16", "16 cm"),
            "w.yaml:4:9: measures › bust › “92” has no unit. Write 92 in or 92 cm, "
            "or say once at the top what bare numbers mean: units: in (or cm, or mm).",
        ),
        (
            measures("bust: [92]"),
            "w.yaml:5:9: measures › bust › this is a list, not a length. Write a length, such as 91 cm.",
        ),
        (
            measures("hip: -94"),
            "w.yaml:8:8: measures › hip › “-94” is not more than nothing. Write the length.",
        ),
        (
            measures("hip:"),
            "w.yaml:8:3: measures › hip › this is still blank. "
            "All round the fullest part of the seat, the tape level; with stays on, over all petticoats. Or take the line out.",
        ),
        (
            "wearer: 1\nname: x\nmeasures: {bust: 92 cm, bust to waist: 16 cm}\n",
            "w.yaml:3:11: measures › waist is missing. All round where the body creases when you bend "
            "sideways. Let the tape settle, breathe out, hold it firm. Take nothing off: the recipe does.",
        ),
        (
            measures() + "taken: {on: 12.4.2026, over: shift}\n",
            "w.yaml:8:13: taken › on › “12.4.2026” is not a date. Write year, month and day, such as 2026-04-12.",
        ),
        (
            measures() + "taken: {on: 2026-02-30}\n",
            "w.yaml:8:13: taken › on › “2026-02-30” is no day of the calendar. Look at month and day.",
        ),
        (
            measures() + "taken: {over: shirt}\n",
            "w.yaml:8:15: taken › over › “shirt” is not what measures are taken over. Did you mean “shift”?",
        ),
        (
            measures() + "taken: 2026-04-12\n",
            "w.yaml:8:8: taken › this is a text. Write it as taken: {on: 2026-04-12, over: shift}.",
        ),
        (
            measures() + "sets:\n  - measures: {bust: 92, waist: 74, bust to waist: 16}\n",
            "w.yaml:4:1: measures › this stands beside sets. "
            "Put it into an item of sets: with its own taken and measures.",
        ),
        (
            "wearer: 1\nname: x\nunits: cm\nsets:\n"
            "  - measures: {bust: 92, waist: 74, bust to waist: 16}\n"
            "  - measures: {bust: 92, waist: 74, bust to waist: 16}\n",
            "w.yaml:6:5: sets › 2 › taken › there is already a set over shift. "
            "Keep the later one, or change what it was taken over.",
        ),
        (
            measures() + "notes:\n  - left: lower\n",
            "w.yaml:9:5: notes › 1 › this is a table of names and values, not a text. "
            "Put a note that holds a colon in quotation marks.",
        ),
    ],
)
def test_files_that_cannot_be_read_are_told_so(text: str, expected: str) -> None:
    """Each fault of writing is told with its place, what is wrong and what to do."""
    assert refusal(text) == expected


@pytest.mark.parametrize(
    ("lines", "units", "expected"),
    [
        (
            ["bust: 45", "waist: 36"],
            "cm",
            f"w.yaml:5:9: measures › bust › 45 cm is too small for bust (between {BUST}). "
            "Is it half the girth (the whole is then 90.0 cm), or 45 in?\n"
            "w.yaml:6:10: measures › waist › 36 cm is too small for waist (between 45.0 cm and 210.0 cm). "
            "Is it half the girth (the whole is then 72.0 cm), or 36 in?",
        ),
        (
            ["bust: 34 in", "waist: 28 cm", "bust to waist: 6"],
            "in",
            "w.yaml:6:10: measures › waist › 28 cm is too small for waist (between 45.0 cm and 210.0 cm). "
            "Is it half the girth (the whole is then 56.0 cm), or 28 in?",
        ),
        (
            ["bust: 91", "waist: 28", "bust to waist: 6"],
            "in",
            "w.yaml:5:9: measures › bust › 91 in is too large for bust (between 22 7/8 in and 74 3/4 in). Is it 91 cm?",
        ),
        (
            ["bust: 91 mm"],
            "cm",
            "w.yaml:5:9: measures › bust › 91 mm is too small for bust (between 580.0 mm and 1900.0 mm). Is it 91 cm?",
        ),
        (
            ["bust to waist: 6 1/2"],
            "cm",
            "w.yaml:7:18: measures › bust to waist › 6 1/2 cm is too short for bust to waist "
            "(between 9.0 cm and 28.0 cm). Is it 6 1/2 in?",
        ),
        (
            ["bust to waist: 31"],
            "cm",
            "w.yaml:7:18: measures › bust to waist › 31 cm is too long for bust to waist "
            f"(between 9.0 cm and 28.0 cm). {BOARD}",
        ),
        (
            ["underbust: 96"],
            "cm",
            "w.yaml:8:14: measures › underbust › underbust 96.0 cm is more than bust 92.0 cm. "
            "Were the two swapped? The underbust lies on the ribs, below the bust.",
        ),
        (
            ["waist: 95", "bust: 100", "hip: 68"],
            "cm",
            "w.yaml:8:8: measures › hip › waist 95.0 cm is more than hip 68.0 cm. "
            "Is the hip half the girth, or were the two swapped?",
        ),
        (
            ["bust: 120", "waist: 50"],
            "cm",
            "w.yaml:6:10: measures › waist › waist 50.0 cm is 0.42 of bust 120.0 cm. "
            "Is the waist half the girth, or was it taken laced? Measure the body as it is.",
        ),
        (
            ["bust: 60", "waist: 100"],
            "cm",
            "w.yaml:6:10: measures › waist › waist 100.0 cm is 1.67 of bust 60.0 cm. "
            "Is the bust half the girth, or were the two swapped?",
        ),
        (
            ["raised: 14"],
            "cm",
            "w.yaml:8:11: measures › raised › raised 14.0 cm is shorter than bust to waist 16.0 cm. "
            "Lifting only lengthens it: were the two swapped?",
        ),
        (
            ["bust to waist at back: 9.5"],
            "cm",
            "w.yaml:8:26: measures › bust to waist at back › "
            "bust to waist at back 9.5 cm and bust to waist 16.0 cm are 6.5 cm apart. "
            "Are both tapes level all round? Look in a mirror or at a photograph from the side.",
        ),
        (
            ["front arc: 92"],
            "cm",
            "w.yaml:8:14: measures › front arc › front arc 92.0 cm is 100% of bust 92.0 cm. "
            "It runs from side to side across the whole front, about half the bust.",
        ),
        (
            ["underarm: 31", "back length: 30"],
            "cm",
            "w.yaml:8:13: measures › underarm › underarm 31.0 cm is not shorter than back length 30.0 cm. "
            "The back length begins at the base of the neck: were the two swapped?",
        ),
        (
            ["underbust height: 16"],
            "cm",
            "w.yaml:8:21: measures › underbust height › "
            "underbust height 16.0 cm is not below bust to waist 16.0 cm. "
            "Measure it from the waist tape up to the underbust tape.",
        ),
    ],
)
def test_slips_of_the_tape_are_named(lines: list[str], units: str, expected: str) -> None:
    """A measure that can only be a slip is refused, and the likely slip is named."""
    assert refusal(measures(*lines, units=units)) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            " tilted\n",
            "w.yaml:8:9: figure › this is a text, not a list of corrections. "
            "Write it as - tilt: {at: center back, take: 1 cm}.",
        ),
        (
            "\n  - {side: left, tilt: {at: center back, take: 1 cm}}",
            "w.yaml:9:6: figure › 1 › “side” is not known here. Legal here: tilt.",
        ),
        (
            "\n  - tilt: {at: center back, take: 1 cm, side: right}",
            "w.yaml:9:41: figure › 1 › tilt › side › a wedge at the centre back cannot be of the right half alone: the other "
            "half is joined to it there. Write a wedge of one half as - tilt: {at: side, take: 8 mm, side: left}.",
        ),
        (
            " {side: left}",
            "w.yaml:8:9: figure › this is a table of names and values, not a list of corrections. "
            "Write it as - tilt: {at: center back, take: 1 cm}.",
        ),
        (
            "\n  - tilt: {at: side, take: 1 cm}",
            "w.yaml:9:11: figure › 1 › tilt › a wedge at the side must say of which half. "
            "Add side: left or side: right; for both sides measure bust to waist at side.",
        ),
        (
            "\n  - tilt: {at: side, take: 1 cm, side: left, height: 50%}",
            "w.yaml:9:46: figure › 1 › tilt › height › a wedge at the side runs out to nothing at both centre lines. "
            "Leave height out.",
        ),
        (
            "\n  - tilt: {at: side, take: 1 cm, side: both}",
            "w.yaml:9:40: figure › 1 › tilt › side › “both” is no half. Write left or right.",
        ),
        (
            "\n  - tlit: {at: center back, take: 1 cm}",
            "w.yaml:9:5: figure › 1 › “tlit” is not known here. Did you mean “tilt”?",
        ),
        (
            "\n  - tilt: {at: back, take: 1 cm}",
            "w.yaml:9:16: figure › 1 › tilt › at › “back” is no centre line. "
            "Write center back or center front; or side, for a wedge of one half alone.",
        ),
        (
            "\n  - tilt: {take: 1 cm}",
            "w.yaml:9:11: figure › 1 › tilt › where the wedge is taken is missing. "
            "Add at: center back, or at: center front.",
        ),
        (
            "\n  - tilt: {at: center back, take: 1 cm, let out: 1 cm}",
            "w.yaml:9:11: figure › 1 › tilt › both take and let out stand here. "
            "Write one of them: take to shorten, let out to lengthen.",
        ),
        (
            "\n  - tilt: {at: center back}",
            "w.yaml:9:11: figure › 1 › tilt › how much is taken is missing. "
            "Write one of them: take to shorten, let out to lengthen.",
        ),
        (
            "\n  - tilt: {at: center back, take: 0}",
            "w.yaml:9:35: figure › 1 › tilt › take › a wedge of nothing changes nothing. Leave it out.",
        ),
        (
            "\n  - tilt: {at: center back, take: 7 cm}",
            "w.yaml:9:35: figure › 1 › tilt › take › “7 cm” is more than a tilt can be (6 cm, 2 3/8 in). "
            "Look at bust to waist first: is it right?",
        ),
        (
            "\n  - tilt: {at: center back, let out: -1 cm}",
            "w.yaml:9:38: figure › 1 › tilt › let out › “-1 cm” lets out less than nothing. "
            "Write take with the length, without a minus.",
        ),
        (
            "\n  - tilt: {at: center back, take: 1 cm, height: 120%}",
            "w.yaml:9:49: figure › 1 › tilt › height › “120%” lies outside waist (0%) to bust (100%), "
            "where a wedge changes nothing. Write a height between the two; a back that is rounder above the "
            "blades cannot be written yet: let it out on the toile.",
        ),
        (
            "\n  - tilt: {at: center back, take: 1 cm, height: high}",
            "w.yaml:9:49: figure › 1 › tilt › height › “high” is no height for a wedge. "
            "Write a share of the way from waist (0%) to bust (100%), such as 50%.",
        ),
        (
            "\n  - tilt: {at: center back, take: 1 cm, to: sides}",
            "w.yaml:9:45: figure › 1 › tilt › to › “sides” is not where a wedge can end. "
            "Did you mean “side”? Leave to out for a wedge that ends at the other centre line.",
        ),
    ],
)
def test_corrections_that_cannot_be_drawn_are_refused_aloud(text: str, expected: str) -> None:
    """Nothing of the figure is skipped in silence; one-sided corrections least of all."""
    assert refusal(with_figure(text)) == expected


def test_all_problems_come_at_once_in_reading_order() -> None:
    """One reading tells everything that is wrong, from the top of the file to its end."""
    text = """\
wearer: 1
name: pilot
colour: red
units: cm
measures:
  bust: 45
  waist: many
  bust: 46
  hipp: 94
figure:
  - tilt: {at: center back, take: 9}
"""
    assert refusal(text).split("\n") == [
        "w.yaml:3:1: “colour” is not known here. "
        "Legal here: figure, halves may differ, measures, name, notes, sets, taken, units, wearer.",
        "w.yaml:6:3: measures › bust to waist is missing. "
        "At the centre front, from the bust tape to the waist tape, the measuring tape taut like a board "
        "between the two. It must not follow the hollow under the bust.",
        f"w.yaml:6:9: measures › bust › 45 cm is too small for bust (between {BUST}). "
        "Is it half the girth (the whole is then 90.0 cm), or 45 in?",
        "w.yaml:7:10: measures › waist › “many” is not a length. "
        "Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in.",
        "w.yaml:8:3: “bust” stands here a second time (first in line 6). Keep one of them.",
        "w.yaml:9:3: measures › “hipp” is not known here. Did you mean “hip” or “hip depth”?",
        "w.yaml:11:35: figure › 1 › tilt › take › “9” is more than a tilt can be (6 cm, 2 3/8 in). "
        "Look at bust to waist first: is it right?",
    ]


def test_raised_belongs_over_the_shift() -> None:
    """Over stays the bust is raised already; a second lift would be counted twice."""
    assert refusal(measures("raised: 17") + "taken: {over: stays}\n") == (
        "w.yaml:8:11: measures › raised › over stays the bust is already raised. "
        "Write this length as bust to waist, and leave raised to the set over the shift."
    )


@given(
    cut=st.integers(0, len(GOOD)),
    length=st.integers(0, 30),
    put=st.text(alphabet=st.sampled_from("{}[]:,-#&*!|>'\"%@ \n\tab19/"), max_size=8),
)
def test_a_spoilt_file_is_read_or_refused(cut: int, length: int, put: str) -> None:
    """Whatever is struck out or typed over, the answer is a wearer or a WearerError with placed problems."""
    with contextlib.suppress(WearerError):
        read_wearer(GOOD[:cut] + put + GOOD[cut + length :], "w.yaml")


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """A file from a stranger may hold anything: nothing but a WearerError comes of it."""
    with contextlib.suppress(WearerError):
        read_wearer(b"wearer: 1\n" + data, "w.yaml")
