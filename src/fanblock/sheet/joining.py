"""What is told before pages are joined, and a title that no joint may cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fanblock.sheet.clear import box_place, held
from fanblock.sheet.drawing import Drawing, Group, Stroke
from fanblock.sheet.ink import Box, extent, ink_points
from fanblock.sheet.longline import LINES, crosses
from fanblock.sheet.pagemap import page_map
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import paragraph, paragraphs, text_area
from fanblock.sheet.squares import square_at, square_box
from fanblock.sheet.tiles import Joint, Tile, TilePlan, plan_tiles
from fanblock.sheet.upright import moved_group

TITLE_NAME = "title"
"""Name of the group that may be moved about as a whole."""

JOIN = (
    "Print at 100 %, never fitted to the page. On every page measure the square (100 mm) or the bars beside it (4 in), "
    "both ways. Pages to read, and pages too full for a square, have bars alone: one pair level, one upright.",
    "Cut only the right and the lower edge of a page and lay it over the next, along a long ruler.",
)
CROSSED = "Slanting lines on the map: that field is empty and has no page."


def has_gaps(plan: TilePlan) -> bool:
    """Tell whether some fields of the map have no page."""
    return len(plan.tiles) < plan.rows * plan.columns


def hanging(plan: TilePlan) -> tuple[str, ...]:
    """Return in which order pages are joined: which lie side by side, and which page hangs from which."""
    runs = _runs(plan)
    beside = [_names(run) for run in runs if len(run) > 1]
    said = [f"First join side by side: {'; '.join(beside)}."] if beside else []
    hung = []
    for run in runs:
        under = [one for one in run if (one.row - 1, one.column) in plan.by_place]
        above = [plan.by_place[one.row - 1, one.column] for one in under]
        if above:
            hung.append(f"{_names(under)} {'hang' if len(under) > 1 else 'hangs'} from {_names(above)}")
    if hung:
        said.append(f"{'Then' if beside else 'Join'} one under another: {', '.join(hung)}.")
    return (" ".join(said),) if said else ()


def _runs(plan: TilePlan) -> list[list[Tile]]:
    """The pages that lie side by side without a gap."""
    runs: list[list[Tile]] = []
    for tile in plan.tiles:
        last = runs[-1][-1] if runs else None
        if last is not None and (last.row, last.column + 1) == (tile.row, tile.column):
            runs[-1].append(tile)
        else:
            runs.append([tile])
    return runs


def _names(run: Sequence[Tile]) -> str:
    """The names of some pages of one row: the first and the last of three and more that leave no gap."""
    if len(run) > 2 and run[-1].column - run[0].column == len(run) - 1:
        return f"{run[0].name} to {run[-1].name}"
    return " and ".join(tile.name for tile in run) if len(run) < 3 else ", ".join(tile.name for tile in run)


NAMED_JOINS = 12
"""Up to how many joins are named that lines run across: a longer list is not read."""


def proving(drawing: Drawing, plan: TilePlan) -> tuple[str, ...]:
    """Return that the lines across pages are to be measured, which joins they prove, if few, and that some have none."""
    found = [item for group in drawing.groups if group.name in LINES for item in group.items]
    lines = [item for item in found if isinstance(item, Stroke) and item.name.endswith(" mm line")]
    proved = [
        joint for joint in plan.joints if any(crosses(item.beziers[0, 0], item.beziers[-1, 3], joint) for item in lines)
    ]
    if not proved:
        return ()
    where = f"the joins {', '.join(_joined(joint) for joint in proved)}" if len(proved) <= NAMED_JOINS else "the joins"
    rest = " No line crosses the other joins: lay a ruler along their marks." if len(proved) < len(plan.joints) else ""
    return (
        f"Then measure the long lines across {where}, for errors of taping add up: each says how long it is.{rest}",
    )


def _joined(joint: Joint) -> str:
    return f"{joint.over.name}-{joint.under.name}"


def joining_page(drawing: Drawing, plan: TilePlan, words: Sequence[str]) -> Drawing:
    """Return a first page for a drawing over the pages of ``plan``: test square, how to join, the page map."""
    paper = plan.paper
    area = text_area(paper)
    room = square_box()
    items, top = paragraph(
        words[0] if words else drawing.title, area.left, area.top - 2.0, area.width_mm, 7.0, bold=True
    )
    if words[1:]:
        more, top = paragraph(" · ".join(words[1:]), area.left, top, area.width_mm, 4.6)
        items += more
    low = top - room.height_mm - 1.0
    left = area.left + room.width_mm + 5.0
    more, below = paragraph("Measure the square now.", left, top - 1.0, area.right - left, 4.2, bold=True)
    items += more
    more, below = paragraphs(
        (*JOIN, *hanging(plan), *proving(drawing, plan)), left, below - 1.0, area.right - left, 3.2
    )
    items += more
    count = "1 page" if len(plan.tiles) == 1 else f"{len(plan.tiles)} pages to join"
    more, map_top = paragraph(f"{count}:", area.left, low - 4.0, area.width_mm, 4.2, bold=True)
    items += more
    if has_gaps(plan):
        more, map_top = paragraph(CROSSED, area.left, map_top, area.width_mm, 3.2)
        items += more
    mapped = page_map(plan, drawing, Box(area.left, area.bottom, area.right, map_top - 1.0))
    square = square_at(area.left - room.left, low - room.bottom)
    return Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", tuple(items)), square, mapped))


def planned(drawing: Drawing, paper: Paper) -> tuple[Drawing, TilePlan]:
    """Return the drawing and the plan of its pages; a title makes no page of its own where the others have room for it.

    Raises :class:`fanblock.problems.ExportError` as :func:`fanblock.sheet.tiles.plan_tiles` does.
    """
    others = tuple(group for group in drawing.groups if group.name != TITLE_NAME)
    if others and len(others) < len(drawing.groups):
        plan = plan_tiles(replace(drawing, groups=others), paper)
        moved = title_whole(drawing, plan)
        box = extent(ink_points([group for group in moved.groups if group.name == TITLE_NAME]))
        if box is not None and any(_holds(tile.field, box) for tile in plan.tiles):
            return moved, plan
    plan = plan_tiles(drawing, paper)
    return title_whole(drawing, plan), plan


def title_whole(drawing: Drawing, plan: TilePlan) -> Drawing:
    """Return the drawing with its title moved, if need be and there is room, so that it stands on one page whole."""
    titles = [group for group in drawing.groups if group.name == TITLE_NAME]
    box = extent(ink_points(titles))
    if box is None or any(_holds(tile.field, box) for tile in plan.tiles):
        return drawing
    others = tuple(group for group in drawing.groups if group.name != TITLE_NAME)
    carried = held(others)
    near = 0.5 * (box.left + box.right), 0.5 * (box.bottom + box.top)
    found: list[tuple[float, float, float]] = []
    for tile in plan.tiles:
        place = box_place(carried.within(tile.field), tile.field.grown(-3.0), box.width_mm, box.height_mm, near)
        if place is not None:
            x, y = place[0] - box.left, place[1] - box.bottom
            found.append((abs(x) + abs(y), x, y))
    if not found:
        return drawing
    _, x, y = min(found)
    return replace(drawing, groups=(*others, *(moved_group(group, (x, y)) for group in titles)))


def _holds(field: Box, box: Box) -> bool:
    return field.left < box.left and box.right < field.right and field.bottom < box.bottom and box.top < field.top
