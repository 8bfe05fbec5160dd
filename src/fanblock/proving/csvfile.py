"""Reading people from a table of comma-separated values: a row for each body, a column for each measure.

What is wrong with the table as a whole is raised. What is wrong with one row stays with that row, and the
others go on.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from fanblock.problems import Place, Problem, WearerError, nearest
from fanblock.proving.people import UNREADABLE, People, Person
from fanblock.units import UNITS, Typed, shown, typed_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import MEASURES, NEEDED
from fanblock.wearer.model import SHIFT
from fanblock.wearer.plausible import doubts

LARGEST_BYTES = 5_000_000
MOST_ROWS = 20_000
LONGEST_NAME = 60

_SEPARATORS = (",", ";", "\t")
_SUFFIX = re.compile(
    r"(?P<name>.*?)[\s_]*[(\[]\s*(?P<unit>[^)\]]*?)\s*[)\]]|(?P<bare>.+?)[\s_]+(?P<end>mm|cm|in|inch|inches)"
)
_SPELLED = {"inch": "in", "inches": "in", '"': "in"}
_HIDDEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]+")
_HEAD = "Write one line of names at the top: name,bust (cm),waist (cm),bust to waist (cm)."


def open_people(path: str, units: str | None = None, over: str = SHIFT) -> People:
    """Return the people in the file at ``path``; see :func:`read_people`. WearerError when it cannot be read."""
    try:
        with Path(path).open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, FileNotFoundError | NotADirectoryError):
            raise _table(
                "people-missing", f"there is no file {shown(path)}.", "Look at its name and folder."
            ) from error
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        what = f"the people in {shown(path)} cannot be read ({reason.lower()})."
        raise _table("people-unreadable", what, "Name a CSV file.") from error
    return read_people(data, path, units, over)


def read_people(text: str | bytes, file: str, units: str | None = None, over: str = SHIFT) -> People:
    """Return the people in a table.

    Its first row names the columns: measures as in a wearer's file, and perhaps ``name``. What a bare number
    means is said in a column's name (``bust (cm)``), in a second row of units, or by ``units``, in this order.
    Commas, semicolons or tabs stand between the cells; only with the latter two may a number have a decimal
    comma. Raises WearerError with every problem of the table as a whole.
    """
    cells, separator = _cells(text, file)
    head_line, head = cells[0]
    columns, left_out, problems = _columns(head, file, head_line)
    rows = cells[1:]
    if rows and (own := _unit_row(rows[0][1], columns)) is not None:
        columns = [_with_unit(column, own[column.index]) for column in columns]
        rows = rows[1:]
    columns = [_with_unit(column, units or "") for column in columns]
    if not rows:
        problems.append(
            _problem("people-none", "there is no row of measures.", "Write a row for each body.", file, head_line)
        )
    if len(rows) > MOST_ROWS:
        what = f"there are {len(rows)} rows; {MOST_ROWS} are the most that are tried at once."
        problems.append(_problem("people-many", what, "Try a part of them.", file, rows[MOST_ROWS][0]))
    problems += _without_unit(columns, rows, file, head_line)
    if problems:
        raise WearerError(problems)
    talk = units or next((column.unit for column in columns if column.unit in UNITS), "cm")
    reading = _Rows(file, columns, len(head), separator != ",", over, talk)
    return People(file, tuple(reading.person(line, row) for line, row in rows), talk, left_out)


@dataclass(frozen=True, slots=True)
class _Column:
    index: int
    measure: str  # empty for the name
    unit: str


def _problem(code: str, what: str, remedy: str, file: str, line: int, column: int = 1) -> Problem:
    return Problem(code, "", what, remedy, Place(file, line, column))


def _table(code: str, what: str, remedy: str) -> WearerError:
    return WearerError([Problem(code, "people", what, remedy)])


def _cells(text: str | bytes, file: str) -> tuple[list[tuple[int, list[str]]], str]:
    """Return every row that is not blank, with its line, and what separates its cells."""
    if len(text) > LARGEST_BYTES:
        what = f"the file is larger than {LARGEST_BYTES // 1_000_000} MB."
        raise WearerError([_problem("people-large", what, "Try a part of it.", file, 1)])
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-16" if text[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
        except UnicodeDecodeError as error:
            line = error.object[: error.start].count(b"\n") + 1
            what, remedy = "the file is not text in UTF-8.", "Save it from the spreadsheet as “CSV UTF-8”."
            raise WearerError([_problem("people-encoding", what, remedy, file, line)]) from error
    text = text.removeprefix("\ufeff")
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(_SEPARATORS, key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[tuple[int, list[str]]] = []
    begun = 1
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                rows.append((begun, [cell.strip() for cell in row]))
            begun = reader.line_num + 1
    except csv.Error as error:
        what = "a quotation mark is opened in this row and not closed rightly."
        remedy = "Put a whole cell in quotation marks, or none of it."
        raise WearerError([_problem("people-quotes", what, remedy, file, begun)]) from error
    if not rows:
        raise WearerError([_problem("people-empty", "the file is empty.", _HEAD, file, 1)])
    return rows, separator


def _columns(head: Sequence[str], file: str, line: int) -> tuple[list[_Column], tuple[str, ...], list[Problem]]:
    columns: list[_Column] = []
    left_out: list[str] = []
    problems: list[Problem] = []
    for index, cell in enumerate(head):
        name, unit = _named(cell)
        if not name and not unit:
            continue
        if name != "name" and name not in MEASURES:
            remedy = nearest(name, (*MEASURES, "name"))
            left_out.append(f"{shown(cell)} is no measure. {remedy if remedy.startswith('Did') else ''}".rstrip())
            continue
        measure = "" if name == "name" else name
        if any(column.measure == measure for column in columns):
            what = f"there are two columns {shown(name)}."
            problems.append(_problem("people-twice", what, "Keep one of them.", file, line, index + 1))
            continue
        if unit and unit not in UNITS:
            what = f"{shown(unit)} in the column {shown(cell)} is not a unit."
            problems.append(_problem("people-unit", what, "Write in, cm or mm.", file, line, index + 1))
        columns.append(_Column(index, measure, unit))
    there = {column.measure for column in columns}
    if not there & set(NEEDED):
        problems.append(_problem("people-head", "the first row names none of the needed measures.", _HEAD, file, line))
    else:
        for name in NEEDED:
            if name not in there:
                what = f"there is no column {shown(name)}."
                problems.append(_problem("people-column", what, MEASURES[name].how, file, line))
    return columns, tuple(left_out), problems


def _named(cell: str) -> tuple[str, str]:
    """Return a column's name in plain letters, and its unit if it says one."""
    text = " ".join(cell.replace("_", " ").casefold().split())
    found = _SUFFIX.fullmatch(text)
    if found is None:
        return text, ""
    name, unit = (found["bare"], found["end"]) if found["name"] is None else (found["name"].strip(), found["unit"])
    return name, _SPELLED.get(unit, unit)


def _unit_row(row: Sequence[str], columns: Sequence[_Column]) -> dict[int, str] | None:
    """Return the unit of each column when this row holds units and nothing else; None when it does not."""
    units = {
        column.index: _SPELLED.get(row[column.index].casefold(), row[column.index].casefold())
        for column in columns
        if column.measure and column.index < len(row) and row[column.index]
    }
    if not units or any(unit not in UNITS for unit in units.values()):
        return None
    return {column.index: units.get(column.index, "") for column in columns}


def _with_unit(column: _Column, unit: str) -> _Column:
    return column if column.unit or not column.measure else _Column(column.index, column.measure, unit)


def _without_unit(
    columns: Sequence[_Column], rows: Sequence[tuple[int, Sequence[str]]], file: str, line: int
) -> Iterator[Problem]:
    """Tell of columns with bare numbers whose unit nobody said."""
    for column in columns:
        if not column.measure or column.unit:
            continue
        cells = (row[column.index] for _, row in rows if column.index < len(row))
        if any(cell and cell[-1].isdigit() for cell in cells):
            what = f"nothing says what the bare numbers in the column {shown(column.measure)} mean."
            remedy = f"Call it “{column.measure} (cm)”, write a row of units under the names, or add --units cm."
            yield _problem("people-unit", what, remedy, file, line, column.index + 1)


@dataclass(frozen=True, slots=True)
class _Rows:
    """Reads one row after another of the same table."""

    file: str
    columns: Sequence[_Column]
    width: int
    decimal_commas: bool
    over: str
    units: str

    def person(self, line: int, row: Sequence[str]) -> Person:
        """Return the person in a row; what is wrong with it is told in its faults."""
        faults: list[Problem] = []
        typed: dict[str, Typed] = {}
        name = ""
        if any(row[self.width :]):
            what = f"the row has {len(row)} cells, the first row {self.width}."
            faults.append(_problem(UNREADABLE, what, "Is there a comma inside a cell?", self.file, line))
        for column in self.columns:
            cell = row[column.index] if column.index < len(row) else ""
            if not column.measure:
                name = _HIDDEN.sub(" ", cell)[:LONGEST_NAME].strip()
            elif cell:
                try:
                    typed[column.measure] = self.length(cell, column.unit)
                except ValueError as error:
                    faults.append(self.wrong(column.measure, str(error), "", line, column.index))
            elif column.measure in NEEDED:
                faults.append(self.wrong(column.measure, "the cell is blank.", "Measure it.", line, column.index))
        values = {measure: length.mm for measure, length in typed.items()}
        faults += self.doubted(values, typed, line)
        return Person(line, name or f"row {line}", Fixed(values), tuple(faults))

    def length(self, cell: str, unit: str) -> Typed:
        if self.decimal_commas and re.fullmatch(r"\d+,\d+\D*", cell):
            cell = cell.replace(",", ".", 1)
        length = typed_length(cell, unit or None)
        if length.number <= 0:
            raise ValueError(f"{shown(cell)} is not more than nothing. Write the length.")
        return length

    def doubted(self, values: dict[str, float], typed: dict[str, Typed], line: int) -> Iterator[Problem]:
        places = {column.measure: column.index for column in self.columns}
        for doubt in doubts(values, self.units, typed):
            if doubt.refuses:
                yield self.wrong(doubt.measure, doubt.what, doubt.remedy, line, places[doubt.measure])
        if self.over != SHIFT and "raised" in values:
            what = f"over {self.over} the bust is already raised."
            yield self.wrong("raised", what, "Leave the cell blank.", line, places["raised"])

    def wrong(self, measure: str, what: str, remedy: str, line: int, index: int) -> Problem:
        return Problem(UNREADABLE, measure, what, remedy, Place(self.file, line, index + 1))
