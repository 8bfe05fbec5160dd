"""The hand guide as one HTML page that needs nothing from anywhere else: each panel begins a page when it is printed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from fanblock.block.bowed import BowBlock
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.guidepages import guide_sections
from fanblock.sheet.handguide import hand_panels
from fanblock.sheet.handguide_chord import chord_picture
from fanblock.sheet.handguide_model import HandPanel
from fanblock.sheet.handguide_plan import hand_plan
from fanblock.sheet.handguide_tables import Table
from fanblock.sheet.handguide_words import NO_NEED, HandSheet, before_you_begin, hand_sheet, pieces_table
from fanblock.sheet.htmlpage import page
from fanblock.sheet.inline import inline_svg
from fanblock.sheet.reportstyle import STYLE
from fanblock.sheet.tapes import tape_sentence

PLAN_WIDE_MM, PLAN_HIGH_MM = 110.0, 150.0
"""How large a plan is drawn before the page scales it."""

_STYLE = """
.hand { display: flex; flex-wrap: wrap; gap: 1rem 1.5rem; align-items: flex-start; margin: .8rem 0; }
.hand figure { flex: 1 1 22rem; max-width: 34rem; } .hand ol { flex: 1 1 18rem; margin: 0; }
.tables { display: flex; flex-wrap: wrap; gap: 0 2.5rem; } .tables section { flex: 0 1 auto; } h3 { margin: 1.2rem 0 .3rem; }
.tables table, table.own { width: auto; } td, th { padding-right: 1rem; }
@media print { section.panel { break-before: page; } h2 { margin-top: 0; } body { font-size: 9.5pt; }
  h3, thead { break-after: avoid; } table { font-size: 8.5pt; } td, th { padding-top: .1rem; padding-bottom: .1rem; }
  .hand figure { flex: 0 0 48%; } .hand ol { flex: 1 1 40%; } }
"""


def hand_guide_html(pattern: Pattern, hands: Sequence[HandPanel] = ()) -> str:
    """Return the page; of a garment cut from a block by bows, the block with pin and string comes last.

    ``hands`` may hand on :func:`fanblock.sheet.handguide.hand_panels` of the pattern.
    """
    hands = hands or hand_panels(pattern)
    name = f"By hand: {phrases.identity(pattern.title)[0]}"
    chord = inline_svg(chord_picture(PLAN_WIDE_MM), "chord", "a curve drawn by offsets from its chord")
    parts = [
        f"<h1>{escape(name)}</h1>",
        f'<p class="faint">{escape(phrases.stamp(pattern.title))}</p>',
        _list(before_you_begin(pattern, hands)),
        f"<figure>{chord}</figure>",
        _table(pieces_table(hands)),
        f"<p>{escape(tape_sentence(pattern))}</p>",
        *(_panel(hand, hand_sheet(hand, pattern)) for hand in hands),
    ]
    for half in pattern.halves or (pattern,):
        if half.band is None and isinstance(half.block, BowBlock):
            whose = f", {half.half} half," if half.half else ","
            head = f"The block of {pattern.title.wearer}{whose} before any garment is drawn on it"
            block = "\n".join(guide_sections(half.block, half.body, half.half or "left"))
            parts.append(f'<section class="panel"><h2>{escape(head)}</h2><p>{escape(NO_NEED)}</p>{block}</section>')
    return page(name, STYLE + _STYLE, parts)


def _panel(hand: HandPanel, sheet: HandSheet) -> str:
    """One panel: its plan, its steps, its tables."""
    plan = inline_svg(hand_plan(hand, PLAN_WIDE_MM, PLAN_HIGH_MM), f"plan-{hand.panel.label}", f"plan of {sheet.title}")
    tables = "\n".join(_table(one) for one in (sheet.points, sheet.lines, *sheet.tables))
    return (
        f'<section class="panel" id="piece-{hand.panel.label}"><h2>{escape(sheet.title)}</h2><p>{escape(sheet.cut)}</p>'
        f'<div class="hand"><figure>{plan}</figure>{_list(sheet.steps)}</div>\n<div class="tables">{tables}</div></section>'
    )


def _list(texts: Iterable[str]) -> str:
    return f"<ol>{''.join(f'<li>{escape(text)}</li>' for text in texts)}</ol>"


def _table(one: Table) -> str:
    """A table with its heading; columns of numbers stand to the right."""

    def cells(row: Sequence[str], tag: str) -> str:
        marks = [' class="n"' if at in one.numbers else "" for at in range(len(row))]
        return "".join(f"<{tag}{mark}>{escape(text)}</{tag}>" for mark, text in zip(marks, row, strict=True))

    head, rows = cells(one.head, "th"), "".join(f"<tr>{cells(row, 'td')}</tr>" for row in one.rows)
    says = f'<p class="faint">{escape(one.says)}</p>' if one.says else ""
    return (
        f"<section><h3>{escape(one.title)}</h3>{says}"
        f'<div class="wide"><table class="own"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div></section>'
    )
