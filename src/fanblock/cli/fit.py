"""``fanblock fit``: what a toile taught, put back into the wearer and the garment."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.screen import say, say_document, working, wrapped

if TYPE_CHECKING:
    from fanblock.fitting.explaining import Explanation
    from fanblock.fitting.fit import Fitted
    from fanblock.fitting.notes import Notes
    from fanblock.garment.library import Opened
    from fanblock.pattern.model import Pattern


@click.command(short_help="Put back into a garment what its toile taught.")
@click.argument("garment")
@click.argument("notes", required=False)
@click.option("--why", is_flag=True, help="Tell besides which few causes would explain most of the notes together.")
@click.option("--dry", is_flag=True, help="Only tell what would be changed; write nothing.")
@machine_option
def fit(garment: str, notes: str | None, why: bool, dry: bool, machine: bool) -> int:
    """Apply the NOTES of a fitting to GARMENT, and write the next version of both it and its wearer.

    Notes are what was seen and measured on the toile, in the words of the correction sheet. They are applied in the order
    one looks: the height of the waist, the lengths, the girths, the edges, the skirts. Nothing that is there is written
    over: the new files stand beside the old, their numbers counted up. Without NOTES you are asked, question by question,
    and what you answer is kept in a notes file beside the garment.

    \b
    Example:
      fanblock fit my-stays.yaml my-stays-fitting-1.yaml --dry
    """
    with working("reading"):
        from fanblock.fitting.checking import wrong_notes
        from fanblock.fitting.explaining import explanations
        from fanblock.fitting.fit import fitted
        from fanblock.fitting.keeping import files_of
        from fanblock.fitting.notes import Asked, open_notes
        from fanblock.fitting.questions import questions_of
        from fanblock.fitting.state import drafted
        from fanblock.garment.library import open_garment
        from fanblock.output import write_all

    opened = open_garment(garment)
    worn = drafted(opened)
    asked = Asked(questions_of(worn).spoken, lambda read: wrong_notes(worn, read))
    read = open_notes(notes or _asked(garment, opened, worn), asked)
    with working("fitting"):
        done = fitted(opened, read)
    files = {} if dry else files_of(opened, done)
    folder = Path(garment).parent
    if files:
        write_all(folder, files)
    written = [str(folder / name) for name in files]
    causes = explanations(read, done.before) if why else ()
    if machine:
        say_document(_document(done, read, written, causes))
    else:
        _tell(done, read, written)
        if why:
            _tell_causes(causes)
    return 0


def _asked(garment: str, opened: Opened, worn: Pattern) -> str:
    """Ask for the notes of a garment's draft, and return the path of the file they are kept in."""
    from fanblock.cli.asking import asked_notes
    from fanblock.fitting.questions import questions_of
    from fanblock.output import refuse_existing, write_new

    path = Path(garment).parent / f"{Path(garment).stem}-fitting-{opened.garment.draft}.yaml"
    refuse_existing([path])
    write_new(path, asked_notes(opened.garment.draft, questions_of(worn), worn.title.code).encode())
    say(wrapped(f"{path} is written."))
    return str(path)


def _tell_causes(causes: Sequence[Explanation]) -> None:
    """Tell the smallest explanations; which of them is true only the body knows."""
    say()
    if not causes:
        say(wrapped("There is too little in numbers to say what one cause might explain of it."))
        return
    say(
        wrapped("What would explain most of it at one stroke. Choose with the tape, and change that alone:"),
        style="head",
    )
    for number, one in enumerate(causes, 1):
        left = f" Left over: {'; '.join(one.left_over)}." if one.left_over else " Nothing is left over."
        says = f"{' and '.join(one.says)}. It accounts for {one.share:.0%}.{left}"
        say(wrapped(says[0].upper() + says[1:], f"  {number}. ", "     "))


def _document(done: Fitted, notes: Notes, written: list[str], causes: Sequence[Explanation]) -> dict[str, Any]:
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
        "explanations": [
            {"causes": list(one.says), "share": round(one.share, 4), "left_over": list(one.left_over)} for one in causes
        ],
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
