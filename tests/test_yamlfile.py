"""Reading YAML with places, refusing what strangers' files must not hold."""

import pytest

from fanblock.problems import FanblockError, Problem, RecipeError
from fanblock.yamlfile import Listing, Table, Text, kind, read_yaml, unknown_names


def message(source: str | bytes) -> str:
    """Return the whole message of a file that must be refused."""
    with pytest.raises(RecipeError) as caught:
        read_yaml(source, "f.yaml", RecipeError)
    return str(caught.value)


def test_values_keep_their_places() -> None:
    """Names and values know their line and column, counted from 1 and in characters."""
    table = read_yaml("é: ü\nsteps:\n  - seam: {name: x}\n", "f.yaml")
    steps = table.get("steps")
    assert isinstance(steps, Listing)
    seam = steps.items[0]
    assert isinstance(seam, Table)
    assert [str(entry.place) for entry in table] == ["f.yaml:1:1", "f.yaml:2:1"]
    assert str(table.entries[0].value.place) == "f.yaml:1:4"
    assert str(seam.entries[0].value.place) == "f.yaml:3:11"


@pytest.mark.parametrize("text", ["no", "on", "1:30", "012", "0x1F", "1e3", "2026-04-12", "~", "50%", ".inf"])
def test_plain_scalars_stay_text(text: str) -> None:
    """Nothing is guessed: YAML 1.1 would make a falsehood of no and ninety of 1:30."""
    value = read_yaml(f"a: {text}\n", "f.yaml").get("a")
    assert isinstance(value, Text)
    assert (value.text, value.quoted) == (text, False)


def test_quotation_marks_are_remembered() -> None:
    """A quoted value, and a block of text, can be told from a plain one."""
    table = read_yaml("a: 'x'\nb: \"x\"\nc: x\nd: |\n  x\n", "f.yaml")
    assert [entry.value.quoted for entry in table if isinstance(entry.value, Text)] == [
        True,
        True,
        False,
        True,
    ]


def test_scalars_answer_what_they_are() -> None:
    """Whole numbers, yes and no, and blanks are recognised where asked for, never in quotes."""
    table = read_yaml("a: 12\nb: '12'\nc: yes\nd: false\ne:\nf: ''\n", "f.yaml")
    values = [entry.value for entry in table if isinstance(entry.value, Text)]
    assert [value.whole_number for value in values] == [12, None, None, None, None, None]
    assert [value.truth for value in values] == [None, None, True, False, None, None]
    assert [value.blank for value in values] == [False, False, False, False, True, False]
    assert [kind(value) for value in values] == ["a number", "a text", "a text", "a text", "blank", "a text"]
    assert [kind(table), kind(Listing((), table.place))] == ["a table of names and values", "a list"]


def test_a_table_is_asked_by_name() -> None:
    """A table gives the value of a name, its entry with the place, its names, or nothing."""
    table = read_yaml("b: 1\na: 2\n", "f.yaml")
    entry = table.entry("a")
    assert entry is not None
    assert (table.names, len(table), str(entry.place), table.get("c")) == (("b", "a"), 2, "f.yaml:2:1", None)


BOMB = "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("", "f.yaml:1:1: the file is empty."),
        ("# words only\n", "f.yaml:1:1: the file is empty."),
        ("- 1\n", "f.yaml:1:1: the file holds a list. Begin lines with a name and a colon."),
        ("word\n", "f.yaml:1:1: the file holds a text. Begin lines with a name and a colon."),
        ("a: 1\n---\nb: 2\n", "f.yaml:2:1: a second document begins here. Keep one in a file, without ---."),
        (
            "a: 1\nb: 2\na: 3\n",
            "f.yaml:3:1: “a” stands here a second time (first in line 1). Keep one of them.",
        ),
        (
            "a: !!python/object:os.system x\n",
            "f.yaml:1:4: “tag:yaml.org,2002:python/object:os.syst…” is a tag. "
            "Leave it out, or use quotation marks if you meant an exclamation mark.",
        ),
        (
            "? [x]\n: 2\n",
            "f.yaml:1:3: a list stands where a name should be. Write a plain name before the colon.",
        ),
        (
            "a: " + "[" * 60 + "]" * 60,
            "f.yaml:1:53: the file is nested more than 50 deep. Look for brackets that are not closed.",
        ),
        ("a: 'x\n", "f.yaml:2:1: a quotation mark is not closed. Close it on the line where it opens."),
        (
            "a: [1,\nb: 2",
            "f.yaml:3:1: a bracket is not closed or a comma is missing. "
            "Look at the brackets in this line and the one above.",
        ),
        ("a:\n\tb: 1\n", "f.yaml:2:1: a tab stands where spaces should. Indent with spaces."),
        (
            "a: b: c\n",
            "f.yaml:1:5: a colon stands where none can be. Put text that holds a colon in quotation "
            "marks, and begin the line under the ones it belongs with.",
        ),
        ("a: @x\n", "f.yaml:1:4: “@” cannot begin a value. Put the value in quotation marks."),
        (
            "a: 1\n}\n",
            "f.yaml:2:1: this line does not line up with the ones above. "
            "Begin it exactly under the lines it belongs with.",
        ),
        (
            "a: \x07\n",
            "f.yaml:1:4: a character that cannot be seen stands here (U+0007). Delete the line and type it again.",
        ),
        (
            "a: x\u202ey\n",
            "f.yaml:1:5: a character that cannot be seen stands here (U+202E). Delete the line and type it again.",
        ),
        (
            'a: "\\0"\n',
            "f.yaml:1:4: a character that cannot be seen is spelt out here (U+0000). Leave it out.",
        ),
        (
            "a: \ud800\n",
            "f.yaml:1:4: a character that cannot be seen stands here (U+D800). Delete the line and type it again.",
        ),
        (b"a: 1\nb: \xff\n", "f.yaml:2:4: the file is not UTF-8 text. Save it as plain text in UTF-8."),
        (
            "a: 1\n".encode("utf-16"),
            "f.yaml:1:1: the file is not UTF-8 text. Save it as plain text in UTF-8.",
        ),
        (
            "a: " + "x" * 1_000_000,
            "f.yaml:1:1: the file has 1000003 bytes; 1000000 is the most that is read. Is this the right file?",
        ),
    ],
)
def test_what_is_refused_is_told_with_its_place(source: str | bytes, expected: str) -> None:
    """Every refusal names file, line and column, what is wrong and what to do."""
    assert message(source) == expected


def test_anchors_and_aliases_are_refused_together() -> None:
    """A file that would unfold into a huge one is refused at its first letters, all of them named."""
    anchor = "names a place. Leave it out, or use quotation marks if you meant an ampersand."
    alias = "refers to another place. Write the value out, or in quotation marks if you meant a star."
    assert message(BOMB).split("\n") == [
        f"f.yaml:1:4: “&a” {anchor}",
        f"f.yaml:2:4: “&b” {anchor}",
        f"f.yaml:2:8: “*a” {alias}",
        f"f.yaml:2:12: “*a” {alias}",
        f"f.yaml:3:5: “*b” {alias}",
        f"f.yaml:3:9: “*b” {alias}",
    ]


def test_fifty_levels_are_read() -> None:
    """The limit refuses nothing that a person writes."""
    assert read_yaml("a: " + "[" * 49 + "x" + "]" * 49, "f.yaml").names == ("a",)


def test_a_byte_order_mark_and_other_line_ends_are_read() -> None:
    """Files saved on any machine read the same, and lines count the same."""
    table = read_yaml("\ufeffa: 1\r\nb: 2\r\n".encode(), "f.yaml")
    assert [(entry.name, str(entry.place)) for entry in table] == [("a", "f.yaml:1:1"), ("b", "f.yaml:2:1")]


def test_a_caller_may_gather_problems() -> None:
    """What leaves the rest readable goes into the list of the caller, who tells all together."""
    problems: list[Problem] = []
    table = read_yaml("a: 1\na: 2\nb: !x 3\n", "f.yaml", FanblockError, problems)
    assert table.names == ("a", "b")
    assert [problem.code for problem in problems] == ["repeated-name", "tag"]


def test_unknown_names_get_the_nearest() -> None:
    """An unknown name is answered with the nearest legal ones."""
    table = read_yaml("wiast: 1\nbust: 2\n", "f.yaml")
    assert [str(problem) for problem in unknown_names(table, ["bust", "waist"], "measures")] == [
        "f.yaml:1:1: measures › “wiast” is not known here. Did you mean “waist”?"
    ]


def test_many_unknown_names_are_counted() -> None:
    """After twenty the rest are one line."""
    table = read_yaml("".join(f"x{number}: 1\n" for number in range(45)), "f.yaml")
    problems = unknown_names(table, ["bust"])
    assert len(problems) == 21
    assert str(problems[-1]) == "f.yaml:21:1: 25 more names are not known here. Is this the right kind of file?"
