"""Reading a wearer file to a :class:`~fanblock.wearer.model.Wearer`, or to every problem at once."""

from __future__ import annotations

import datetime
import re

from fanblock.problems import Place, Problem, WearerError, nearest
from fanblock.units import UNITS, Typed, shown, typed_length
from fanblock.wearer.figure import read_figure
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import MEASURES, NEEDED
from fanblock.wearer.model import MAY_DIFFER_MM, OVERS, SHIFT, Measures, Wearer
from fanblock.wearer.plausible import doubts
from fanblock.wearer.sided import read_allowed, read_sides, whole_of
from fanblock.yamlfile import Entry, Listing, Node, Table, Text, kind, read_yaml, unknown_names

FORMAT = 1
"""The format of wearer files that is read and written."""

LONGEST_NAME = 60
_TOP = ("wearer", "name", "taken", "units", "halves may differ", "measures", "sets", "figure", "notes")
_SET = ("taken", "units", "measures")
_TAKEN = "Write it as taken: {on: 2026-04-12, over: shift}."


def read_wearer(text: str | bytes, file: str) -> Wearer:
    """Return the wearer that a file holds.

    ``text`` is the file's text or its bytes, ``file`` its name for messages. Raises WearerError with every
    problem of the file, each with its place. A format number that is not ours is told alone, since nothing
    else is sure then.
    """
    problems: list[Problem] = []
    top = read_yaml(text, file, WearerError, problems)
    _check_format(top)
    return _Reading(problems).wearer(top)


def _check_format(top: Table) -> None:
    entry = top.entry("wearer")
    if entry is None:
        if other := top.entry("recipe"):
            says = "this file is a recipe, not a wearer."
            raise WearerError([Problem("wearer-format", "recipe", says, "Give a wearer's file here.", other.place)])
        says = "the file does not say that it is a wearer."
        raise WearerError([Problem("wearer-format", "", says, f"Begin it with wearer: {FORMAT}.", top.place)])
    number = entry.value.whole_number if isinstance(entry.value, Text) else None
    if number == FORMAT:
        return
    if number is None:
        says = f"the format number is {_words(entry.value)}."
        remedy = f"Write wearer: {FORMAT}; the name of the person goes into name."
    elif number > FORMAT:
        says = f"the file is written in format {number}; this fanblock reads format {FORMAT}."
        remedy = "Upgrade fanblock, or ask whoever wrote the file for an older one."
    else:
        says = f"the file is written in format {number}, which is no longer read."
        remedy = f"Upgrade the file: write wearer: {FORMAT} and look through the names in it."
    raise WearerError([Problem("wearer-format", "wearer", says, remedy, entry.value.place)])


def _words(node: Node) -> str:
    return shown(node.text) if isinstance(node, Text) and not node.blank else kind(node)


class _Reading:
    """Gathers what is wrong while the parts of one file are read."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        self.first_unit = ""

    def wrong(self, where: str, what: str, remedy: str, place: Place) -> None:
        self.problems.append(Problem("wearer", where, what, remedy, place))

    def wearer(self, top: Table) -> Wearer:
        """Return the wearer, or raise WearerError with everything gathered."""
        self.problems.extend(unknown_names(top, _TOP, "", "wearer-unknown"))
        name = self.name(top)
        units = self.units(top.entry("units"), "units")
        sets = self.sets(top, units)
        allowed = self.allowed(top, units)
        figure = top.get("figure")
        tilts = read_figure(figure, units, self.problems) if figure is not None else ()
        notes = self.notes(top.get("notes"))
        if self.problems:
            raise WearerError(self.problems)
        ordered = tuple(sorted(sets, key=lambda measures: OVERS.index(measures.over)))
        return Wearer(name, ordered, tilts, notes, units or self.first_unit or "cm", allowed)

    def name(self, top: Table) -> str:
        node = top.get("name")
        if node is None or (isinstance(node, Text) and node.text.strip() == ""):
            place = top.place if node is None else node.place
            self.wrong("name", "the wearer has no name.", "Write name: and what stands on the pattern pieces.", place)
            return ""
        if not isinstance(node, Text):
            self.wrong("name", f"this is {kind(node)}, not a name.", "Write one line of text.", node.place)
            return ""
        name = node.text.strip()
        if len(name) > LONGEST_NAME or len(name.splitlines()) > 1:
            says = f"{shown(name)} is too long to stand on a pattern piece."
            self.wrong("name", says, f"Write one line of at most {LONGEST_NAME} characters.", node.place)
        return name

    def units(self, entry: Entry | None, where: str) -> str | None:
        if entry is None or (isinstance(entry.value, Text) and entry.value.blank):
            return None
        word = entry.value.text.strip() if isinstance(entry.value, Text) else None
        if word in UNITS:
            return word
        self.wrong(where, f"{_words(entry.value)} is not a unit.", "Write in, cm or mm.", entry.value.place)
        return "cm"

    def allowed(self, top: Table, units: str | None) -> float:
        """Return how much left and right may differ, in mm."""
        node = top.get("halves may differ")
        if node is None or (isinstance(node, Text) and node.blank):
            return MAY_DIFFER_MM
        found = read_allowed(node, lambda one, where: self.length(one, where, units, least=0), self.wrong)
        return MAY_DIFFER_MM if found is None else found

    def sets(self, top: Table, units: str | None) -> list[Measures]:
        sets = top.entry("sets")
        if sets is None:
            return self.numbered([(top, "")], units)
        for entry in top:
            if entry.name in ("taken", "measures"):
                says = "this stands beside sets."
                self.wrong(
                    entry.name,
                    says,
                    "Put it into an item of sets: with its own taken and measures.",
                    entry.place,
                )
        if not isinstance(sets.value, Listing) or not len(sets.value):
            says = f"this is {'empty' if isinstance(sets.value, Listing) else kind(sets.value)}."
            self.wrong("sets", says, "Write a list; each item has taken and measures.", sets.value.place)
            return []
        tables = []
        for number, item in enumerate(sets.value, start=1):
            where = f"sets › {number}"
            if isinstance(item, Table):
                self.problems.extend(unknown_names(item, _SET, where, "wearer-unknown"))
                tables.append((item, f"{where} › "))
            else:
                self.wrong(where, f"this is {kind(item)}.", "Write taken and measures here.", item.place)
        return self.numbered(tables, units)

    def numbered(self, tables: list[tuple[Table, str]], units: str | None) -> list[Measures]:
        """Return the sets in ``tables``; each comes with the trail that leads to it."""
        sets: dict[str, Measures] = {}
        for table, trail in tables:
            own_units = self.units(table.entry("units"), f"{trail}units") if trail else None
            taken_on, over = self.taken(table.get("taken"), f"{trail}taken")
            values, sides = self.values(table, trail, own_units or units, over)
            if over in sets:
                says = f"there is already a set over {over}."
                self.wrong(
                    f"{trail}taken",
                    says,
                    "Keep the later one, or change what it was taken over.",
                    table.place,
                )
            sets[over] = Measures(over, taken_on, Fixed(values), Fixed(sides))
        return list(sets.values())

    def taken(self, node: Node | None, where: str) -> tuple[str, str]:
        """Return the date and the layer; without words, no date and the shift."""
        if node is None or (isinstance(node, Text) and node.blank):
            return "", SHIFT
        if not isinstance(node, Table):
            self.wrong(where, f"this is {kind(node)}.", _TAKEN, node.place)
            return "", SHIFT
        self.problems.extend(unknown_names(node, ("on", "over"), where, "wearer-unknown"))
        return self.date(node.get("on"), f"{where} › on"), self.over(node.get("over"), f"{where} › over")

    def date(self, node: Node | None, where: str) -> str:
        if node is None or (isinstance(node, Text) and node.blank):
            return ""
        text = node.text.strip() if isinstance(node, Text) else ""
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            remedy = "Write year, month and day, such as 2026-04-12."
            self.wrong(where, f"{_words(node)} is not a date.", remedy, node.place)
            return ""
        try:
            datetime.date.fromisoformat(text)
        except ValueError:
            self.wrong(where, f"{shown(text)} is no day of the calendar.", "Look at month and day.", node.place)
        return text

    def over(self, node: Node | None, where: str) -> str:
        if node is None or (isinstance(node, Text) and node.blank):
            return SHIFT
        text = node.text.strip() if isinstance(node, Text) else ""
        if text not in OVERS:
            remedy = nearest(text, OVERS) if text else "Write shift or stays."
            self.wrong(where, f"{_words(node)} is not what measures are taken over.", remedy, node.place)
            return SHIFT
        return text

    def values(
        self, table: Table, trail: str, units: str | None, over: str
    ) -> tuple[dict[str, float], dict[str, tuple[float, float]]]:
        """Return the measures of one set in mm, after looking whether they can be believed, and those that are uneven."""
        where = f"{trail}measures"
        node = table.get("measures")
        if not isinstance(node, Table):
            says = "there are no measures." if node is None or kind(node) == "blank" else f"this is {kind(node)}."
            remedy = f"Write at least {', '.join(NEEDED)}, each with its length, indented under measures:."
            self.wrong(where, says, remedy, table.place if node is None else node.place)
            return {}, {}
        self.problems.extend(unknown_names(node, MEASURES, where, "measure-unknown"))
        typed: dict[str, Typed] = {}
        sides: dict[str, tuple[float, float]] = {}
        for entry in node:
            inside = f"{where} › {entry.name}"
            if entry.name in MEASURES and isinstance(entry.value, Table):
                if pair := self.sides(entry, inside, units):
                    typed[entry.name] = whole_of(entry.name, *pair)
                    sides |= {entry.name: (pair[0].mm, pair[1].mm)} if pair[0].mm != pair[1].mm else {}
            elif entry.name in MEASURES and (length := self.measure(entry, inside, units)):
                typed[entry.name] = length
        for name in NEEDED:
            if name not in node.names:
                self.wrong(where, f"{name} is missing.", MEASURES[name].how, node.place)
        self._believe(node, where, typed, units, over)
        return {name: length.mm for name, length in typed.items()}, sides

    def sides(self, entry: Entry, where: str, units: str | None) -> tuple[Typed, Typed] | None:
        """Return left and right of a measure written apart."""

        def length_of(node: Node, inside: str) -> Typed | None:
            return self.length(node, inside, units)

        return read_sides(entry, where, length_of, units or self.first_unit or "cm", self.wrong)

    def measure(self, entry: Entry, where: str, units: str | None) -> Typed | None:
        node = entry.value
        if isinstance(node, Text) and (node.blank or not node.text.strip()):
            end = "" if MEASURES[entry.name].needed else " Or take the line out."
            self.wrong(where, "this is still blank.", MEASURES[entry.name].how + end, entry.place)
            return None
        return self.length(node, where, units)

    def length(self, node: Node, where: str, units: str | None, least: int = 1) -> Typed | None:
        """Return one length; it must be more than nothing, or with ``least`` 0 no less than nothing."""
        if not isinstance(node, Text):
            self.wrong(where, f"this is {kind(node)}, not a length.", "Write a length, such as 91 cm.", node.place)
            return None
        try:
            length = typed_length(node.text, units)
        except ValueError as error:
            self.wrong(where, str(error), "", node.place)
            return None
        if length.number < 0 or (least and not length.number):
            self.wrong(where, f"{shown(node.text)} is not more than nothing.", "Write the length.", node.place)
            return None
        self.first_unit = self.first_unit or length.unit
        return length

    def _believe(self, node: Table, where: str, typed: dict[str, Typed], units: str | None, over: str) -> None:
        places = {entry.name: entry.value.place for entry in node}
        values = {name: length.mm for name, length in typed.items()}
        for doubt in doubts(values, units or self.first_unit or "cm", typed):
            if doubt.refuses:
                trail = f"{where} › {doubt.measure}"
                self.problems.append(Problem("measure", trail, doubt.what, doubt.remedy, places[doubt.measure]))
        if over != SHIFT and "raised" in values:
            says = f"over {over} the bust is already raised."
            remedy = "Write this length as bust to waist, and leave raised to the set over the shift."
            self.problems.append(Problem("measure", f"{where} › raised", says, remedy, places["raised"]))

    def notes(self, node: Node | None) -> tuple[str, ...]:
        if node is None or (isinstance(node, Text) and not node.text.strip()):
            return ()
        if isinstance(node, Text):
            return (node.text.strip(),)
        if isinstance(node, Table):
            self.wrong("notes", f"this is {kind(node)}.", "Write a text in quotation marks, or a list.", node.place)
            return ()
        texts = []
        for number, item in enumerate(node, start=1):
            if isinstance(item, Text):
                texts.append(item.text.strip())
            else:
                remedy = "Put a note that holds a colon in quotation marks."
                self.wrong(f"notes › {number}", f"this is {kind(item)}, not a text.", remedy, item.place)
        return tuple(text for text in texts if text)
