"""A recipe based on another, and what comes of the two: one table, as if it had been written in one file.

``based on`` names a shipped recipe, or a file in the folder of the recipe or below it. Of what the base says,

* ``dials`` are changed entry by entry (``point: {default: 30 mm}`` keeps the point's limits), new ones are added, and
  ``back close: drop`` takes one out;
* the steps are changed by the orders under ``changes``;
* ``sources`` are added to: what the numbers of the base rest on, they still rest on;
* everything else that is given stands in the place of the base's: ``block``, ``makes``, ``period``, ``about``, ``needs``,
  ``watch``.

``name`` must be given, for two garments of one name would be mixed up. Values keep the places where they stand, so that
what is wrong with them is told there. A base may be based on another in its turn, at most :data:`DEEPEST` in a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import PurePath
from types import MappingProxyType

from fanblock.problems import Place, Problem, RecipeError, nearest
from fanblock.recipe.bases import Base, Bases, Drawings
from fanblock.recipe.changes import Rewritten, changed, merged
from fanblock.recipe.findings import Findings
from fanblock.recipe.notes import line_of
from fanblock.recipe.phrase import UnreadableError, Vocabulary
from fanblock.units import shown
from fanblock.yamlfile import Entry, Listing, Node, Table, Text, kind

DEEPEST = 5
"""Most recipes that may stand under one another."""

BASED_ON, CHANGES, DROP = "based on", "changes", "drop"


@dataclass(frozen=True, slots=True)
class Whole:
    """A recipe's table with all that it is based on put into it.

    ``based_on`` names the recipes under it, the nearest first; ``rewritten`` are the steps and dials it changed, which
    must come out different. ``drawings`` finds, for every file that went into it, the drawings named there.
    """

    table: Table
    based_on: tuple[str, ...] = ()
    rewritten: tuple[Rewritten, ...] = ()
    drawings: Mapping[str, Drawings] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class Row:
    """The recipes that led to a base, each standing on the one behind it: their keys and their names in messages."""

    keys: tuple[str, ...]
    files: tuple[str, ...]


ReadBase = Callable[[Base, Row], Whole]
"""Returns a base's own whole table, found sound; raises RecipeError with what is wrong in it."""


def whole(table: Table, row: Row, bases: Bases, read_base: ReadBase) -> Whole:
    """Return a recipe's table, or what it and its base make together.

    Raises RecipeError when the base cannot be read, or a change cannot be followed.
    """
    named = table.entry(BASED_ON)
    if named is None:
        return Whole(table)
    findings = Findings(Vocabulary())
    base = _base(named.value, row, bases)
    under = read_base(base, Row((*row.keys, base.key), (*row.files, base.file)))
    made = _made(table, under.table, base, findings)
    if findings.problems:
        raise RecipeError(findings.problems)
    said = named.value.text.strip() if isinstance(named.value, Text) else ""
    return Whole(made.table, (said, *under.based_on), made.rewritten, under.drawings)


def check_alone(table: Table, findings: Findings) -> None:
    """Note changes in a recipe that is based on nothing."""
    lone = table.entry(CHANGES)
    if lone is not None:
        what = "this recipe is not based on another, so there is nothing to change."
        findings.wrong("changes-alone", CHANGES, what, "Add `based on: …` and the other recipe's name.", lone.place)


def hinted(problem: Problem, file: str) -> Problem:
    """Return a problem met in ``file``; where it stands in another file, that of a base, with how to mend it from here.

    The base was sound by itself, so it is what ``file`` changes that has made the problem; a drawing has only itself.
    """
    place = problem.place
    if place is None or place.file == file or problem.code.startswith("drawing"):
        return problem
    name = problem.where.removeprefix("dials › ")
    mend = f"or write `{name}: {DROP}` under `dials`" if problem.code == "unused-dial" else f"under `{CHANGES}`"
    remedy = f"{problem.remedy} {_called(file)} is based on this and changes it: put it right there, {mend}."
    return Problem(problem.code, problem.where, problem.what, remedy.strip(), place)


def _called(file: str) -> str:
    """Return a file's name without its folder, as a message shows it."""
    return shown(PurePath(file).name)


def _base(node: Node, row: Row, bases: Bases) -> Base:
    name = node.text.strip() if isinstance(node, Text) and not node.blank else ""
    if not name:
        got = "nothing" if isinstance(node, Text) else kind(node)
        what = f"got {got}, needs the name of a shipped recipe or of a file beside this one."
        raise _refused("wrong-value", what, "", node.place)
    try:
        base = bases(name)
    except UnreadableError as error:
        raise _refused("no-recipe", error.what, error.remedy, node.place) from None
    if base.key in row.keys:
        files = [*row.files[row.keys.index(base.key) :], base.file]
        what = f"{', which is based on '.join(_called(file) for file in files)}: that has no end."
        raise _refused("based-on-loop", what, f"Take `{BASED_ON}` out of one of them.", node.place)
    if len(row.keys) > DEEPEST:
        what = f"{DEEPEST} recipes already stand on one another, and this would be one more."
        raise _refused("based-on-deep", what, "Base it on one of the recipes further down.", node.place)
    return base


def _refused(code: str, what: str, remedy: str, place: Place) -> RecipeError:
    return RecipeError([Problem(code, BASED_ON, what, remedy, place)])


def _made(table: Table, base: Table, from_: Base, findings: Findings) -> Whole:
    """Return the base's table with what the recipe says put into it."""
    own = tuple(entry for entry in table if entry.name not in (BASED_ON, CHANGES))
    steps, own_dials, changes = table.entry("steps"), table.entry("dials"), table.get(CHANGES)
    if steps is not None:
        what = f"the steps are those of {_called(from_.file)}, on which this recipe is based."
        findings.wrong("steps-twice", "steps", what, f"Say what differs under `{CHANGES}`.", steps.place)
    if changes is None and own_dials is None and steps is None and table.entry("block") is None:
        what = f"only words differ from {_called(from_.file)}: none of `{CHANGES}`, `dials` and `block` stands here."
        findings.wrong("nothing-changed", BASED_ON, what, "Say what differs.", table.place)
    _check_units(table, base, from_, findings)
    entries: list[Entry] = []
    rewritten: tuple[Rewritten, ...] = ()
    for entry in own:
        if entry.name == "dials" and not isinstance(entry.value, Table):
            got = "nothing" if isinstance(entry.value, Text) and entry.value.blank else kind(entry.value)
            what = f"got {got}, needs dials with what is new of them, such as `{{gap: {{default: 30 mm}}}}`."
            findings.wrong("wrong-value", "dials", what, "", entry.value.place)
            continue
        if entry.name == "dials" and isinstance(entry.value, Table):
            dials, rewritten = _dials(entry.value, base.get("dials"), from_, findings)
            entry = Entry("dials", dials, entry.place)
        elif entry.name == "sources" and isinstance(entry.value, Listing):
            entry = Entry("sources", _added(entry.value, base.get("sources"), from_, findings), entry.place)
        entries.append(entry)
    old = base.get("steps")
    if changes is not None and isinstance(old, Listing):
        done = changed(old.items, changes, findings)
        rewritten += done.rewritten
        entries.append(Entry("steps", Listing(done.steps, changes.place), changes.place))
    kept = Table(tuple(entry for entry in base if entry.name != "name"), table.place)
    return Whole(merged(kept, tuple(entries)), (), rewritten)


def _check_units(table: Table, base: Table, from_: Base, findings: Findings) -> None:
    ours, theirs = table.get("units"), base.get("units")
    if isinstance(ours, Text) and isinstance(theirs, Text) and ours.text != theirs.text:
        what = (
            f"bare numbers of {_called(from_.file)} are in {theirs.text}, so they cannot be in {shown(ours.text)} here."
        )
        findings.wrong("units-differ", "units", what, "Take `units` out, and write units behind numbers.", ours.place)


def _dials(given: Table, base: Node | None, from_: Base, findings: Findings) -> tuple[Table, tuple[Rewritten, ...]]:
    """Return the base's dials with those of the recipe put into them, and what that should have changed."""
    theirs = base if isinstance(base, Table) else Table((), given.place)
    put: list[Entry] = []
    dropped: set[str] = set()
    rewritten: list[Rewritten] = []
    for dial in given:
        old, where = theirs.get(dial.name), f"dials › {dial.name}"
        if isinstance(dial.value, Text) and dial.value.text == DROP:
            if old is None:
                what = f"{_called(from_.file)} has no dial {shown(dial.name)} to drop."
                findings.wrong("unknown-dial", where, what, nearest(dial.name, theirs.names), dial.place)
            dropped.add(dial.name)
        elif isinstance(dial.value, Table) and isinstance(old, Table):
            rewritten += [
                Rewritten(f"{where} › {one.name}", one.place, old, merged(old, (one,)), is_dial=True)
                for one in dial.value
            ]
            put.append(Entry(dial.name, merged(old, dial.value.entries), dial.place))
        else:
            put.append(dial)
    kept = Table(tuple(one for one in theirs if one.name not in dropped), theirs.place)
    return merged(kept, tuple(put)), tuple(rewritten)


def _added(given: Listing, base: Node | None, from_: Base, findings: Findings) -> Listing:
    """Return the sources of the base and of the recipe together; one that stands in both is noted."""
    theirs = base.items if isinstance(base, Listing) else ()
    lines = {line for node in theirs if (line := line_of(node))}
    for number, node in enumerate(given, start=1):
        if line_of(node) in lines:
            what = f"stands in {_called(from_.file)} already, whose sources are kept."
            findings.wrong("source-twice", f"sources › item {number}", what, "Take it out.", node.place)
    return Listing((*theirs, *given.items), given.place)
