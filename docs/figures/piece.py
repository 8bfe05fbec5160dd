"""The parts of a piece, named: the words of these pages on one panel."""

import numpy as np
from house import BLUE, CARD, CLOTH, INK, RED, SMALL, SOFT, Board, View, even
from stages import pattern, recipe, stage

from fanblock.pattern.model import HEM
from fanblock.sheet.upright import upright


def draw() -> Board:
    """Draw the back panel of the trial stays with every part named."""
    board = Board(760.0, 560.0, "One piece with its parts named: edges, lines and marks.")
    board.card(20.0, 20.0, 720.0, 520.0)
    more = "allowances: {seam: 15 mm, lacing: 30 mm}"
    panel = upright(next(one for one in pattern(stage(recipe(more, before="cut"), "cut")).panels if one.name == "back"))
    outer = (
        np.vstack((panel.cut_line.points, panel.cut_line.points[:1])) if panel.cut_line is not None else panel.loop()
    )
    view = View.fitting(outer, 250.0, 50.0, 260.0, 466.0)
    board.line(view(even(outer, 260)), INK, 1.8, fill=CARD)
    runs = [even(edge.curve.points, 70 if edge.kind == HEM else 30) for edge in panel.edges]
    board.line(view(np.vstack(runs)), INK, 1.2, (7.0, 3.0), fill=CLOTH, closed=True)
    for name in ("waist", "bust"):
        for part in panel.levels[name]:
            board.line(view(part.points), BLUE, 1.2, (5.0, 3.0))
    for slit in panel.slits:
        board.line(view([slit.start, slit.end]), INK, 1.8)
    board.arrow(*(view(end) for end in panel.grain or ()), color=SOFT, both=True)
    for notch in panel.notches:
        along = np.array([notch.inward[1], -notch.inward[0]])
        for number in range(notch.count):
            start = notch.point + 4.0 * (number - 0.5 * (notch.count - 1)) * along
            board.line(view([start, start + 9.0 * notch.inward]), RED, 3.0 if notch.kind == "waist" else 1.8)
    seam = next(edge for edge in panel.edges if edge.letter)
    for share in (0.1, 0.84):
        spot = seam.curve.at(share * seam.curve.length_mm) + np.array([14.0, 0.0])
        board.words(seam.letter, *view(spot), 17.0, bold=True)
    _names(board, panel, view, seam)
    return board


def _names(board: Board, panel: object, view: View, seam: object) -> None:
    edges = {edge.name: edge.curve for edge in panel.edges}  # type: ignore[attr-defined]
    hem = [name for name in edges if name.startswith("hem")]

    def on(name: str, share: float) -> tuple[float, float]:
        curve = edges[name]
        x, y = view(curve.at(share * curve.length_mm))
        return float(x), float(y)

    notch = {one.kind: view(one.point) for one in panel.notches}  # type: ignore[attr-defined]
    slit = panel.slits[0]  # type: ignore[attr-defined]
    grain = panel.grain  # type: ignore[attr-defined]
    cut = panel.cut_line.points  # type: ignore[attr-defined]
    outermost = view(cut[int(np.argmax(cut[:, 0]))])
    left = (
        ("top edge: bound, no allowance", on("top edge", 0.72)),
        ("seam allowance", tuple(view(seam.curve.at(0.25 * seam.curve.length_mm) - np.array([9.0, 0.0])))),  # type: ignore[attr-defined]
        ("seam letter, at both ends", tuple(view(seam.curve.at(0.84 * seam.curve.length_mm) + np.array([12.0, 3.0])))),  # type: ignore[attr-defined]
        ("notch: its own number of ticks", tuple(notch["seam"])),
        ("waist bar", tuple(notch["waist"])),
        ("side of a tab: open, bound", on(f"{seam.name} below waist", 0.5)),  # type: ignore[attr-defined]
        ("corner of a tab, rounded", on(hem[0], 0.12)),
    )
    right = (
        ("cut line", (float(outermost[0]), float(outermost[1]) + 22.0)),
        ("lacing edge (stitch line)", on("lacing edge", 0.78)),
        ("bust level", tuple(view(panel.levels["bust"][0].at(0.8 * panel.levels["bust"][0].length_mm)))),  # type: ignore[attr-defined]
        ("grain: along the thread", tuple(view(0.45 * np.asarray(grain[0]) + 0.55 * np.asarray(grain[1])))),
        ("waist level", tuple(view(panel.levels["waist"][0].at(0.75 * panel.levels["waist"][0].length_mm)))),  # type: ignore[attr-defined]
        ("slit, reinforced at its top", tuple(view(0.5 * (slit.start + slit.end)))),
        ("hem", on(hem[-1], 0.5)),
    )
    for names, x, anchor in ((left, 226.0, "end"), (right, 540.0, "start")):
        ordered = sorted(names, key=lambda one: one[1][1])
        y = 0.0
        for text, (to_x, to_y) in ordered:
            y = max(y + 30.0, to_y)
            board.line([(x + (6.0 if anchor == "end" else -6.0), y - 4.0), (to_x, to_y)], RED, 0.9)
            board.dot((to_x, to_y), RED, 2.4)
            board.words(text, x, y, SMALL, anchor=anchor)
