"""The tables of these pages that are taken from the program, so that they cannot say anything else than it does.

A page marks the place with ``<!-- made: options seam -->`` and ``<!-- end -->``; what stands between is written anew by
``python docs/make.py``.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from pathlib import Path
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from fanblock.checks.finding import FAMILIES
from fanblock.fitting.notes import sentence_list
from fanblock.fitting.parts import STATED
from fanblock.fitting.sentences import Effect, Hollow, Longer, Raise, Spring, TakeIn, TakeOut, Turn
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError
from fanblock.recipe.decode import key_of
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import MAKES
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.starter import starter_recipe
from fanblock.recipe.words import amount_text
from fanblock.sheet.measureform import FIRST
from fanblock.sheet.phrases import verdict
from fanblock.sheet.reportchecks import FAMILIES as HEADS
from fanblock.sheet.tapes import tape_words
from fanblock.shipped import recipe_ids
from fanblock.steps.table import BY_NAME, TABLE
from fanblock.terms import Amount, Around, Dial, Extent, Height, Length, Position, Share
from fanblock.wearer.library import open_wearer
from fanblock.wearer.measures import MEASURES
from fanblock.wearer.reading import read_wearer

_MADE = re.compile(r"(<!-- made: (?P<what>[^>]+?) -->\n)(?P<text>.*?)(<!-- end -->)", re.DOTALL)
WEARER = "ferrywoman"
_TERMS = (Around, Dial, Extent, Height, Length, Position, Share)
"""Values that a recipe writes as one, though they have parts."""

STAGES = {
    "on the block": "on the block, before `separate`",
    "divides a band": "first, in the place of `separate`",
    "separates": "between the two halves of a recipe",
    "on panels": "on the panels, after `separate`",
}


def with_tables(page: str) -> str:
    """Return a page's text with every made part written anew; KeyError for one that nobody makes."""

    def anew(found: re.Match[str]) -> str:
        kind, _, about = found["what"].partition(" ")
        return f"{found[1]}{MAKERS[kind](about).strip()}\n{found[4]}"

    return _MADE.sub(anew, page)


def made_parts(page: str) -> tuple[str, ...]:
    """Return what a page asks to have made, in order."""
    return tuple(found["what"] for found in _MADE.finditer(page))


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table as these pages write it."""
    lines = [f"| {' | '.join(heads)} |", f"|{'---|' * len(heads)}"]
    lines += [f"| {' | '.join(cell.replace('|', '/') for cell in row)} |" for row in rows]
    return "\n".join(lines)


def _sentences(_: str) -> str:
    """Every sentence of a fitting: what it means, what its amount is, and what it changes."""
    rows = []
    for one in sentence_list():
        amount = (
            f"{one.asks}; usual {one.typical_mm / 10.0:g} cm, at most {one.most_mm / 10.0:g} cm" if one.effects else ""
        )
        changes = "; ".join(_effect(effect) for effect in one.effects) or "nothing: it is for you to settle"
        asked = ", ".join(STATED[part] for part in one.of if part in STATED) or "all"
        rows.append((one.words, asked, one.reading, amount, changes, one.advice))
    return table(("what you see", "asked of", "what it means", "how much", "what is changed", "besides"), rows)


def _effect(effect: Effect) -> str:
    """One effect of a sentence in words."""
    match effect:
        case Longer(measure, share):
            girth = MEASURES[measure].whole_girth
            word = ("larger" if girth else "longer") if share > 0.0 else ("smaller" if girth else "shorter")
            return f"the wearer's `{measure}` {word}"
        case TakeOut(at, share):
            word = "taken out" if share > 0.0 else "let out"
            return f"a wedge {word} at the wearer's {at.replace('center', 'centre')}"
        case TakeIn(level, region, share):
            word = "taken in" if share > 0.0 else "let out"
            return f"{word} at the {level}, {region}"
        case Raise(edge, _, _, share):
            word = "higher" if share > 0.0 else "lower"
            return f"the {'lower edge' if edge == 'hem' else edge} {word} there"
        case Spring(region, share):
            return f"{'more' if share > 0.0 else 'less'} spring, {region}"
        case Hollow(place, share):
            return f"the armhole {'higher' if share > 0.0 else 'lower'} {place}"
        case Turn(dial, share):
            return f"the dial `{dial}` turned {'up' if share > 0.0 else 'down'}"


def _story(line: str) -> str:
    """What a command of the ferrywoman's story says."""
    import storyline

    return f"```text\n{storyline.answer(line)}\n```"


def _options(step: str) -> str:
    """The options of one step: what each is for, how it is written, and what it is when left out."""
    kind = BY_NAME[step]
    parts = [f"Stands {STAGES[kind.stage]}.", _fields(kind.options)]
    for field, inner in _inner(kind.options):
        parts += [f"Each of the `{key_of(field)}` is written in curly brackets:", _fields(inner)]
    for field, inner in _tables(kind.options):
        parts += [f"What `{key_of(field)}` says in curly brackets:", _fields(inner)]
    return "\n\n".join(parts)


def _fields(options: type[Any]) -> str:
    hints = get_type_hints(options)
    rows = []
    for field in fields(options):
        name = "any other name" if field.metadata.get("rest") else f"`{key_of(field)}`"
        rows.append((name, field.metadata.get("for", ""), written(hints[field.name]), _left_out(field)))
    return table(("option", "what for", "written as", "if left out"), rows)


def _inner(options: type[Any]) -> list[tuple[Field[Any], type[Any]]]:
    """The fields that are lists of names and values, with what stands in them."""
    hints = get_type_hints(options)
    lists = [
        (field, get_args(hints[field.name])) for field in fields(options) if get_origin(hints[field.name]) is tuple
    ]
    return [(field, inside[0]) for field, inside in lists if _has_names(inside[0])]


def _tables(options: type[Any]) -> list[tuple[Field[Any], type[Any]]]:
    """The fields that may be names and values, with what stands in them."""
    hints = get_type_hints(options)
    either = (Union, UnionType)
    kinds = [
        (field, get_args(hints[field.name])) for field in fields(options) if get_origin(hints[field.name]) in either
    ]
    return [(field, one) for field, members in kinds for one in members if _has_names(one)]


def _has_names(kind: Any) -> bool:
    return is_dataclass(kind) and kind not in _TERMS


def written(kind: Any) -> str:
    """Return in words how a value of this kind is written in a recipe."""
    plain = {
        Amount: "an [amount](../recipes.md#amounts)",
        Around: "an [around](../recipes.md#arounds)",
        Extent: "a [whole length](../recipes.md#bands)",
        Height: "a [height](../recipes.md#heights)",
        Position: "a [position](../recipes.md#positions)",
        Share: "a percentage",
        bool: "`yes` or `no`",
        str: "a name",
        int: "a whole number",
        float: "a number",
    }
    if kind in plain:
        return plain[kind]
    if _has_names(kind):
        return "names and values: see below"
    if get_origin(kind) is Literal:
        return " or ".join(f"`{word}`" for word in get_args(kind))
    if get_origin(kind) is tuple:
        if _has_names(get_args(kind)[0]):
            return "names and values, in a list: see below"
        several = {Position: "[positions](../recipes.md#positions), in a list", Share: "percentages, in a list"}
        return several.get(get_args(kind)[0], "names, in a list")
    if get_origin(kind) is Mapping:
        key, value = get_args(kind)
        one = "a [height](../recipes.md#heights)" if key is Height else "a name"
        return f"{one}, a colon, {written(value)}"
    if get_origin(kind) in (Union, UnionType):
        members = [one for one in get_args(kind) if one is not type(None)]
        if set(members) >= set(get_args(Amount)):
            others = [written(one) for one in members if one not in get_args(Amount)]
            return " or ".join([*others, plain[Amount]])
        return " or ".join(written(one) for one in members)
    raise KeyError(kind)


def _left_out(field: Field[Any]) -> str:
    if field.default is not MISSING:
        value = field.default
    elif field.default_factory is not MISSING:
        value = field.default_factory()
    else:
        return "it must be given"
    if isinstance(value, bool):
        return "`yes`" if value else "`no`"
    if value is None or value in ((), {}, ""):
        return "nothing"
    if isinstance(value, Length | Share):
        return f"`{amount_text(value)}`"
    return f"`{value}`"


def _steps(_: str) -> str:
    """All steps in the order of the table, with what each does in a line."""
    rows = [
        (f"[`{kind.name}`]({kind.name.replace(' ', '-')}.md)", _does(kind.options), STAGES[kind.stage])
        for kind in TABLE
    ]
    return table(("step", "what it does", "where it stands"), rows)


def _does(options: type) -> str:
    import sys

    head = (sys.modules[options.__module__].__doc__ or "").split("\n\n")[0]
    says = " ".join(head.split()).split(": ", 1)[-1]
    return says[:1].upper() + says[1:]


def _measures(_: str) -> str:
    """All measures: how to take each, what it is for, and between what it is believed."""
    numbers = {name: number for number, name in enumerate((*FIRST, *(one for one in MEASURES if one not in FIRST)), 1)}
    rows = []
    for name in numbers:
        one = MEASURES[name]
        band = f"{one.usual_least_mm / 10:.0f} to {one.usual_most_mm / 10:.0f}"
        star = " **needed**" if one.needed else ""
        rows.append((str(numbers[name]), f"`{name}`{star}", one.how, one.use, band))
    return table(("", "measure", "how to take it", "what it is for", "usual, in cm"), rows)


def _dials(recipe_id: str) -> str:
    recipe = open_recipe(recipe_id)
    rows = []
    for dial in recipe.dials:
        least, most = ("" if one is None else amount_text(one).split(" of ")[0] for one in (dial.least, dial.most))
        rows.append((f"`{dial.name}`", amount_text(dial.default), f"{least} to {most}", dial.purpose))
    return table(("dial", "set to", "from, to", "what for"), rows)


def _sources(recipe_id: str) -> str:
    return "\n".join(f"* {_marked(source)}" for source in open_recipe(recipe_id).sources)


def _marked(source: str) -> str:
    kind, _, says = source.partition(": ")
    return f"**{kind}**: {says}."


def _watch(recipe_id: str) -> str:
    return "\n".join(f"* {line}" for line in open_recipe(recipe_id).watch)


def _about(recipe_id: str) -> str:
    recipe = open_recipe(recipe_id)
    needs = ", ".join(f"`{name}`" for name in recipe.needs)
    return (
        f"{recipe.about}\n\n"
        f"It makes **{recipe.makes}** of **{recipe.period}**. It needs {needs}. On the command line it is called "
        f"`{recipe.id}`."
    )


@cache
def _drafted(recipe_id: str) -> Pattern:
    return draft_pattern(open_wearer(WEARER), open_recipe(recipe_id))


def _checks(recipe_id: str) -> str:
    """The tape numbers and what the checks found, a line for each family."""
    pattern = _drafted(recipe_id)
    rows = []
    for family in FAMILIES:
        states = Counter(finding.state for finding in pattern.findings if finding.family == family)
        if states:
            rows.append((HEADS[family], str(states["holds"]), str(states["warns"]), str(states["fails"])))
    looks = [finding.says for finding in pattern.findings if finding.state != "holds"]
    parts = [
        table(("measure it with a tape", "it should be"), tape_words(pattern)),
        table(("checks", "hold", "want a look", "fail"), rows),
        *(["What wants a look:", "\n".join(f"* {says}" for says in looks)] if looks else []),
        f"Verdict: {verdict(pattern)}",
    ]
    return "\n\n".join(parts)


def _recipes(_: str) -> str:
    rows = []
    for recipe_id in recipe_ids():
        recipe = open_recipe(recipe_id)
        rows.append((f"[`{recipe_id}`](recipes/{recipe_id}.md)", recipe.name, recipe.makes, recipe.period))
    return table(("called", "what it is", "makes", "period"), rows)


def _makes(_: str) -> str:
    return ", ".join(f"`{word}`" for word in MAKES)


RECIPE_SLIPS: tuple[tuple[str, str, str, str, str], ...] = (
    ("a word misspelt", "- hem: {", "- hemm: {", "- hemm: {height: waist - tab depth}",
     "Every word is looked up. The nearest words that would be right are named."),
    ("a number without its unit", "width: gap}", "width: 50}", "- lacing gap: {at: center back, width: 50}",
     "A bare number could be millimetres or inches. Write the unit, or say `units: mm` once at the top of the file."),
    ("a landmark misspelt", "[14%, waist]", "[14%, wiast]", "through: [[24%, top edge], [14%, wiast], [19%, hem]]",
     "The message names the point and which half of it is wrong."),
    ("the end of a seam not said", "below waist: open         # open: it parts into tabs below the waist; sewn: it is sewn to the hem",
     "", "(no line that says below waist)",
     "A seam that runs on below the waist is either left open there, as in stays, or sewn to the hem, as in a jacket. "
     "The program does not choose for you."),
    ("a name that is taken", "      name: side front", "      name: side", "name: side",
     "There is a place called `side` on every block. A seam of that name could not be told from it."),
    ("a panel that is not there", "side: [33%, 67%]", "sides: [33%, 67%]", "slits: {front: [50%], sides: [33%, 67%], …}",
     "Panels are called as `separate` names them."),
    ("a step in the wrong half", "  - waist reduction: {by: reduction}\n", "",
     "- waist reduction: {by: reduction} (moved down, behind separate)",
     "Steps before `separate` draw on the block, steps after it work on the pieces."),
    ("a dial nobody turns", "height: waist - tab depth", "height: waist - 80 mm", "- hem: {height: waist - 80 mm}",
     "The dial `tab depth` is still in the list of dials, but no step uses it any more."),
)  # fmt: skip
"""Slips in a recipe: a name, what in the starter recipe becomes what, what one sees of it, and what it means."""

BODY_SLIPS: tuple[tuple[str, str, str, str, str], ...] = (
    ("too many names", "{panels: [front, side, back]}", "{panels: [front, side, back, spare]}",
     "- separate: {panels: [front, side, back, spare]}", "Two seams make three panels. Give one name for each, from front to back."),
    ("a seam out of order", "[14%, waist], [19%, hem]", "[14%, bust - 5 mm], [19%, hem]",
     "through: [[24%, top edge], [14%, bust - 5 mm], [19%, hem]]",
     "On this body the two points lie nearly at one height. A seam drawn through them would make a hook."),
    ("nobody takes the reduction", "share: 2 ", "share: 0 ", "(both seams with share: 0)",
     "Something is to be taken in, and no seam has a share of it."),
)  # fmt: skip
"""Slips that only show on a body, in the same form."""

WEARER_SLIPS: tuple[tuple[str, str, str], ...] = (
    ("an inch for a centimetre", "units: in\nmeasures: {bust: 92, waist: 29, bust to waist: 6 1/2}", "the unit"),
    ("half the girth", "units: cm\nmeasures: {bust: 46, waist: 73, bust to waist: 16}", "the tape doubled"),
    ("a measure misspelt", "units: cm\nmeasures: {bust: 92, waist: 73, bust to waist: 16, underbost: 80}", "the pen"),
    ("bust and ribs swapped", "units: cm\nmeasures: {bust: 80, waist: 66, bust to waist: 16, underbust: 92}", "the pen"),
    ("lifted, and yet shorter", "units: cm\nmeasures: {bust: 92, waist: 73, bust to waist: 16, raised: 14}", "the pen"),
    ("the tape not level", "units: cm\nmeasures: {bust: 92, waist: 73, bust to waist: 16, bust to waist at back: 23}",
     "the tape"),
    ("a comma for a point", "units: cm\nmeasures: {bust: \"91,5\", waist: 73, bust to waist: 16}", "the pen"),
)  # fmt: skip
"""Slips of measuring: a name, what was written, and where the slip lies."""


def _recipe_slips(_: str) -> str:
    return "\n\n".join(_slip(name, seen, _says(old, new, seen), means) for name, old, new, seen, means in RECIPE_SLIPS)


def _body_slips(_: str) -> str:
    return "\n\n".join(_slip(name, seen, _says(old, new, seen), means) for name, old, new, seen, means in BODY_SLIPS)


def _says(old: str, new: str, seen: str) -> str:
    """Return what the program says of the starter recipe with this slip in it; AssertionError when it says nothing."""
    text = starter_recipe("My stays")
    if old not in text:
        raise AssertionError(f"the starter recipe no longer holds {old!r}")
    text = text.replace(old, new, 1)
    if seen.startswith("(both"):
        text = text.replace("share: 1\n", "share: 0\n")
    if "moved down" in seen:
        text = text.replace("  - tabs:", f"{old}  - tabs:", 1)
    try:
        draft_pattern(open_wearer(WEARER), read_recipe(text, "my-stays.yaml"))
    except FanblockError as error:
        return str(error)
    raise AssertionError(f"{seen} is found to be right")


def _slip(name: str, seen: str, says: str, means: str) -> str:
    return f"**{name[:1].upper()}{name[1:]}.** You wrote `{seen}`. The program says:\n\n```text\n{says}\n```\n\n{means}"


def _wearer_slips(_: str) -> str:
    parts = []
    for name, text, _where in WEARER_SLIPS:
        try:
            read_wearer(f"wearer: 1\nname: me\n{text}\n", "me.yaml")
        except FanblockError as error:
            says = re.sub(r"^me\.yaml:\d+:\d+: ", "", str(error), flags=re.MULTILINE)
        else:
            raise AssertionError(f"{text} is found to be right")
        parts.append(f"**{name[:1].upper()}{name[1:]}.**\n\n```text\n{says}\n```")
    return "\n\n".join(parts)


MAKERS: Mapping[str, Callable[[str], str]] = {
    "about": _about,
    "body-slips": _body_slips,
    "checks": _checks,
    "dials": _dials,
    "makes": _makes,
    "measures": _measures,
    "sentences": _sentences,
    "options": _options,
    "recipe-slips": _recipe_slips,
    "recipes": _recipes,
    "sources": _sources,
    "steps": _steps,
    "story": _story,
    "watch": _watch,
    "wearer-slips": _wearer_slips,
}
"""What can be made, by the word a page asks for it with."""


def new_recipe_pages(folder: Path) -> dict[str, str]:
    """Return a beginning, by file name, for the page of every shipped recipe that has none in ``folder`` yet."""
    missing = [recipe_id for recipe_id in recipe_ids() if not (folder / f"{recipe_id}.md").exists()]
    return {f"{recipe_id}.md": _PAGE.format(id=recipe_id, name=open_recipe(recipe_id).name) for recipe_id in missing}


_PAGE = """\
# {name}

<!-- made: about {id} -->
<!-- end -->

![The panels laid seam to seam, and the garment from the side](../../gallery/{id}.png)

The same on a stouter body, [the innkeeper](../../gallery/{id}-innkeeper.png).

```sh
fanblock draft me.yaml {id} --out my-{id}
```

## Dials

<!-- made: dials {id} -->
<!-- end -->

## On the toile

<!-- made: watch {id} -->
<!-- end -->

What each thing means and what to change is told [here](../toile.md).

## Where the numbers come from

<!-- made: sources {id} -->
<!-- end -->

## On the ferrywoman

<!-- made: checks {id} -->
<!-- end -->

[Every check](../../gallery/{id}.txt), with its number and its limit. What they mean is told under
[The checks](../checks.md).
"""
