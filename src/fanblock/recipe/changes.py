"""What a recipe changes in the steps of the one it is based on, told as a list of small orders.

```yaml
changes:
  - replace: hem
    with: {hem: {height: waist - 60 mm}}
  - drop: side back
  - after: side front
    put: {seam: {name: side seam, through: [[56%, top edge], [46%, waist]], share: 1}}
  - before: separate
    put: {bust reduction: {by: 1%}}
  - in: side seam
    set: {spring: 30 mm}
```

A step is called what a maker calls it: a seam by its own name, any other step by its kind, and by kind and number where
several of a kind stand (``lacing gap 2``). ``with`` and ``put`` take one step or a list of steps; ``set`` changes the
options it names and leaves the others alone. Orders are followed from the first to the last, each on what the ones before
it have left. One that would change nothing is refused.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from fanblock.problems import Place, nearest
from fanblock.recipe.findings import Findings
from fanblock.recipe.phrase import respelled
from fanblock.units import shown
from fanblock.yamlfile import Entry, Listing, Node, Table, Text, kind

ORDERS: Mapping[str, str] = MappingProxyType(
    {"replace": "with", "drop": "", "after": "put", "before": "put", "in": "set"}
)
"""What an order begins with, and what stands beside it."""

_PARTNERS = frozenset(filter(None, ORDERS.values()))
_EXAMPLE = "`drop: side back` or `replace: hem` with `with: …` under it"
_MOST_CHANGES = 200


@dataclass(frozen=True, slots=True)
class Rewritten:
    """A step, or what is said of a dial, before and after one change, to be held against each other once both are read."""

    where: str
    place: Place
    old: Table
    new: Table
    is_dial: bool = False


@dataclass(frozen=True, slots=True)
class Changed:
    """Steps after all changes, and what was rewritten on the way."""

    steps: tuple[Node, ...]
    rewritten: tuple[Rewritten, ...] = ()


def step_names(steps: tuple[Node, ...]) -> tuple[str, ...]:
    """Return what every step is called, in order; empty for what is no step."""
    kinds = [node.entries[0].name if isinstance(node, Table) and len(node) == 1 else "" for node in steps]
    often, met = Counter(kinds), Counter[str]()
    names = []
    for name, node in zip(kinds, steps, strict=True):
        met[name] += 1
        own = _seam_name(node) if name in {"seam", "level seam"} else ""
        names.append(own or (f"{name} {met[name]}" if name and often[name] > 1 else name))
    return tuple(names)


def changed(steps: tuple[Node, ...], node: Node, findings: Findings) -> Changed:
    """Return the steps after the changes a node lists; what cannot be followed is noted and left out."""
    if not isinstance(node, Listing) or not node.items:
        got = "an empty list" if isinstance(node, Listing) else _got(node)
        what = f"got {got}, needs a list of changes, each behind a dash."
        findings.wrong("wrong-changes", "changes", what, f"Such as {_EXAMPLE}.", node.place)
        return Changed(steps)
    if len(node) > _MOST_CHANGES:
        what = f"got {len(node)} changes, more than {_MOST_CHANGES}."
        findings.wrong("wrong-changes", "changes", what, "Write a recipe of its own.", node.place)
        return Changed(steps)
    rewritten: list[Rewritten] = []
    for number, item in enumerate(node, start=1):
        order = _order(item, number, findings)
        if order is not None:
            done = order.followed(steps, findings)
            steps, rewritten = done.steps, [*rewritten, *done.rewritten]
    return Changed(steps, tuple(rewritten))


@dataclass(frozen=True, slots=True)
class _Order:
    """One order as it was written: what to do, the step it speaks of, and what stands beside it."""

    verb: str
    name: Text
    beside: Node | None
    where: str

    def followed(self, steps: tuple[Node, ...], findings: Findings) -> Changed:
        """Return the steps after this order."""
        at = self._found(steps, findings)
        if at is None:
            return Changed(steps)
        if self.verb == "drop":
            return Changed((*steps[:at], *steps[at + 1 :]))
        if self.verb == "in":
            return self._set(steps, at, findings)
        given = self._given(findings)
        if self.verb == "after":
            return Changed((*steps[: at + 1], *given, *steps[at + 1 :]))
        if self.verb == "before":
            return Changed((*steps[:at], *given, *steps[at:]))
        old = steps[at]
        same = (
            (Rewritten(self.where, self.name.place, old, given[0]),)
            if len(given) == 1 and isinstance(given[0], Table) and len(given[0]) == 1 and isinstance(old, Table)
            else ()
        )
        return Changed((*steps[:at], *given, *steps[at + 1 :]), same)

    def _found(self, steps: tuple[Node, ...], findings: Findings) -> int | None:
        names = step_names(steps)
        said = " ".join(self.name.text.split())
        places = [number for number, name in enumerate(names) if name and name == said]
        if len(places) == 1:
            return places[0]
        if places:
            numbers = " and ".join(str(number + 1) for number in places)
            what = f"two steps are called {shown(said)} (steps {numbers})."
            findings.wrong("step-unclear", self.where, what, "Give the seam another name first.", self.name.place)
        else:
            what = f"there is no step {shown(said)} here."
            findings.wrong("unknown-step", self.where, what, nearest(said, filter(None, names)), self.name.place)
        return None

    def _given(self, findings: Findings) -> tuple[Node, ...]:
        node = self.beside
        if isinstance(node, Listing) and node.items:
            return node.items
        if isinstance(node, Table):
            return (node,)
        return self._refused("a step with its options, such as `hem: {height: waist}`", findings)

    def _refused(self, needed: str, findings: Findings) -> tuple[Node, ...]:
        node = self.beside if self.beside is not None else self.name
        got = "an empty list" if isinstance(node, Listing) else _got(node)
        where = f"{self.where} › {ORDERS[self.verb]}"
        findings.wrong("wrong-change", where, f"got {got}, needs {needed}.", "", node.place)
        return ()

    def _set(self, steps: tuple[Node, ...], at: int, findings: Findings) -> Changed:
        given, old = self.beside, steps[at]
        if not isinstance(given, Table) or not given.entries or not isinstance(old, Table):
            self._refused("the options that change, such as `{spring: 30 mm}`", findings)
            return Changed(steps)
        entry = old.entries[0]
        options = entry.value if isinstance(entry.value, Table) else Table((), entry.place)
        rewritten = [
            Rewritten(f"{self.where} › {one.name}", one.place, old, _step_with(entry, merged(options, (one,))))
            for one in given
        ]
        new = _step_with(entry, merged(options, given.entries))
        return Changed((*steps[:at], new, *steps[at + 1 :]), tuple(rewritten))


def merged(table: Table, entries: tuple[Entry, ...]) -> Table:
    """Return a table with these entries in the place of its own of the same names, the rest behind them."""
    given = {respelled(entry.name): entry for entry in entries}
    kept = [given.get(respelled(entry.name), entry) for entry in table]
    return Table((*kept, *(entry for entry in entries if entry not in kept)), table.place)


def _step_with(entry: Entry, options: Table) -> Table:
    return Table((Entry(entry.name, options, entry.place),), entry.place)


def _order(item: Node, number: int, findings: Findings) -> _Order | None:
    """Return the order that one item of the list gives, or None when it cannot be understood."""
    where = f"change {number}"
    if not isinstance(item, Table) or not item.entries:
        got = "an empty table" if isinstance(item, Table) else _got(item)
        findings.wrong("wrong-change", where, f"got {got}, needs a change, such as {_EXAMPLE}.", "", item.place)
        return None
    strangers = [entry for entry in item if entry.name not in ORDERS and entry.name not in _PARTNERS]
    for entry in strangers:
        what = f"{shown(entry.name)} is not known here."
        findings.wrong("unknown-key", where, what, nearest(entry.name, {*ORDERS, *_PARTNERS}), entry.place)
    verbs = [entry for entry in item if entry.name in ORDERS]
    if strangers:
        return None
    if len(verbs) != 1:
        said = " and ".join(f"`{entry.name}`" for entry in verbs)
        what = f"says {said} in one." if verbs else "does not say which step it changes."
        remedy = "Give each change a dash of its own." if verbs else f"Begin with {_any_of(ORDERS)}."
        findings.wrong("wrong-change", where, what, remedy, verbs[1].place if verbs else item.place)
        return None
    verb, where = verbs[0], f"{where} ({verbs[0].name})"
    needed = ORDERS[verb.name]
    lost = [entry for entry in item if entry is not verb and entry.name != needed]
    for entry in lost:
        rest = f"`{needed}` does." if needed else "Nothing does."
        what = f"`{entry.name}` does not go with `{verb.name}`."
        findings.wrong("wrong-change", where, what, rest, entry.place)
    if needed and item.get(needed) is None:
        what = f"`{needed}` is missing beside `{verb.name}`."
        findings.wrong("wrong-change", where, what, f"Write `{needed}: …` under it.", verb.place)
    elif not lost and isinstance(verb.value, Text) and not verb.value.blank:
        return _Order(verb.name, verb.value, item.get(needed) if needed else None, where)
    elif not lost:
        what = f"got {_got(verb.value)}, needs the name of one step."
        findings.wrong("wrong-change", where, what, "", verb.value.place)
    return None


def _any_of(words: Mapping[str, str]) -> str:
    names = [f"`{word}`" for word in words]
    return f"{', '.join(names[:-1])} or {names[-1]}"


def _seam_name(node: Node) -> str:
    seam = node.entries[0].value if isinstance(node, Table) else None
    name = seam.get("name") if isinstance(seam, Table) else None
    return " ".join(name.text.split()) if isinstance(name, Text) else ""


def _got(node: Node) -> str:
    if not isinstance(node, Text):
        return kind(node)
    return "nothing" if node.blank else shown(node.text)
