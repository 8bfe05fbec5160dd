"""``fanblock compare``: what moved from one draft of a garment to another."""

from __future__ import annotations

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.screen import say, say_document, working, wrapped


@click.command(short_help="Show what moved from one draft to another.")
@click.argument("before")
@click.argument("now")
@click.option("--out", "folder", metavar="FOLDER", help="Write the picture there, the old pieces dashed under the new.")
@machine_option
def compare(before: str, now: str, folder: str | None, machine: bool) -> int:
    """Show what moved from the draft BEFORE to the draft NOW.

    A draft is the folder it was drawn into, or a garment file, which is drawn as it stands.

    \b
    Example:
      fanblock compare my-stays-draft-1 my-stays-2.yaml --out what-moved
    """
    with working("reading"):
        from fanblock.fitting.compare import overlaid, rows
        from fanblock.fitting.fellows import in_halves
        from fanblock.fitting.seen import open_draft
        from fanblock.output import write_all
        from fanblock.sheet.png import to_png
        from fanblock.sheet.svg import write_svg

    old, new = in_halves(open_draft(before), open_draft(now))
    found = rows(old, new)
    written: list[str] = []
    if folder:
        svg = write_svg(overlaid(old, new), embed_font=True, background="#ffffff")
        files = {"compared.svg": svg.encode(), "compared.png": to_png(svg, 900)}
        written = [str(path) for path in write_all(folder, files)]
    if machine:
        moved = [{"what": what, "before": was, "now": is_now, "by": by} for what, was, is_now, by in found]
        say_document({"before": old.title, "now": new.title, "moved": moved, "files": written})
        return 0
    say(wrapped(f"before: {old.title}"), style="head")
    say(wrapped(f"now:    {new.title}"), style="head")
    widest = max((len(what) for what, *_ in found), default=0)
    for what, was, is_now, by in found:
        say(f"  {what:{widest}}  {was:>12}  {is_now:>12}  {by}".rstrip())
    if not found:
        say(wrapped("Nothing moved that a tape would show."))
    for path in written:
        say(wrapped(f"{path} is written."))
    return 0
