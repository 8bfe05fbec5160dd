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

FRONT_MARKS = ("bust", "waist", "bust to waist", "bust to waist at side", "underarm", "hip", "underbust")
BACK_MARKS = ("bust to waist at back", "back length", "hip depth", "front arc")


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
    yield from _double(place([(0.0, BUST_Y - 1.2), (0.0, WAIST_Y - 1.2)]))
    yield from _double(place([(14.4, BUST_Y - 0.4), (12.4, WAIST_Y)]))
    yield from _double(place([(-17.2, 126.0), (-13.4, WAIST_Y)]))
    yield Stroke(smooth(place([(-15.1, 111.5), (0.0, 110.2), (15.1, 111.5)])), "stitch", "underbust")
    yield Stroke(smooth(place([(-18.2, HIP_Y), (0.0, HIP_Y - 1.4), (18.2, HIP_Y)])), "stitch", "hip")
    spots = {
        "bust": (-8.5, 120.2),
        "waist": (-6.0, 97.3),
        "bust to waist": (3.2, 106.0),
        "bust to waist at side": (18.2, 109.0),
        "underarm": (-19.0, 112.0),
        "hip": (7.0, 84.0),
        "underbust": (-7.0, 106.6),
    }
    yield from _numbers(place, spots, numbers)


def _back(place: Put, numbers: dict[str, int]) -> Iterator[Stroke | Words]:
    yield from _double(place([(0.8, BUST_Y + 0.8), (0.8, WAIST_Y + 0.8)]))
    yield from _double(place([(-2.2, NAPE_Y), (-2.2, WAIST_Y + 0.6)]))
    yield from _double(place([(14.2, WAIST_Y - 1.5), (19.4, HIP_Y)]))
    yield Stroke(smooth(place([(-18.2, HIP_Y), (0.0, HIP_Y + 0.8), (18.2, HIP_Y)])), "stitch", "hip")
    for mirror in (-1.0, 1.0):
        blade = [(10.5, 131.0), (8.0, 126.5), (8.6, 121.5)]
        yield Stroke(smooth(place(blade, mirror)), "guide", "shoulder blade")
    spots = {"bust to waist at back": (4.2, 108.5), "back length": (-5.4, 128.0), "hip depth": (21.5, 92.0)}
    yield from _numbers(place, spots, numbers)


def _double(run: Points) -> Iterator[Stroke]:
    """A taut tape: a line with a head at both ends."""
    yield Stroke(polyline(run), "mark", "taut tape")
    along = (run[1] - run[0]) / np.hypot(*(run[1] - run[0]))
    side = np.array([-along[1], along[0]])
    for tip, way in ((run[0], along), (run[1], -along)):
        head = frozen([tip, tip + 2.2 * way + 0.8 * side, tip + 2.2 * way - 0.8 * side])
        yield Stroke(polyline(head, closed=True), "ink", "head of tape", True)


def _numbers(place: Put, spots: dict[str, tuple[float, float]], numbers: dict[str, int]) -> Iterator[Words]:
    for name, spot in spots.items():
        if name in numbers:
            x, y = place([spot])[0]
            yield Words(str(numbers[name]), float(x), float(y) - 1.2, 3.6, "middle", bold=True)


def smooth(points: Points) -> Points:
    """Return cubics through ``points`` in order, with Catmull-Rom handles."""
    before = np.vstack((points[:1], points[:-1]))
    after = np.vstack((points[1:], points[-1:]))
    slope = 0.5 * (after - before)
    first, last = points[:-1], points[1:]
    return frozen(np.stack((first, first + slope[:-1] / 3.0, last - slope[1:] / 3.0, last), axis=1))
