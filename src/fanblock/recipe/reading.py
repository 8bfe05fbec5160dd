"""A recipe file read into a recipe, or refused with everything that is wrong with it.

It is read in four stages, and all problems of a stage are told together: the YAML itself; the format number;
every value, and the order of the steps; what the steps say about one another and about the dials.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from fanblock.problems import Place, Problem, RecipeError
from fanblock.recipe.decode import decode_fields
from fanblock.recipe.dialreading import DialEntry, check_dials, dial_specs
from fanblock.recipe.findings import Findings
from fanblock.recipe.model import FORMATS, Makes, Recipe
from fanblock.recipe.notes import check_needs, read_lines, read_sources
from fanblock.recipe.order import check_order
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.rules import check_rules
from fanblock.recipe.stepreading import read_steps, seam_names
from fanblock.steps.table import BY_NAME
from fanblock.units import UNITS, shown
from fanblock.wearer.measures import MEASURES
from fanblock.yamlfile import Listing, Table, Text, read_yaml

ALWAYS_NEEDED = ("bust", "waist", "bust to waist")
"""The measures every block is made from; what a recipe needs when it does not say."""

MEASURE_NAMES = tuple(sorted({*MEASURES, "held bust to waist"}))
"""The measures a percentage may be of."""


@dataclass(frozen=True, slots=True)
class _Top:
    """The keys at the top of a recipe file; the steps are read by themselves."""

    recipe: object = field(metadata={"for": "the format number, 1"})
    name: str = field(metadata={"for": "what the recipe is called"})
    makes: Makes = field(metadata={"for": "the kind of thing it makes, such as `stays`"})
    steps: object = field(metadata={"for": "the list of steps"})
    period: str = ""
    about: str = ""
    units: Literal["mm", "cm", "in"] | None = None
    needs: tuple[str, ...] = ALWAYS_NEEDED
    dials: Mapping[str, DialEntry] = field(default_factory=dict)
    sources: tuple[object, ...] = ()
    watch: tuple[object, ...] = ()


def read_recipe(text: str | bytes, file: str, id: str = "") -> Recipe:  # noqa: A002
    """Return the recipe that a file's text holds.

    ``file`` is the name used in messages, ``id`` what the recipe is called on the command line (empty: the
    file's name without its ending). Raises RecipeError with all problems of the first stage that has any.
    """
    table = read_yaml(text, file, RecipeError)
    _read_format(table, file)
    findings = Findings(_vocabulary(table))
    top = decode_fields(table, _Top, "", findings)
    steps_node = table.get("steps")
    steps = () if steps_node is None else read_steps(steps_node, BY_NAME, findings)
    if isinstance(steps_node, Listing) and steps:
        check_order(steps, len(steps) == len(steps_node), steps_node.place, findings)
    if isinstance(top, _Top):
        check_needs(top.needs, table, findings)
        sources, watch = read_sources(top.sources, findings), read_lines(top.watch, "watch", findings)
    _raise_any(findings)
    check_rules(steps, findings)
    specs = dial_specs(top.dials)
    check_dials(specs, table, [sighting for step in steps for sighting in step.sightings], findings)
    _raise_any(findings)
    return Recipe(
        id=id or _stem(file),
        name=top.name,
        makes=top.makes,
        needs=top.needs,
        dials=specs,
        steps=tuple(step.step() for step in steps),
        period=top.period,
        about=top.about,
        units=top.units or "",
        sources=sources,
        watch=watch,
    )


def _raise_any(findings: Findings) -> None:
    if findings.problems:
        raise RecipeError(findings.problems)


def _read_format(table: Table, file: str) -> None:
    node = table.get("recipe")
    if isinstance(node, Text) and node.whole_number in FORMATS:
        return
    reads = f"This version reads format {' and '.join(str(number) for number in FORMATS)}"
    if node is None:
        what, remedy = (
            "the format number is missing.",
            f"{reads}: begin the file with `recipe: {FORMATS[-1]}`.",
        )
        raise RecipeError([Problem("recipe-format", "recipe", what, remedy, Place(file, 1, 1))])
    got = shown(node.text) if isinstance(node, Text) else "no number"
    number = node.whole_number if isinstance(node, Text) else None
    newer = number is not None and number > FORMATS[-1]
    remedy = (
        f"{reads}; a newer version may read this file."
        if newer
        else f"{reads}: write `recipe: {FORMATS[-1]}`."
    )
    raise RecipeError(
        [Problem("recipe-format", "recipe", f"got {got} as the format number.", remedy, node.place)]
    )


def _vocabulary(table: Table) -> Vocabulary:
    """Return the names this recipe may use, as far as they can be seen before its values are read."""
    units, dials = table.get("units"), table.get("dials")
    return Vocabulary(
        units=units.text if isinstance(units, Text) and units.text in UNITS else "",
        dials=tuple(sorted(dials.names)) if isinstance(dials, Table) else (),
        seams=seam_names(table.get("steps")),
        measures=MEASURE_NAMES,
    )


def _stem(file: str) -> str:
    name = file.replace("\\", "/").rsplit("/", 1)[-1]
    return name.removesuffix(".yaml").removesuffix(".yml")
