"""Drafting a pattern, writing its files and telling what came of it; shared by the commands that draft."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fanblock.cli.screen import say, say_document, working, wrapped

if TYPE_CHECKING:
    from fanblock.bundle import Bundle
    from fanblock.garment.model import Cloth
    from fanblock.pattern.model import Pattern
    from fanblock.sheet.paper import Paper


@dataclass(frozen=True, slots=True)
class Order:
    """What somebody asked to have drafted, as it was typed."""

    wearer: str
    recipe: str
    folder: str
    settings: Mapping[str, str] = field(default_factory=dict)
    over: str | None = None
    number: int = 1
    papers: Sequence[Paper] = ()
    despite: Collection[str] = ()
    machine: bool = False
    pictures: bool = True
    guide: bool = False
    toile: bool = False


@dataclass(frozen=True, slots=True)
class GarmentOrder:
    """A garment that is to be drafted as its file says."""

    path: str
    folder: str | None = None
    papers: Sequence[Paper] = ()
    despite: Collection[str] = ()
    machine: bool = False
    pictures: bool = True
    guide: bool = False
    toile: bool = False


def draft_and_tell(order: Order | GarmentOrder) -> int:
    """Draft, write all files and tell of them; returns 0, or 1 when the pattern is not sound."""
    with working("reading"):
        from fanblock.bundle import pattern_bundle
        from fanblock.output import refuse_file, write_all

    if order.folder:
        refuse_file(order.folder)
    pattern, folder, worn_over, cloths = _drafted(order) if isinstance(order, Order) else _garment(order)
    bundle = pattern_bundle(pattern, order.papers, working, pictures=order.pictures, guides=order.guide, cloths=cloths)
    if order.toile:
        bundle = _with_toile(bundle, pattern, order)
    pattern = replace(pattern, findings=(*pattern.findings, *bundle.found))
    write_all(folder, {made.name: made.data for made in bundle.files})
    if order.machine:
        say_document(document(pattern, bundle, folder))
    else:
        _tell(pattern, bundle, folder, worn_over)
    return 0 if pattern.sound else 1


def _with_toile(bundle: Bundle, pattern: Pattern, order: Order | GarmentOrder) -> Bundle:
    """Return the files with those of the toile after them."""
    from fanblock.fitting.toilefiles import toile_files

    made, left_out = toile_files(pattern, order.papers, working, pictures=order.pictures)
    return replace(bundle, files=(*bundle.files, *made), left_out=(*bundle.left_out, *left_out))


Drafted = tuple["Pattern", str, str, "Mapping[str, Cloth] | None"]
"""A pattern, its folder, what it is worn over, and the cloth of its layers where it is to be laid on it."""


def _drafted(order: Order) -> Drafted:
    """Return the pattern that was asked for; nothing is known of its cloth, which is assumed where it is to be shown."""
    from fanblock.cli.reading import opened
    from fanblock.make import draft_pattern

    wearer, recipe = opened(order.wearer, order.recipe)
    with working("drafting"):
        pattern = draft_pattern(
            wearer, recipe, order.settings, over=order.over, draft=order.number, despite=order.despite
        )
    return pattern, order.folder, recipe.worn_over, {} if order.pictures else None


def _garment(order: GarmentOrder) -> Drafted:
    """Return the pattern of a garment; its folder is one in which no other draft lies."""
    from fanblock.garment.keeping import draft_folder, refuse_other_draft
    from fanblock.garment.library import draft_garment, open_garment

    opened = open_garment(order.path)
    with working("drafting"):
        pattern = draft_garment(opened, despite=tuple(order.despite))
    folder = order.folder or draft_folder(order.path, opened.garment.draft)
    refuse_other_draft(folder, pattern.title)
    return pattern, folder, opened.recipe.worn_over, opened.garment.cloth


def document(pattern: Pattern, bundle: Bundle, folder: str) -> dict[str, Any]:
    """Return what other programs are told of a draft; lengths in mm."""
    from fanblock.sheet.json import pattern_data
    from fanblock.sheet.tapes import tape_data

    data = pattern_data(pattern)
    return {
        "sound": pattern.sound,
        "wearer": data["wearer"]["name"],
        "over": data["wearer"]["over"],
        "recipe": data["recipe"],
        "draft": data["draft"],
        "code": data["code"],
        "tape": {name: _rounded(mm) for name, mm in tape_data(pattern).items()},
        "checks": data["checks"],
        "notes": data["notes"],
        "folder": folder,
        "files": [{"name": made.name, "purpose": made.purpose} for made in bundle.files],
        "left_out": list(bundle.left_out),
    }


def _rounded(mm: float | None) -> float | None:
    return None if mm is None else round(mm, 2) + 0.0


def _tell(pattern: Pattern, bundle: Bundle, folder: str, worn_over: str) -> None:
    from fanblock.cli.checktable import say_checks, say_notes
    from fanblock.gallery import WORN_OVER_STAYS
    from fanblock.sheet import phrases
    from fanblock.sheet.cautions import COSTUME
    from fanblock.sheet.tapes import tape_sentence
    from fanblock.sheet.telling import telling
    from fanblock.wearer.model import STAYS

    title = pattern.title
    period = f", {title.period}" if title.period else ""
    say(wrapped(f"{title.garment}{period}, for {title.wearer} ({phrases.stamp(title)})"), style="head")
    say(wrapped(tape_sentence(pattern)))
    if pattern.body.predicted:
        says = "There are no measures over stays, so they are predicted. "
        says += "Measure again, laced in them, before you cut cloth."
        say(wrapped(says, "LOOK  "), style="look")
    elif pattern.body.over != STAYS and (worn_over == STAYS or title.makes in WORN_OVER_STAYS):
        says = f"A {title.makes} goes over stays. Measure again, laced in them, and draft with --over stays."
        say(wrapped(says, "LOOK  "), style="look")
    say()
    say_checks(pattern.findings)
    say_notes(pattern.notes)
    say_files(bundle, folder)
    if pattern.sound:
        say(wrapped(phrases.SOUND), style="good")
    else:
        say(wrapped(phrases.verdict(pattern)), style="bad")
        say(wrapped("Do not cut cloth by it. The files are there to look at, and every sheet says so."))
    lacing = " Read the cautions before you lace." if telling(pattern).cautions else ""
    say(wrapped(f"{COSTUME}{lacing}"))


def say_files(bundle: Bundle, folder: str) -> None:
    """Tell which files were written, what each is for, and which to open first."""
    say(wrapped(f"Written into {folder}:"), style="head")
    widest = max(len(made.name) for made in bundle.files)
    for made in bundle.files:
        say(wrapped(made.purpose, f"  {made.name:{widest}}  ", " " * (widest + 4)))
    for text in bundle.left_out:
        say(wrapped(text, "  left out: ", " " * 12))
    say(wrapped(f"Open first: {Path(folder) / bundle.files[0].name}"))
    older = older_prints(folder, bundle)
    if older:
        say(
            wrapped(f"From an earlier draft, and not changed: {', '.join(older)}. Do not mix the two.", "LOOK  "),
            style="look",
        )
    say()


def older_prints(folder: str, bundle: Bundle) -> tuple[str, ...]:
    """Return the names of PDF files of ours in a folder that this time were not written."""
    written = {made.name for made in bundle.files}
    stems = tuple({f"{made.name.split('-')[0]}-" for made in bundle.files if made.name.endswith(".pdf")})
    found = (path.name for path in Path(folder).glob("*.pdf"))
    return tuple(sorted(name for name in found if name.startswith(stems) and name not in written))
