"""The dials of a recipe file: their settings, their limits and their use."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from fanblock.problems import Place, nearest
from fanblock.recipe.decode import place_of
from fanblock.recipe.dials import bare, limit_fault
from fanblock.recipe.findings import Findings, Sighting
from fanblock.recipe.model import DialSpec
from fanblock.recipe.words import amount_text
from fanblock.terms import Around, Dial, Extent, Height, Length, Share
from fanblock.units import shown, typed_length
from fanblock.yamlfile import Table, Text


@dataclass(frozen=True, slots=True)
class DialEntry:
    """What a recipe file says about one dial."""

    default: Length | Share = field(metadata={"for": "what it is set to until somebody turns it"})
    least: Length | Share | None = None
    most: Length | Share | None = None
    of: str = ""
    purpose: str = field(default="", metadata={"key": "for"})


def dial_specs(entries: Mapping[str, DialEntry]) -> tuple[DialSpec, ...]:
    """Return the dials in the order the file has them; their shares know what they are of."""
    return tuple(_spec(name, entry) for name, entry in entries.items())


def check_dials(specs: tuple[DialSpec, ...], table: Table, sightings: Iterable[Sighting], findings: Findings) -> None:
    """Note dials that contradict themselves, are not used, or are used where their kind means nothing."""
    dials = table.get("dials")
    entries = dials if isinstance(dials, Table) else Table((), table.place)
    seen = tuple(sightings)
    used = {dial.name for sighting in seen for dial in _dials_in(sighting)}
    for spec in specs:
        entry = entries.entry(spec.name)
        place = table.place if entry is None else entry.place
        where = f"dials › {spec.name}"
        inner = entry.value if entry is not None and isinstance(entry.value, Table) else entries
        _check_limits(spec, inner, place, where, findings)
        _check_of(spec, inner, place, where, findings)
        if spec.name not in used:
            what = "no step uses this dial."
            findings.wrong("unused-dial", where, what, "Use its name in a step, or take it out.", place)
    by_name = {spec.name: spec for spec in specs}
    for sighting in seen:
        _check_added(sighting, by_name, findings)


def _spec(name: str, entry: DialEntry) -> DialSpec:
    default = replace(entry.default, of=entry.of) if isinstance(entry.default, Share) else entry.default
    limits = [replace(one, of=entry.of) if isinstance(one, Share) else one for one in (entry.least, entry.most)]
    return DialSpec(name, default, limits[0], limits[1], entry.of, entry.purpose)


def _check_limits(spec: DialSpec, entry: Table, place: Place, where: str, findings: Findings) -> None:
    mixed = False
    for key, limit in (("least", spec.least), ("most", spec.most)):
        if limit is not None and isinstance(limit, Length) != isinstance(spec.default, Length):
            mixed = True
            kind = "a length" if isinstance(spec.default, Length) else "a percentage"
            what = f"got “{amount_text(bare(limit))}”, but the dial's default is {kind}."
            findings.wrong(
                "dial-limit",
                f"{where} › {key}",
                what,
                "Give both the same kind.",
                place_of(entry, key, place),
            )
    if mixed:
        return
    unit = _unit(entry, findings.vocabulary.units)
    for key, value in (("least", spec.least), ("default", spec.default)):
        limits = replace(spec, least=None) if key == "least" else spec
        fault = None if value is None else limit_fault(limits, value, unit)
        if fault is not None:
            findings.wrong("dial-limit", f"{where} › {key}", *fault, place_of(entry, key, place))
            return


def _check_of(spec: DialSpec, entry: Table, place: Place, where: str, findings: Findings) -> None:
    if not spec.of:
        return
    at = place_of(entry, "of", place)
    if isinstance(spec.default, Length):
        what = "the dial is a length, which is not of a measure."
        findings.wrong("dial-of", f"{where} › of", what, "Take `of` out, or make the dial a percentage.", at)
    elif spec.of not in findings.vocabulary.measures:
        what = f"there is no measure {shown(spec.of)}."
        findings.wrong("unknown-measure", f"{where} › of", what, nearest(spec.of, findings.vocabulary.measures), at)


def _unit(entry: Table, units: str) -> str:
    """Return the unit the dial's default was typed in."""
    node = entry.get("default")
    try:
        return typed_length(node.text if isinstance(node, Text) else "", units or None).unit
    except ValueError:
        return units or "mm"


def _dials_in(sighting: Sighting) -> tuple[Dial, ...]:
    term = sighting.term
    amounts: tuple[object, ...] = (term,)
    if isinstance(term, Extent):
        amounts = (term.base, term.plus)
    elif isinstance(term, Height | Around):
        amounts = (term.plus,)
    return tuple(amount for amount in amounts if isinstance(amount, Dial))


def _check_added(sighting: Sighting, specs: Mapping[str, DialSpec], findings: Findings) -> None:
    """Note a dial that is a bare share where it is added to a height or an around: a share of nothing."""
    for dial in () if isinstance(sighting.term, Dial) else _dials_in(sighting):
        spec = specs.get(dial.name)
        if spec is not None and isinstance(spec.default, Share) and not spec.of:
            what = f"the dial {shown(dial.name)} is a percentage that does not say of what."
            remedy = "Give the dial `of:` and a measure, or make it a length."
            findings.wrong("dial-of", sighting.where, what, remedy, sighting.place)
