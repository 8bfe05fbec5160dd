"""The list of steps of a recipe file: each one named, its options decoded, its own rules asked."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass, fields

from fanblock.problems import Place, nearest
from fanblock.recipe.decode import decode_fields, key_of, place_of
from fanblock.recipe.findings import FAULT, Findings, Sighting
from fanblock.recipe.model import Step
from fanblock.steps.table import StepKind
from fanblock.units import shown
from fanblock.yamlfile import Listing, Node, Table, Text, kind

_MOST_STEPS = 200
_MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class ReadStep:
    """A step as it was met: its kind, its options (None where they could not be read) and its places."""

    kind: StepKind
    options: object | None
    number: int
    place: Place
    table: Table
    sightings: tuple[Sighting, ...]

    @property
    def where(self) -> str:
        """The trail to this step."""
        return trail(self.number, self.kind.name)

    def place_of(self, key: str) -> Place:
        """Return where the value of one of this step's keys stands, or the step itself."""
        return place_of(self.table, key, self.place)

    def place_of_name(self, key: str, name: str) -> Place:
        """Return where a name stands under one of this step's keys, or the place of the key's value."""
        node = self.table.get(key)
        if isinstance(node, Listing):
            items = (item for item in node if isinstance(item, Text) and item.text == name)
            return next((item.place for item in items), node.place)
        entry = node.entry(name) if isinstance(node, Table) else self.table.entry(name)
        return self.place_of(key) if entry is None else entry.place

    def step(self) -> Step:
        """Return the step; only for one whose options were read."""
        return Step(self.kind.name, self.options, self.place, self.number)


def trail(number: int, name: str) -> str:
    """Return how a step is named in messages.

    >>> trail(3, "seam")
    'step 3 (seam)'
    """
    return f"step {number} ({name})"


def seam_names(node: Node | None, step: str = "seam") -> tuple[str, ...]:
    """Return the names of all seams a list of steps draws, as far as they can be seen before it is read.

    ``step`` is the step that draws them: ``seam`` or ``level seam``.
    """
    names = []
    for item in node if isinstance(node, Listing) else ():
        seam = item.get(step) if isinstance(item, Table) else None
        name = seam.get("name") if isinstance(seam, Table) else None
        if isinstance(name, Text) and name.text.strip():
            names.append(name.text.strip())
    return tuple(sorted(set(names)))


def read_steps(node: Node, kinds: Mapping[str, StepKind], findings: Findings) -> tuple[ReadStep, ...]:
    """Return every step that could be named, in order; what is wrong goes into the findings."""
    if not isinstance(node, Listing) or not node.items:
        found = "got an empty list" if isinstance(node, Listing) else f"got {_got(node)}"
        what = f"{found}, needs a list of steps, each behind a dash."
        findings.wrong("wrong-steps", "steps", what, "Begin with `- top edge: …`.", node.place)
        return ()
    if len(node) > _MOST_STEPS:
        what = f"got {len(node)} steps, more than {_MOST_STEPS}."
        findings.wrong("wrong-steps", "steps", what, "Is this one recipe?", node.place)
        return ()
    steps = (_read_step(item, number, kinds, findings) for number, item in enumerate(node, start=1))
    return tuple(step for step in steps if step is not None)


def _read_step(item: Node, number: int, kinds: Mapping[str, StepKind], findings: Findings) -> ReadStep | None:
    where = f"step {number}"
    if not isinstance(item, Table):
        remedy = f"Write `- {item.text.strip()}: {{…}}`." if isinstance(item, Text) and item.text in kinds else ""
        what = f"got {_got(item)}, needs a step with its options, such as `hem: {{height: waist}}`."
        findings.wrong("wrong-step", where, what, remedy, item.place)
        return None
    if len(item) != 1:
        names = ", ".join(shown(name) for name in item.names[:_MOST_NAMED])
        more = ", …" if len(item) > _MOST_NAMED else ""
        what = f"holds {len(item)} names ({names}{more}); a step is one name with its options under it."
        remedy = "Indent the options further than the step's name, and give each step a dash of its own."
        findings.wrong("wrong-step", where, what if item.names else "is empty.", remedy, item.place)
        return None
    entry = item.entries[0]
    if entry.name not in kinds:
        what = f"there is no step {shown(entry.name)}."
        findings.wrong("unknown-step", where, what, nearest(entry.name, kinds), entry.place)
        return None
    step_kind, where = kinds[entry.name], trail(number, entry.name)
    table = entry.value
    if isinstance(table, Text) and table.blank:
        table = Table((), entry.place)
    if not isinstance(table, Table):
        what = f"got {_got(table)}, needs its options as names and values, such as `{_example(step_kind)}`."
        findings.wrong("wrong-step", where, what, "", table.place)
        return ReadStep(step_kind, None, number, entry.place, Table((), entry.place), ())
    own = findings.scratch()
    options = decode_fields(table, step_kind.options, where, own)
    findings.keep(own)
    read = ReadStep(step_kind, None if options is FAULT else options, number, entry.place, table, tuple(own.sightings))
    _ask_step(read, findings)
    return read


def _ask_step(read: ReadStep, findings: Findings) -> None:
    """Ask the step's own module for rules between its options, if it has any."""
    ask = getattr(sys.modules[read.kind.options.__module__], "problems", None)
    if ask is None or read.options is None:
        return
    for key, what, remedy in ask(read.options):
        findings.wrong("step-options", f"{read.where} › {key}", what, remedy, read.place_of(key))


def _example(step_kind: StepKind) -> str:
    key = next((key_of(field) for field in fields(step_kind.options) if not field.metadata.get("rest")), "front")
    return f"{step_kind.name}: {{{key}: …}}"


def _got(node: Node) -> str:
    if not isinstance(node, Text):
        return kind(node)
    return "nothing" if node.blank else shown(node.text)
