"""A plain line figure, front and back, with the two tied tapes and where each measure is taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.sheet.drawing import Group, Stroke, Words

Put = Callable[..., Points]
"""Takes places on the body, and optionally -1.0 to mirror them, to places on the page."""

# One side of the figure in centimetres of a body: x from the middle line, y from the floor.
_TRUNK = (
    (5.2, 146.0),
    (5.6, 142.5),
    (9.5, 140.2),
    (16.4, 138.0),
    (20.2, 134.5),
    (22.2, 127.0),
    (23.6, 114.0),
    (25.4, 101.0),
    (27.4, 88.0),
    (28.6, 79.0),
    (27.0, 75.5),
    (25.2, 79.0),
    (23.4, 90.0),
    (21.0, 104.0),
    (19.0, 116.0),
    (16.8, 127.0),
)
_FLANK = (
    (16.8, 127.0),
    (16.2, 123.0),
    (16.4, 118.5),
    (15.2, 112.0),
    (13.0, 104.5),
    (12.5, 101.0),
    (14.0, 95.5),
    (16.8, 88.0),
    (18.2, 81.5),
    (18.2, 74.0),
    (17.2, 64.0),
)
_LEG = ((1.2, 64.0), (0.9, 69.0), (0.0, 73.0))
BUST_Y, WAIST_Y, HIP_Y, NAPE_Y = 118.0, 101.0, 82.0, 142.5
LOW_Y, HIGH_Y = 64.0, 169.0


def figures(left: float, bottom: float, height_mm: float, numbers: dict[str, int]) -> tuple[Group, float]:
    """Return the two figures side by side and how wide they are; ``numbers`` puts each measure's number at
    its place.
    """
    scale = height_mm / (HIGH_Y - LOW_Y)
    width = 72.0 * scale
    items: list[Stroke | Words] = []
    for index, back in enumerate((False, True)):
        origin = np.array([left + (0.5 + index) * width, bottom - scale * LOW_Y])
        items.extend(_figure(origin, scale, back, numbers))
        words = "back" if back else "front"
        items.append(Words(words, float(origin[0]), bottom - 4.0, 3.2, "middle"))
    return Group("figure", tuple(items)), 2.0 * width


def _figure(origin: Points, scale: float, back: bool, numbers: dict[str, int]) -> Iterator[Stroke | Words]:
    def put(points: Sequence[tuple[float, float]], mirror: float = 1.0) -> Points:
        return frozen(origin + scale * np.array(points) * (mirror, 1.0))

    for mirror in (1.0, -1.0):
        for run in (_TRUNK, _FLANK, _LEG):
            yield Stroke(smooth(put(run, mirror)), "grain", "figure")
    turn = np.linspace(0.0, 2.0 * np.pi, 49)
    head = [(7.2 * float(np.sin(t)), 156.0 - 10.8 * float(np.cos(t))) for t in turn]
    yield Stroke(polyline(put(head)), "grain", "head")
    for name, y, half in (("bust tape", BUST_Y, 16.4), ("waist tape", WAIST_Y, 12.5)):
        sag = -1.2 if not back else 0.8
        yield Stroke(smooth(put([(-half, y), (0.0, y + sag), (half, y)])), "cut", name)
    if back:
        yield from _back(put, numbers)
    else:
        yield from _front(put, numbers)


def _front(place: Put, numbers: dict[str, int]) -> Iterator[Stroke | Words]:
    for mirror in (-1.0, 1.0):
        bow = [(2.0, 115.0), (4.5, 111.6), (8.5, 111.2), (12.5, 114.5)]
        yield Stroke(smooth(place(bow, mirror)), "guide", "breast")
    yield from _lines(place, _FRONT_TAPES, _FRONT_GIRTHS, numbers)
    if "front length" in numbers:
        run = [(5.4, 142.6), (5.8, 131.0), (5.6, 117.4), (4.8, WAIST_Y - 0.8)]
        yield Stroke(smooth(place(run)), "stitch", "front length")
    if "armhole" in numbers:
        turn = np.linspace(0.0, 2.0 * np.pi, 33)
        ring = [(16.6 + 2.0 * float(np.cos(t)), 132.0 + 6.6 * float(np.sin(t))) for t in turn]
        yield Stroke(polyline(place(ring)), "stitch", "armhole")
    yield from _numbers(place, _FRONT_SPOTS, numbers)


def _back(place: Put, numbers: dict[str, int]) -> Iterator[Stroke | Words]:
    yield from _lines(place, _BACK_TAPES, _BACK_GIRTHS, numbers)
    if "arm length" in numbers:
        run = [(17.6, 139.0), (24.0, 127.0), (26.4, 106.0), (29.6, 80.0)]
        yield Stroke(smooth(place(run)), "stitch", "arm length")
    if "shoulder to elbow" in numbers:
        yield from _double(place([(19.2, 137.6), (22.6, 127.0), (24.6, 109.0)]))
    for mirror in (-1.0, 1.0):
        blade = [(10.5, 128.5), (8.0, 125.5), (8.6, 121.5)]
        yield Stroke(smooth(place(blade, mirror)), "guide", "shoulder blade")
    yield from _numbers(place, _BACK_SPOTS, numbers)


_FRONT_TAPES = (
    ("bust to waist", ((1.0, BUST_Y - 1.2), (1.0, WAIST_Y - 1.2))),
    ("raised", ((-2.0, BUST_Y + 3.2), (-2.0, WAIST_Y - 1.0))),
    ("bust to waist at side", ((14.4, BUST_Y - 0.4), (12.4, WAIST_Y))),
    ("underarm", ((-17.2, 126.0), (-13.4, WAIST_Y))),
    ("underbust height", ((7.4, 110.0), (7.4, WAIST_Y - 0.6))),
    ("upper chest height", ((-5.2, 124.8), (-5.2, WAIST_Y - 0.9))),
    ("raised waist height", ((-11.4, 106.3), (-11.4, WAIST_Y - 0.3))),
    ("front arc", ((-16.2, BUST_Y + 1.8), (-8.0, BUST_Y + 1.1), (0.0, BUST_Y + 0.9), (8.0, BUST_Y + 1.1),
                   (16.2, BUST_Y + 1.8))),
    ("shoulder", ((7.0, 143.6), (15.8, 140.4))),
)  # fmt: skip
"""Tapes laid from one place to another: name, and the places."""

_BACK_TAPES = (
    ("bust to waist at back", ((0.8, BUST_Y + 0.8), (0.8, WAIST_Y + 0.8))),
    ("back length", ((-2.2, NAPE_Y), (-2.2, WAIST_Y + 0.6))),
    ("hip depth", ((14.2, WAIST_Y - 1.5), (19.4, HIP_Y))),
)
_BACK_GIRTHS = (("hip", HIP_Y, -18.2, 18.2, 0.8), ("across back", 130.0, -15.4, 15.4, 0.0))
_FRONT_GIRTHS = (
    ("underbust", 111.5, -15.1, 15.1, -1.3),
    ("hip", HIP_Y, -18.2, 18.2, -1.4),
    ("belly", 91.0, -15.7, 15.7, -1.3),
    ("upper chest", 125.6, -16.6, 16.6, -0.9),
    ("raised waist", 106.8, -13.6, 13.6, -1.2),
    ("across front", 131.0, -15.0, 15.0, 0.0),
    ("neck", 144.6, -5.3, 5.3, -1.6),
    ("upper arm", 122.0, 16.4, 22.9, -0.3),
    ("elbow", 108.0, 20.3, 24.4, -0.2),
    ("wrist", 85.5, 24.0, 27.8, -0.2),
)
"""Lines that go round: name, height, from where to where across, and how far their middle sags."""

_FRONT_SPOTS = {
    "bust": (-11.0, 114.6),
    "waist": (-7.5, 97.2),
    "bust to waist": (3.0, 104.8),
    "raised": (-4.0, 104.8),
    "bust to waist at side": (16.6, 107.0),
    "underarm": (-18.2, 111.0),
    "front arc": (10.6, 121.4),
    "underbust": (-8.2, 108.7),
    "underbust height": (9.4, 104.8),
    "upper chest": (-11.6, 126.8),
    "upper chest height": (-7.4, 121.4),
    "raised waist": (16.4, 102.8),
    "raised waist height": (-16.7, 101.4),
    "hip": (8.0, 83.2),
    "belly": (-7.5, 91.4),
    "front length": (8.2, 127.6),
    "across front": (-7.6, 132.6),
    "neck": (-8.2, 145.6),
    "shoulder": (12.6, 144.2),
    "armhole": (22.6, 137.6),
    "upper arm": (25.6, 122.2),
    "elbow": (27.0, 108.2),
    "wrist": (30.6, 85.8),
}
_BACK_SPOTS = {
    "bust to waist at back": (3.2, 108.5),
    "back length": (-5.0, 123.6),
    "hip depth": (21.6, 92.0),
    "across back": (7.0, 132.0),
    "arm length": (29.6, 96.0),
    "shoulder to elbow": (27.6, 118.0),
}
"""Where the numbers stand, in centimetres of the body."""


def _lines(
    place: Put,
    tapes: Sequence[tuple[str, Sequence[tuple[float, float]]]],
    girths: Sequence[tuple[str, float, float, float, float]],
    numbers: dict[str, int],
) -> Iterator[Stroke]:
    """The lines of those measures that have a number here."""
    for name, run in tapes:
        if name in numbers:
            yield from _double(place(run))
    for name, y, start, end, sag in girths:
        if name in numbers:
            yield Stroke(smooth(place([(start, y), (0.5 * (start + end), y + sag), (end, y)])), "stitch", name)


def _double(run: Points) -> Iterator[Stroke]:
    """A tape: a line with a head at both ends."""
    yield Stroke(smooth(run), "mark", "taut tape")
    for tip, beside in ((run[0], run[1]), (run[-1], run[-2])):
        way = (beside - tip) / np.hypot(*(beside - tip))
        side = np.array([-way[1], way[0]])
        head = frozen([tip, tip + 2.2 * way + 0.8 * side, tip + 2.2 * way - 0.8 * side])
        yield Stroke(polyline(head, closed=True), "ink", "head of tape", True)


def _numbers(place: Put, spots: dict[str, tuple[float, float]], numbers: dict[str, int]) -> Iterator[Words]:
    for name, spot in spots.items():
        if name in numbers:
            x, y = place([spot])[0]
            yield Words(str(numbers[name]), float(x), float(y) - 1.1, 3.2, "middle", bold=True)


def smooth(points: Points) -> Points:
    """Return cubics through ``points`` in order, with Catmull-Rom handles."""
    before = np.vstack((points[:1], points[:-1]))
    after = np.vstack((points[1:], points[-1:]))
    slope = 0.5 * (after - before)
    first, last = points[:-1], points[1:]
    return frozen(np.stack((first, first + slope[:-1] / 3.0, last - slope[1:] / 3.0, last), axis=1))
