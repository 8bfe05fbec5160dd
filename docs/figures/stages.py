"""The trial stays of a new recipe, stopped at any step, and how what is there by then is drawn.

What the step in question has done is drawn in madder red; everything else keeps quiet.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

import numpy as np
from house import BLUE, BLUSH, CLOTH, CLOTH_TOO, FAINT, INK, RED, SMALL, SOFT, Board, View, even

from fanblock.block.from_body import block_of
from fanblock.block.ruled import Block
from fanblock.draft.model import AROUND, HEIGHT, Draft, Line
from fanblock.draft.separate import outline
from fanblock.draft.takes import Take, takes_of
from fanblock.draft.work import Work
from fanblock.finish.finish import finished
from fanblock.geometry.meet import crossings
from fanblock.pattern.model import HEM, Panel, Pattern, Title
from fanblock.recipe.dials import with_dials
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.starter import starter_recipe
from fanblock.steps.table import BY_NAME
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.library import open_wearer

WEARER = "ferrywoman"
WIDE, HIGH = 760.0, 372.0
CARD = (352.0, 300.0)
LEFT, RIGHT, TOP = 20.0, 388.0, 20.0
LOW_AT, HIGH_AT = -0.52, 1.8
"""Heights between which the block is shown."""


@cache
def body() -> Body:
    """The body of all pictures."""
    return body_of(open_wearer(WEARER))


def recipe(
    more: str = "", before: str = "separate", settings: dict[str, str] | None = None, drop: str = "", unused: str = ""
) -> Recipe:
    """The trial recipe: with one ``more`` step before a step, without the line of one, its dials turned.

    ``unused`` names a dial that goes with the step that was dropped.
    """
    lines = []
    for line in starter_recipe("Trial stays").splitlines():
        if more and line.startswith(f"  - {before}:"):
            lines.append(f"  - {more}")
        gone = (drop and line.startswith(f"  - {drop}:")) or (unused and line.startswith(f"  {unused}:"))
        if not gone:
            lines.append(line)
    return with_dials(read_recipe("\n".join(lines), "trial.yaml"), settings)


def stage(of: Recipe, upto: str, *, done: bool = True) -> Any:
    """The draft, or the panels, after the step ``upto``; before it when it is not ``done``."""
    state: Any = Draft(body(), block_of(body()))
    for step in of.steps:
        if step.kind == upto and not done:
            break
        state = BY_NAME[step.kind].run(state, step.options)
        if step.kind == upto and not any(later.kind == upto for later in of.steps[step.number :]):
            break
    return state


def pattern(work: Work) -> Pattern:
    """The panels finished, with nothing checked."""
    title = Title("Trial stays", WEARER, "trial", "stays", "", 1, "TRYS")
    return finished(work, title, (), ())


def pair(says: str, first: str = "before", second: str = "after") -> tuple[Board, View]:
    """A board with two cards, and the view of the block in the first; the second lies ``RIGHT - LEFT`` further."""
    board = Board(WIDE, HIGH, says)
    board.card(LEFT, TOP, *CARD, first)
    board.card(RIGHT, TOP, *CARD, second, RED)
    return board, block_view(block_of(body()), LEFT, TOP, *CARD)


def block_view(block: Block, x: float, y: float, width: float, height: float) -> View:
    """The view that fits the block's whole shown height into a card."""
    u = np.linspace(0.0, 1.0, 30)
    points = np.vstack([block.at(u, v) for v in (LOW_AT, 0.0, 1.0, HIGH_AT)])
    return View.fitting(points, x + 16.0, y + 30.0, width - 32.0, height - 42.0)


def footnote(board: Board, *texts: str) -> None:
    """Write what the pictures show under the cards."""
    board.lines(texts, LEFT + 2.0, TOP + CARD[1] + 22.0, SMALL, color=SOFT)


def draw_block(board: Board, view: View, block: Block, *, named: bool = True) -> None:
    """Draw the block faintly: its rulings, its waist and bust levels."""
    for around in np.linspace(0.0, 1.0, 11):
        heights = np.array([LOW_AT, HIGH_AT])
        board.line(view(block.at(np.full(2, around), heights)), FAINT, 0.7)
    u = np.linspace(0.0, 1.0, 40)
    for name, height in (("waist", 0.0), ("bust", 1.0)):
        board.line(view(block.at(u, height)), BLUE, 1.0, (5.0, 3.0))
        if named:
            x, y = view(block.at(1.0, height))
            board.words(name, x + 6.0, y + 4.0, 11.5, color=BLUE)
    board.line(view(block.at(np.zeros(2), np.array([LOW_AT, HIGH_AT]))), SOFT, 1.0)
    board.line(view(block.at(np.ones(2), np.array([LOW_AT, HIGH_AT]))), SOFT, 1.0)


def on_block(block: Block, points: Any) -> Any:
    """Places in around and height, on the sheet."""
    array = np.asarray(points)
    return block.at(array[:, AROUND], array[:, HEIGHT])


def draw_draft(board: Board, view: View, draft: Draft, new: Iterable[str] = (), takes: bool = False) -> None:
    """Draw a draft: block, cloth if it is bounded, lines, gap and seams; what is ``new`` in red."""
    fresh = set(new)
    block = draft.block
    if {line.name for line in draft.lines} >= {"top edge", "hem"}:
        rim = [even(on_block(block, side.points), 50) for side in outline(draft)]
        board.area(view(np.vstack(rim)), CLOTH)
    draw_block(board, view, block)
    for gap in draft.gaps:
        points = [point for point in gap.line if LOW_AT <= point[HEIGHT] <= HIGH_AT]
        color = RED if "lacing gap" in fresh else INK
        board.line(even(view(on_block(block, points)), 20), color, 2.0 if "lacing gap" in fresh else 1.2)
    for line in draft.lines:
        fresh_line = line.name in fresh
        within = (line.points[:, AROUND] >= 0.0) & (line.points[:, AROUND] <= last_around(draft, line))
        places = line.points[within]
        beyond = line.points[(line.points[:, AROUND] >= last_around(draft, line)) & (line.points[:, AROUND] <= 1.0)]
        if fresh_line and len(beyond) > 1:
            board.line(even(view(on_block(block, beyond)), 8), RED, 1.2, (3.0, 3.0))
        board.line(even(view(on_block(block, places)), 60), RED if fresh_line else INK, 2.0 if fresh_line else 1.2)
    for take in takes_of(draft):
        draw_seam(board, view, draft, take, fresh, takes)
    for level in draft.level_seams:
        arounds = np.linspace(level.start, min(level.end, last_around(draft, draft.chain("hem")[0])), 60)
        points = view(block.at(arounds, level.height_of(arounds)))
        board.line(points, RED if level.name in fresh else INK, 2.0 if level.name in fresh else 1.2)


def last_around(draft: Draft, line: Line) -> float:
    """How far around a line is shown: to the lacing edge if there is one at the back."""
    for gap in draft.gaps:
        if gap.at == "center back":
            return float(np.interp(_height(line), gap.line[:, HEIGHT], gap.line[:, AROUND]))
    return 1.0


def _height(line: Line) -> float:
    """The height of a line a little before the centre back."""
    return float(np.interp(0.95, line.points[:, AROUND], line.points[:, HEIGHT]))


def sides(draft: Draft, take: Take, count: int = 60) -> tuple[Any, Any, Any]:
    """A seam's middle, its front edge and its back edge on the sheet, from the lower end up."""
    heights = np.linspace(take.seam.low, take.seam.top, count)
    middle = take.seam.around_of(heights)
    half = 0.5 * take(heights)
    block = draft.block
    edges = (block.at(block.along(middle, heights, way * half), heights) for way in (0.0, -1.0, 1.0))
    first, second, third = edges
    return first, second, third


def draw_seam(board: Board, view: View, draft: Draft, take: Take, fresh: set[str], takes: bool) -> None:
    """Draw a seam as one line, or as two with what lies between them filled."""
    middle, front, back = sides(draft, take)
    new = take.seam.name in fresh
    color = RED if new else INK
    if not takes:
        board.line(view(middle), color, 2.0 if new else 1.2)
        return
    board.area(view(np.vstack((front, back[::-1]))), RED if new else CLOTH_TOO, 0.45 if new else 1.0)
    for edge in (front, back):
        board.line(view(edge), color, 1.6 if new else 1.1)


def draw_panel(board: Board, view: View, panel: Panel, fill: str = CLOTH, color: str = INK, width: float = 1.3) -> None:
    """Draw one panel: its stitch line, its slits and its waist."""
    runs = [even(edge.curve.points, 70 if edge.kind == HEM else 30) for edge in panel.edges]
    board.line(view(np.vstack(runs)), color, width, fill=fill, closed=True)
    for part in panel.levels.get("waist", ()):
        board.line(view(even(part.points, 12)), BLUE, 1.0, (5.0, 3.0))
    for slit in panel.slits:
        board.line(view(np.array([slit.start, slit.end])), color, width)


def middle_of(panel: Panel) -> Any:
    """A place for words in the middle of a panel, above the waist."""
    loop = panel.loop()
    waist = float(panel.levels["waist"][0].points[:, 1].mean())
    height = waist + 0.5 * (float(loop[:, 1].max()) - waist)
    ring = np.vstack((loop, loop[:1]))
    x = ring[crossings(ring, 1, height).astype(int), 0]
    return np.array([0.5 * (float(x.min()) + float(x.max())), height])


def apart(panels: Iterable[Panel], by_mm: float = 26.0) -> list[Panel]:
    """The panels pulled apart sideways, as they would lie on a table."""
    from fanblock.sheet.upright import moved_panel

    return [moved_panel(panel, np.eye(2), np.array([by_mm * number, 0.0])) for number, panel in enumerate(panels)]


def panel_view(panels: Iterable[Panel], x: float, y: float, outer: bool = False) -> View:
    """The view that fits panels into a card."""
    loops = [panel.cut_line.points if outer and panel.cut_line is not None else panel.loop() for panel in panels]
    return View.fitting(np.vstack(loops), x + 16.0, y + 32.0, CARD[0] - 32.0, CARD[1] - 46.0)


def stiffened(*steps: str) -> list[Panel]:
    """The finished panels of the trial stays with more steps before `grain`, pulled apart."""
    of = recipe("\n  - ".join(steps), "grain") if steps else recipe()
    return apart(pattern(stage(of, of.steps[-1].kind)).panels, 40.0)


def draw_channels(board: Board, view: View, panel: Panel, color: str = RED, numbered: bool = True) -> None:
    """Draw the rows of a panel's channels, and, unless they crowd, their numbers."""
    for channel in panel.channels:
        for row in channel.rows:
            board.line(
                view(even(row.points, 60) if channel.kind == "shaping" else row.points),
                color,
                1.0,
                fill=BLUSH if channel.kind == "bone" else "none",
                faint=0.5,
            )
        if channel.number and numbered:
            x, y = view(channel.line.start)
            board.words(str(channel.number), x, y - 3.0, 9.0, anchor="middle", color=color)


def draw_eyelets(board: Board, view: View, panel: Panel) -> None:
    """Draw a panel's eyelets: rings for the left half, crosses for the right."""
    for eyelet in panel.eyelets:
        x, y = view(eyelet.point)
        if eyelet.half in ("left", "both"):
            board.ring((x, y), 2.8, RED)
        if eyelet.half in ("right", "both"):
            for way in (-1.0, 1.0):
                board.line([(x - 2.4, y - 2.4 * way), (x + 2.4, y + 2.4 * way)], RED, 1.2)
