"""A panel drawn by hand: two lines first, points measured from them, a curve from its chord."""

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board, View, even
from stages import LEFT, RIGHT, TOP, footnote, pair, pattern, recipe, stage

from fanblock.sheet.handguide import hand_panel
from fanblock.sheet.handguide_curves import IN_CENTIMETRES
from fanblock.sheet.handguide_tables import say


def draw() -> Board:
    """Draw the points of a side panel, and then its lines with the offsets of its curves."""
    board, _ = pair("A panel drawn by its points and by offsets from chords.", "points first", "then the lines")
    panels = pattern(stage(recipe(), "tabs")).panels
    hand = hand_panel(panels[1], IN_CENTIMETRES)
    loop = hand.panel.loop()
    view = View.fitting(loop, LEFT + 60.0, TOP + 44.0, 232.0, 236.0)
    second = view.moved(RIGHT - LEFT)
    corners = sorted({line.first for line in hand.outline} | {line.last for line in hand.outline})
    low, high = loop[:, 1].min() - 12.0, loop[:, 1].max() + 12.0
    for put in (view, second):
        board.line(put([[0.0, low], [0.0, high]]), BLUE, 1.6)
        board.line(put([[-18.0, 0.0], [loop[:, 0].max() + 18.0, 0.0]]), BLUE, 1.6)
    told = hand.point(hand.outline[-1].first)
    x, y = told.x_mm, told.y_mm
    board.arrow(view([0.0, 0.0]), view([0.0, y]), RED)
    board.arrow(view([0.0, y]), view([x - 4.0, y]), RED)
    for number in corners:
        point = hand.point(number)
        board.dot(view(point.place), INK)
        across, down = view(point.place)
        board.words(str(number), across + 7.0, down + (15.0 if number == 1 else -6.0), SMALL, bold=True, halo=True)
    left, top = view([0.0, y])
    board.words(f"{say(y, IN_CENTIMETRES)} up", left + 5.0, top + 74.0, SMALL, color=RED, halo=True)
    board.words(f"{say(x, IN_CENTIMETRES)} right", left + 70.0, top + 18.0, SMALL, color=RED, halo=True)
    right = float(view([loop[:, 0].max(), 0.0])[0])
    board.words("base line", right - 34.0, float(view([0.0, 0.0])[1]) + 16.0, SMALL, color=BLUE, halo=True)
    board.words("upright", left - 8.0, top + 40.0, SMALL, color=BLUE, angle=-90.0, anchor="end")
    board.line(second(even(hand.panel.loop(), 200)), CLOTH, 0.0, fill=CLOTH, closed=True)
    for line in hand.outline:
        start, end = (hand.point(number).place for number in (line.first, line.last))
        board.line(second([start, end]), SOFT, 0.8)
        way = (end - start) / max(float(line.chord_mm), 1.0)
        for offset in line.offsets:
            foot = start + offset.along_mm * way
            board.line(second([foot, foot + offset.out_mm * np.array([way[1], -way[0]])]), RED, 1.4)
        board.line(second(even(hand.drawn(line), 40)), INK, 2.0)
    for number in corners:
        board.dot(second(hand.point(number).place), INK)
    footnote(
        board,
        "The upright runs as the grain; the base line is the waist at the panel's front side. A point is so far up or down",
        "and so far right. A curve is told by its chord and by how far it stands off it, square, at a few places.",
    )
    return board
