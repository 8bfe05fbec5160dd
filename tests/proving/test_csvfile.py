"""Tables of people: what is read from them, and every mistake with the whole of what is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from fanblock.problems import WearerError
from fanblock.proving.csvfile import MOST_ROWS, open_people, read_people

HEAD = "name,bust (cm),waist (cm),bust to waist (cm)\n"
PILOT = {"bust": 1000.0, "waist": 920.0, "bust to waist": 160.0}


@pytest.mark.parametrize(
    ("text", "units"),
    [
        (HEAD + "pilot,100,92,16\n", None),
        ("name,bust,waist,bust to waist\npilot,100,92,16\n", "cm"),
        ("name,bust,waist,bust to waist\n,cm,cm,mm\npilot,100,92,160\n", None),
        ("Name;Bust;WAIST [mm];bust_to_waist_cm\n;cm;;\npilot;100,0;920;16,00\n", None),
        ("name\tbust\twaist\tbust to waist\r\npilot\t1000\t920\t160\r\n", "mm"),
        ("bust to waist,name,waist,bust\n16 cm,pilot,920 mm,39.370078740157 in\n", None),
        ("\n\n" + HEAD + '\n"pilot","100","92","16"\n,,,\n', None),
        (HEAD.replace("name", "\ufeffname") + "pilot,100,92,16\n", "in"),
    ],
)
def test_one_body_written_in_many_ways(text: str, units: str | None) -> None:
    """Separators, quotes, units here or there, blank lines and capitals make no difference."""
    for data in (text, text.encode("utf-8-sig"), text.encode("utf-16")):
        (person,) = read_people(data, "company.csv", units).persons
        assert person.name == "pilot"
        assert person.faults == ()
        assert person.values == pytest.approx(PILOT, abs=0.001)


def test_units_for_talking_back_are_those_asked_for_else_those_written() -> None:
    """Who asks for inches hears inches, even of a table in centimetres."""
    text = HEAD + "pilot,100,92,16\n"
    assert read_people(text, "company.csv").units == "cm"
    assert read_people(text, "company.csv", "in").units == "in"


def test_what_is_no_measure_is_left_out_and_told() -> None:
    """A column nobody knows is no mistake, but it is said, with what is near."""
    text = "name,bust (cm),waist (cm),bust to waist (cm),hips (cm),shoe size\npilot,100,92,16,104,44\n"
    people = read_people(text, "company.csv")
    assert people.left_out == ("“hips (cm)” is no measure. Did you mean “hip”?", "“shoe size” is no measure.")
    assert people.persons[0].values == PILOT
    assert people.measures == ("bust", "waist", "bust to waist")


def test_a_blank_cell_of_a_measure_that_is_not_needed_is_no_mistake() -> None:
    """Not everybody is measured everywhere."""
    first, second = read_people("bust,waist,bust to waist,hip\n100,92,16,104\n90,74,17,\n", "c.csv", "cm").persons
    assert (first.values["hip"], "hip" in second.values) == (1040.0, False)
    assert (second.name, second.faults) == ("row 3", ())


BAD_TABLES = {
    "empty": (b"", "c.csv:1:1: the file is empty. Write one line of names at the top: name,bust (cm),waist (cm),bust to waist (cm)."),
    "only a head": (HEAD, "c.csv:1:1: there is no row of measures. Write a row for each body."),
    "no head": (
        "pilot,100,92,16\n",
        "c.csv:1:1: the first row names none of the needed measures. "
        "Write one line of names at the top: name,bust (cm),waist (cm),bust to waist (cm).\n"
        "c.csv:1:1: there is no row of measures. Write a row for each body.",
    ),
    "a needed column missing": (
        "name,bust (cm),bust to waist (cm)\npilot,100,16\n",
        "c.csv:1:1: there is no column “waist”. All round where the body creases when you bend sideways. Let the tape "
        "settle, breathe out, hold it firm. Take nothing off: the recipe does.",
    ),
    "a column twice": (
        "bust (cm),waist (cm),bust to waist (cm),Bust (in)\n100,92,16,39\n",
        "c.csv:1:4: there are two columns “bust”. Keep one of them.",
    ),
    "not a unit": (
        "bust (cm),waist (ell),bust to waist (cm)\n100,92,16\n",
        "c.csv:1:2: “ell” in the column “waist (ell)” is not a unit. Write in, cm or mm.",
    ),
    "no unit": (
        "bust (cm),waist (cm),bust to waist\n100,92,16\n",
        "c.csv:1:3: nothing says what the bare numbers in the column “bust to waist” mean. Call it “bust to waist "
        "(cm)”, write a row of units under the names, or add --units cm.",
    ),
    "not text": (
        HEAD.encode() + b"p\xeflot,100,92,16\n",
        "c.csv:2:1: the file is not text in UTF-8. Save it from the spreadsheet as “CSV UTF-8”.",
    ),
    "a quotation mark left open": (
        HEAD + 'pilot,100,92,16\n"innkeeper,112,100,15\n',
        "c.csv:3:1: a quotation mark is opened in this row and not closed rightly. "
        "Put a whole cell in quotation marks, or none of it.",
    ),
    "too many rows": (
        HEAD + "x,100,92,16\n" * (MOST_ROWS + 1),
        f"c.csv:{MOST_ROWS + 2}:1: there are 20001 rows; 20000 are the most that are tried at once. Try a part of them.",
    ),
    "too large": (HEAD + "x" * 5_000_001, "c.csv:1:1: the file is larger than 5 MB. Try a part of it."),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD_TABLES)
def test_what_is_wrong_with_a_table_is_told_whole(name: str) -> None:
    """The table as a whole is refused with place and remedy."""
    text, says = BAD_TABLES[name]
    with pytest.raises(WearerError) as caught:
        read_people(text, "c.csv")
    assert str(caught.value) == says


BAD_ROWS = {
    "pilot,100,,16": ["c.csv:2:3: waist › the cell is blank. Measure it."],
    "pilot,100": [
        "c.csv:2:3: waist › the cell is blank. Measure it.",
        "c.csv:2:4: bust to waist › the cell is blank. Measure it.",
    ],
    "pilot,a lot,92,16": [
        "c.csv:2:2: bust › “a lot” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in."
    ],
    "pilot,-100,92,16": ["c.csv:2:2: bust › “-100” is not more than nothing. Write the length."],
    "pilot,100,92 ell,16": ["c.csv:2:3: waist › “ell” is not a unit of length. Use mm, cm or in."],
    'pilot,"100,5",92,16': ["c.csv:2:2: bust › “100,5” has a comma. Write a point: 100.5."],
    "pilot,100,92,16,5": ["c.csv:2:1: the row has 5 cells, the first row 4. Is there a comma inside a cell?"],
    "pilot,50,92,16": [
        "c.csv:2:2: bust › 50 cm is too small for bust (between 58.0 cm and 190.0 cm). "
        "Is it half the girth (the whole is then 100.0 cm), or 50 in?"
    ],
    "pilot,100,160,16": [
        "c.csv:2:3: waist › waist 160.0 cm is 1.60 of bust 100.0 cm. Is the bust half the girth, or were the two swapped?"
    ],
    "pilot,1e999,92,16": [
        "c.csv:2:2: bust › “1e999” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in."
    ],
}


@pytest.mark.parametrize("row", BAD_ROWS)
def test_what_is_wrong_with_a_row_stays_with_the_row(row: str) -> None:
    """The bad row says what is wrong with it; the next is read as if nothing had been."""
    bad, good = read_people(f"{HEAD}{row}\ninnkeeper,112,100,15\n", "c.csv").persons
    assert [str(fault) for fault in bad.faults] == BAD_ROWS[row]
    assert (good.name, good.faults, good.row) == ("innkeeper", (), 3)


def test_over_stays_nothing_is_raised() -> None:
    """Stays hold the bust already: a raised length beside them is a slip."""
    text = "bust,waist,bust to waist,raised\n100,92,16,18\n"
    (person,) = read_people(text, "c.csv", "cm", "stays").persons
    assert [str(fault) for fault in person.faults] == [
        "c.csv:2:4: raised › over stays the bust is already raised. Leave the cell blank."
    ]


def test_a_name_is_one_short_line() -> None:
    """Line breaks, bells and great length do not get into pictures and tables."""
    (person,) = read_people(HEAD + '"pi\nlot\x07' + "x" * 99 + '",100,92,16\n', "c.csv").persons
    assert person.name.startswith("pi lot x")
    assert len(person.name) <= 60


def test_a_file_that_is_not_there_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As is a folder in its place."""
    monkeypatch.chdir(tmp_path)
    Path("folder.csv").mkdir()
    for name, says in (
        ("none.csv", "people › there is no file “none.csv”. Look at its name and folder."),
        ("folder.csv", "people › the people in “folder.csv” cannot be read (is a directory). Name a CSV file."),
    ):
        with pytest.raises(WearerError) as caught:
            open_people(name)
        assert str(caught.value) == says
