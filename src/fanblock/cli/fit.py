"""``fanblock fit``: what a toile taught, put back into the wearer and the garment."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.screen import say, say_document, working, wrapped

if TYPE_CHECKING:
    from fanblock.fitting.fit import Fitted
    from fanblock.fitting.notes import Notes


@click.command(short_help="Put back into a garment what its toile taught.")
@click.argument("garment")
@click.argument("notes")
@click.option("--dry", is_flag=True, help="Only tell what would be changed; write nothing.")
@machine_option
def fit(garment: str, notes: str, dry: bool, machine: bool) -> int:
    """Apply the NOTES of a fitting to GARMENT, and write the next version of both it and its wearer.

    Notes are what was seen and measured on the toile, in the words of the correction sheet. They are applied in the order
    one looks: the height of the waist, the lengths, the girths, the edges, the skirts. Nothing that is there is written
    over: the new files stand beside the old, their numbers counted up.

    \b
    Example:
      fanblock fit my-stays.yaml my-notes.yaml --dry
    """
    with working("reading"):
        from fanblock.fitting.fit import fitted
        from fanblock.fitting.keeping import files_of
        from fanblock.fitting.notes import open_notes
        from fanblock.garment.library import open_garment
        from fanblock.output import write_all

    opened, read = open_garment(garment), open_notes(notes)
    with working("fitting"):
        done = fitted(opened, read)
    files = {} if dry else files_of(opened, done)
    folder = Path(garment).parent
    if files:
        write_all(folder, files)
    written = [str(folder / name) for name in files]
    if machine:
        say_document(_document(done, read, written))
    else:
        _tell(done, read, written)
    return 0


def _document(done: Fitted, notes: Notes, written: list[str]) -> dict[str, Any]:
    return {
        "draft": done.opened.garment.draft,
        "sound": done.after.sound,
        "notes": [
            {
                "note": one.words,
                "read_as": one.reading,
                "changed": list(one.changed),
                "moved": list(one.moved),
                "advice": one.advice,
            }
            for one in done.told
        ],
        "comments": list(notes.comments),
        "another_toile": done.again,
        "files": written,
    }


def _tell(done: Fitted, notes: Notes, written: list[str]) -> None:
    from fanblock.fitting.numbers import moved_words

    for number, one in enumerate(done.told, 1):
        say(wrapped(f"{number}. {one.words}: {one.reading}"), style="head")
        for says in one.changed:
            say(wrapped(says, "   changed  ", " " * 12))
        for says in one.moved:
            say(wrapped(says, "   moved    ", " " * 12))
        if one.advice:
            say(wrapped(one.advice, "   besides  ", " " * 12))
    for comment in notes.comments:
        say(wrapped(comment, "Kept as a comment, and changes nothing: "))
    say()
    total = moved_words(done.before, done.after)
    say(wrapped("All together: " + ("; ".join(total) if total else "nothing moved that a tape would show") + "."))
    if notes.worn != "on the body":
        say(
            wrapped("It was worn on a stand: a stand neither breathes nor gives. Try it on the body.", "LOOK  "),
            style="look",
        )
    if done.again:
        say(wrapped(done.again, "LOOK  "), style="look")
    for path in written:
        say(wrapped(f"{path} is written."))
    if written:
        say(wrapped(f"Draw it: fanblock draft {written[-1]}"))
    else:
        say(wrapped("Nothing was written."))
