"""Where each measure is taken: a figure from the front and from the back, with the two tied tapes."""

from house import BLUE, CARD, FAINT, INK, RED, SMALL, SOFT, Board

from fanblock.geometry.bezier import sample
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.figure import figures
from fanblock.sheet.measureform import FIRST

WIDE, HIGH = 760.0, 500.0
LOOKS = {
    "grain": (SOFT, 1.4, ()),
    "cut": (RED, 3.4, ()),
    "guide": (FAINT, 1.2, ()),
    "stitch": (RED, 1.2, (5.0, 4.0)),
}
LISTS = (
    ("The two tied tapes", RED, (1, 2)),
    ("Taut from tape to tape", BLUE, (3, 4, 5, 6)),
    ("The others", INK, tuple(range(7, len(FIRST) + 1))),
)


def draw() -> Board:
    """Draw the figures and the key to the numbers."""
    board = Board(WIDE, HIGH, "A figure from the front and the back with two tied tapes and numbered measures.")
    board.card(20.0, 20.0, 500.0, 460.0)
    numbers = {name: number for number, name in enumerate(FIRST, start=1)}
    group, _ = figures(0.0, 0.0, 400.0, numbers)
    for item in group.items:
        if isinstance(item, Stroke):
            points = [(_x(x), _y(y)) for x, y in sample(item.beziers, 4.0)]
            if item.name == "taut tape":
                board.arrow(points[0], points[-1], BLUE, 1.8, both=True)
            elif item.pen in LOOKS:
                color, width, dash = LOOKS[item.pen]
                board.line(points, color, width, dash)
        elif item.text.isdigit():
            board.ring((_x(item.x), _y(item.y + 1.3)), 10.0, INK, CARD, 1.0)
            board.words(item.text, _x(item.x), _y(item.y + 1.3) + 4.6, SMALL, anchor="middle", bold=True)
        else:
            board.words(item.text, _x(item.x), 466.0, SMALL, anchor="middle", color=SOFT)
    y = 44.0
    for head, color, some in LISTS:
        board.words(head, 540.0, y, SMALL, bold=True, color=color)
        for number in some:
            y += 18.0
            board.words(f"{number}  {FIRST[number - 1]}", 540.0, y, SMALL)
        y += 30.0
    board.lines(
        ("4 is 3 once more, the bust lifted.", "8 runs along the bust tape, across", "the front."),
        540.0, y + 4.0, 12.5, color=SOFT,
    )  # fmt: skip
    return board


def _x(x: float) -> float:
    return 8.0 + 0.955 * x


def _y(y: float) -> float:
    return 440.0 - y
