"""The report: one page that says what was drawn, what was proved, what to look at and what to beware of."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from fanblock.pattern.model import Girth, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.cautions import COSTUME
from fanblock.sheet.drawing import Drawing
from fanblock.sheet.htmlpage import list_of, page, section, table
from fanblock.sheet.inline import inline_svg
from fanblock.sheet.lacingup import CAPTION as LACE_CAPTION
from fanblock.sheet.lacingup import lace_pictures
from fanblock.sheet.listing import HOLE, tables
from fanblock.sheet.looks import looks
from fanblock.sheet.pleatpicture import CAPTION as PLEATS_CAPTION
from fanblock.sheet.pleatpicture import pleat_picture
from fanblock.sheet.reportchecks import checks_table
from fanblock.sheet.reportstyle import STYLE
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.sewingpictures import sewing_strip, steps_of, strip_caption
from fanblock.sheet.silhouette import CAPTION as SIDE_CAPTION
from fanblock.sheet.tapes import tape_sentence, tape_words
from fanblock.sheet.telling import Telling, telling
from fanblock.sheet.views import Views
from fanblock.units import format_length


@dataclass(frozen=True, slots=True)
class ToBuy:
    """What to buy, each thing with how much of it, and how the pieces lie on each cloth: its words and its drawing."""

    things: tuple[tuple[str, str], ...]
    cloths: tuple[tuple[str, tuple[str, ...], Drawing], ...]


def report_html(pattern: Pattern, views: Views | None = None, to_buy: ToBuy | None = None) -> str:
    """Return the report as one HTML page that needs nothing from anywhere else.

    ``views`` may hand on views of the pattern already drawn; ``to_buy`` is told where the cloth is known.
    """
    views = views or Views(pattern)
    title = pattern.title
    name, said = f"{title.garment} for {title.wearer}", telling(pattern)
    body = [
        f"<h1>{escape(title.garment)}</h1>",
        f'<p class="faint">for {escape(title.wearer)} · {escape(phrases.stamp(title))}'
        f"{escape(f' · {title.period}' if title.period else '')}</p>",
        _verdict(pattern),
        f'<p class="tapes">{escape(tape_sentence(pattern))} <span class="faint">Believe it with a tape.</span></p>',
        _pictures(views, said),
        section("Look at these on the toile", _look(pattern)),
        section("The pieces", _flat(views)),
        *([] if to_buy is None else [section("Buy", table(("what", "how much"), to_buy.things))]),
        section("Cut", _cut_list(pattern)),
        *([] if to_buy is None else [section("On the cloth", _cloths(to_buy))]),
        *(section(head, text) for head, text in _lists(pattern)),
        section("Sew", f"{_strip(pattern)}{_pleats(pattern)}{list_of(joining(pattern), 'ol')}"),
        section("For the toile", f'<div class="box">{list_of(toile(pattern))}</div>'),
        section("What was checked", checks_table(pattern.findings, pattern.body.units)),
        section("What it adds up to", _girths(pattern)),
        section("Measure before you believe it", table(("what", "should be"), tape_words(pattern), {1})),
        section("Dials", table(("dial", "set to"), [(name, words) for name, words, _ in pattern.dials], {1})),
        section("Words used here", _glossary(pattern)),
        section(said.before or "What this is not", f"<p>{escape(COSTUME)}</p>{list_of(said.cautions[1:])}"),
    ]
    return page(name, STYLE, body)


def _strip(pattern: Pattern) -> str:
    """The order of sewing in small pictures."""
    strip = sewing_strip(pattern)
    if strip is None:
        return ""
    picture = inline_svg(strip, "sewing", "which seam is sewn when")
    return (
        f'<figure class="strip">{picture}<figcaption>{escape(strip_caption(steps_of(pattern)))}</figcaption></figure>'
    )


def _pleats(pattern: Pattern) -> str:
    """How its pleats lie when they are folded."""
    picture = pleat_picture(pattern)
    if picture is None:
        return ""
    drawn = inline_svg(picture, "pleats", "how the pleats fold, in cross-section")
    return f'<figure class="strip">{drawn}<figcaption>{escape(PLEATS_CAPTION)}</figcaption></figure>'


def _verdict(pattern: Pattern) -> str:
    if pattern.sound:
        head, tail = phrases.SOUND.split(":", 1)
        return f'<p class="verdict"><strong>{head}:</strong>{escape(tail)}</p>'
    failed = [finding.says for finding in pattern.findings if finding.state == "fails"]
    return (
        f'<div class="verdict bad"><strong>{phrases.NOT_SOUND}.</strong> Do not cut cloth by it.{list_of(failed)}</div>'
    )


def _pictures(views: Views, said: Telling) -> str:
    side = views.side and (
        f'<figure class="side">{inline_svg(views.side, "side", SIDE_CAPTION)}'
        "<figcaption>From her left side.</figcaption></figure>"
    )
    return (
        '<div class="pictures">'
        f'<figure class="key">{inline_svg(views.key, "key", said.caption)}'
        f"<figcaption>The panels laid seam to seam: which piece lives where.</figcaption></figure>{side or ''}</div>"
    )


def _look(pattern: Pattern) -> str:
    parts = [f"<h3>{escape(head)}</h3>{list_of(says)}" for _, head, says in looks(pattern)]
    parts.append(f"<p>{escape(telling(pattern).look)}</p>")
    return "".join(parts)


def _glossary(pattern: Pattern) -> str:
    rows = (
        (
            phrases.stamp(pattern.title),
            "which draft this is, and a short sign made of everything that shapes it. Same code, same papers; pages and "
            "pieces with different codes do not belong together.",
        ),
        *_of_the_block(pattern),
        ("dial", "a number of the recipe that you may set yourself; see Dials."),
        (
            "take",
            "what a seam takes out of the cloth at one height, both its edges together; below nought it lets out.",
        ),
        ("truing", "moving the ends of a seam's two edges a little until both are equally long."),
        ("from memory", "from memory of the trade, not measured and not from a book: doubt it first."),
    )
    return f"<dl>{''.join(f'<dt>{escape(word)}</dt><dd>{escape(says)}</dd>' for word, says in rows)}</dl>"


def _of_the_block(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """What the block is and how far it turns, in words."""
    if pattern.band is not None:
        return ()
    turns = [abs(math.degrees(half.block.turn_rad)) for half in pattern.halves or (pattern,)]
    turn = " or ".join(dict.fromkeys(f"{turn:.0f}°" for turn in turns))
    return (
        ("block", "one half of the body from waist to bust as a flat sheet, before any garment is drawn on it."),
        (
            f"turns {turn}",
            "how far that sheet swings round from centre front to centre back; a straight tube has 0°.",
        ),
    )


def _flat(views: Views) -> str:
    picture = inline_svg(views.flat, "flat", "all pieces, flat")
    half = telling(views.pattern).half
    says = f"{half[:1].upper()}{half[1:]}. Not at true scale on this page: measure on the printed ones."
    return f"<figure>{picture}<figcaption>{escape(says)}</figcaption></figure>"


def _cut_list(pattern: Pattern) -> str:
    rows = [
        (
            panel.label,
            panel.name,
            ", ".join(f"{layer}: {count}" for layer, count in phrases.layer_counts(panel)),
        )
        for panel in sorted(pattern.panels, key=lambda panel: panel.number)
    ]
    return table(("piece", "name", "cut"), rows)


def _lists(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Every list under its heading; behind that of a lacing's holes the way of its lace."""
    pictures = iter(lace_pictures(pattern))
    for number, (head, heads, rows, says) in enumerate(tables(pattern)):
        text = _listed(heads, rows, says)
        if heads[0] == HOLE:
            drawn = inline_svg(next(pictures)[1], f"lace{number}", "the way of the lace")
            text += f'<figure class="lace">{drawn}<figcaption>{escape(LACE_CAPTION)}</figcaption></figure>'
        yield head, text


def _listed(heads: Sequence[str], rows: Sequence[Sequence[str]], says: Sequence[str]) -> str:
    """One of the lists: its table, then what is to be said of it."""
    return f"{table(heads, rows)}{list_of(says)}"


def _girths(pattern: Pattern) -> str:
    units = pattern.body.units
    heads = ("level", "block", "takes", "cloth", "open", "gap", "worn, whole garment")
    rows = [_girth(girth, units) for girth in pattern.girths]
    if pattern.halves:
        rows = [
            (f"{girth.name}, {half.half}", *_girth(girth, units)[1:-1], _girth(mean, units)[-1])
            for mean, *both in zip(pattern.girths, *(half.girths for half in pattern.halves), strict=True)
            for half, girth in zip(pattern.halves, both, strict=True)
        ]
    if not rows:
        return ""
    says = "One half, but for the last column. Block less takes is cloth, what is open above the top edge, and gap."
    return f'<p class="faint">{says}</p>{table(heads, rows, set(range(1, 7)))}'


def _girth(girth: Girth, units: str) -> tuple[str, ...]:
    widths = (girth.block_mm, girth.takes_mm, girth.parts_mm, girth.open_mm, girth.gap_mm)
    return (
        girth.name,
        *(format_length(width, units) for width in widths),
        format_length(2.0 * (girth.block_mm - girth.takes_mm), units),
    )


def _cloths(to_buy: ToBuy) -> str:
    """How the pieces lie on each cloth."""
    parts = []
    for number, (layer, sentences, drawing) in enumerate(to_buy.cloths, 1):
        says = " ".join(escape(sentence) for sentence in sentences)
        picture = inline_svg(drawing, f"cloth{number}", f"How the pieces lie on the {layer} cloth")
        parts.append(f'<h3>{escape(layer)}</h3><p>{says}</p><div class="picture">{picture}</div>')
    return "".join(parts)
