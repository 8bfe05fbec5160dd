"""A recipe file read into a recipe, or refused with everything that is wrong with it.

It is read in stages, and all problems of a stage are told together: the YAML itself; the format number; what it is based
on, if anything, which has to be sound by itself, and what it changes in it; every value, and the order of the steps; what
the steps say about one another and about the dials.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Literal

from fanblock.draft.band import BandSpec
from fanblock.problems import Place, Problem, RecipeError
from fanblock.recipe.based import Row, Whole, check_alone, hinted, whole
from fanblock.recipe.bases import Base, shipped_base
from fanblock.recipe.blockreading import block_kind, read_block
from fanblock.recipe.decode import decode_fields
from fanblock.recipe.dialreading import DialEntry, check_dials, dial_specs
from fanblock.recipe.findings import Findings
from fanblock.recipe.model import FORMATS, Construction, Makes, Recipe, WornOver
from fanblock.recipe.notes import check_needs, read_lines, read_sources
from fanblock.recipe.order import check_band_order, check_order
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.rewritten import check_rewritten
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
    """The keys at the top of a recipe's whole table; the steps are read by themselves.

    The last two are only known here by their names: what they say has become part of the table.
    """

    recipe: object = field(metadata={"for": "the format number, 1"})
    name: str = field(metadata={"for": "what the recipe is called"})
    makes: Makes = field(metadata={"for": "the kind of thing it makes, such as `stays`"})
    steps: object = field(metadata={"for": "the list of steps"})
    period: str = ""
    about: str = ""
    units: Literal["mm", "cm", "in"] | None = None
    worn_over: WornOver = "shift"
    construction: Construction | None = None
    needs: tuple[str, ...] = ALWAYS_NEEDED
    block: object = None
    dials: Mapping[str, DialEntry] = field(default_factory=dict)
    sources: tuple[object, ...] = ()
    watch: tuple[object, ...] = ()
    based_on: object = None
    changes: object = None


def read_recipe(text: str | bytes, file: str, id: str = "") -> Recipe:  # noqa: A002
    """Return the recipe that a file's text holds.

    ``file`` is the name used in messages, ``id`` what the recipe is called on the command line (empty: the
    file's name without its ending). What it is based on can only be a shipped recipe, since a text alone lies in no
    folder. Raises RecipeError with all problems of the first stage that has any.
    """
    return read_source(Base(text, file, file, shipped_base), id)


def read_source(source: Base, id: str = "") -> Recipe:  # noqa: A002
    """Return the recipe that a source holds, with all that it is based on; as :func:`read_recipe` otherwise."""
    made = _whole(source, Row((source.key,), (source.file,)))
    return _recipe(made, source.file, id or _stem(source.file))


def _whole(source: Base, row: Row) -> Whole:
    table = read_yaml(source.text, source.file, RecipeError)
    _read_format(table, source.file)
    made = whole(table, row, source.bases, _sound_base)
    return replace(made, drawings=MappingProxyType({**made.drawings, source.file: source.drawings}))


def _sound_base(base: Base, row: Row) -> Whole:
    """Return the whole table of a base, once it has been read as the recipe it is by itself."""
    made = _whole(base, row)
    _recipe(made, base.file, "")
    return made


def _recipe(made: Whole, file: str, id: str) -> Recipe:  # noqa: A002
    """Return the recipe of a whole table; problems that stand in a base's file tell how to mend them from ``file``."""
    table = made.table
    findings = Findings(_vocabulary(table))
    top = decode_fields(table, _Top, "", findings)
    check_alone(table, findings)
    steps_node = table.get("steps")
    steps = () if steps_node is None else read_steps(steps_node, BY_NAME, findings)
    if isinstance(steps_node, Listing) and steps:
        is_band = table.get("block") is not None and block_kind(table.get("block")) is BandSpec
        in_order = check_band_order if is_band else check_order
        in_order(steps, len(steps) == len(steps_node), steps_node.place, findings)
    block = read_block(table.get("block"), made.drawings, findings)
    if isinstance(top, _Top):
        check_needs(top.needs, table, findings)
        sources, watch = read_sources(top.sources, findings), read_lines(top.watch, "watch", findings)
    _raise_any(findings, file)
    check_rules(steps, findings, block)
    specs = dial_specs(top.dials)
    of_block = [sighting for sighting in findings.sightings if sighting.where.startswith("block › ")]
    check_dials(specs, table, [*of_block, *(each for step in steps for each in step.sightings)], findings)
    check_rewritten(made.rewritten, findings)
    _raise_any(findings, file)
    return Recipe(
        id=id,
        name=top.name,
        makes=top.makes,
        needs=top.needs,
        dials=specs,
        steps=tuple(step.step() for step in steps),
        period=top.period,
        about=top.about,
        units=top.units or "",
        worn_over=top.worn_over,
        construction=top.construction or "",
        sources=sources,
        watch=watch,
        block=block,
        based_on=made.based_on,
    )


def _raise_any(findings: Findings, file: str) -> None:
    if findings.problems:
        raise RecipeError(hinted(problem, file) for problem in findings.problems)


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
    remedy = f"{reads}; a newer version may read this file." if newer else f"{reads}: write `recipe: {FORMATS[-1]}`."
    raise RecipeError([Problem("recipe-format", "recipe", f"got {got} as the format number.", remedy, node.place)])


def _vocabulary(table: Table) -> Vocabulary:
    """Return the names this recipe may use, as far as they can be seen before its values are read."""
    units, dials = table.get("units"), table.get("dials")
    return Vocabulary(
        units=units.text if isinstance(units, Text) and units.text in UNITS else "",
        dials=tuple(sorted(dials.names)) if isinstance(dials, Table) else (),
        seams=seam_names(table.get("steps")),
        levels=seam_names(table.get("steps"), "level seam"),
        measures=MEASURE_NAMES,
    )


def _stem(file: str) -> str:
    name = file.replace("\\", "/").rsplit("/", 1)[-1]
    return name.removesuffix(".yaml").removesuffix(".yml")
