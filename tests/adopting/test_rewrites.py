"""Drawings rewritten as editors rewrite them, by chance but always the same: what is read from them stays the same.

The rewrites are those that the SVG recommendation allows without moving a line (W3C, Scalable Vector Graphics 1.1: units,
`viewBox`, `transform`, relative commands, quadratic curves raised to cubics, groups).
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterable
from random import Random

import pytest
from tests.adopting.editing import (
    DARTED_GOWN,
    GOWN,
    STAYS,
    folder_of,
    pattern_of,
    redrawn,
    seam_moved,
    svg_of,
    with_line,
)
from tests.adopting.test_adopt import read_back

from fanblock.adopting.kept import open_kept
from fanblock.adopting.strokes import found_strokes
from fanblock.problems import GeometryError

WEARER = "ferrywoman"
INKSCAPE = 'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" '


def in_other_units(text: str, chance: Random) -> str:
    """Give the page its size in another unit."""
    unit, times = chance.choice([("in", 1 / 25.4), ("pt", 72 / 25.4), ("px", 96 / 25.4), ("cm", 0.1), ("pc", 6 / 25.4)])
    return re.sub(
        r'(width|height)="([0-9.]+)mm"', lambda met: f'{met[1]}="{float(met[2]) * times:.6f}{unit}"', text, count=2
    )


def in_user_units(text: str, chance: Random) -> str:
    """Write the page's box in other units, and everything in a group that makes up for it."""
    times = chance.choice([3.7795275591, 0.1, 2.8346456693])
    box = re.search(r'viewBox="0 0 ([0-9.]+) ([0-9.]+)"', text)
    assert box is not None
    head, body = text.split("<g ", 1)
    head = head.replace(box[0], f'viewBox="0 0 {float(box[1]) * times:.6f} {float(box[2]) * times:.6f}"')
    return f'{head}<g transform="scale({times})"><g {body}'.replace("</svg>", "</g></svg>")


def in_turned_layers(text: str, chance: Random) -> str:
    """Move and turn every piece by itself."""

    def turned(met: re.Match[str]) -> str:
        x, y, turn = chance.uniform(-80.0, 80.0), chance.uniform(-80.0, 80.0), chance.uniform(-170.0, 170.0)
        return f'<g transform="matrix(1 0 0 1 {x:.3f} {y:.3f}) rotate({turn:.3f})" {met[1]}'

    return re.sub(r'<g (id="n\d)', turned, text)


def relative(text: str, _chance: Random) -> str:
    """Write all paths with relative commands."""

    def rewritten(met: re.Match[str]) -> str:
        return f' d="{_relative(met[1])}"'

    return re.sub(r' d="([^"]*)"', rewritten, text)


def _relative(run: str) -> str:
    said, x, y, start = [], 0.0, 0.0, (0.0, 0.0)
    for letter, rest in re.findall(r"([MLCZ])([^MLCZ]*)", run):
        if letter == "Z":
            said.append("z")
            x, y = start
            continue
        numbers = [float(number) for number in re.findall(r"-?[0-9.]+", rest)]
        step = 6 if letter == "C" else 2
        for at in range(0, len(numbers), step):
            part = numbers[at : at + step]
            told = " ".join(f"{value - (x, y)[index % 2]:.7f}" for index, value in enumerate(part))
            said.append(f"{letter.lower()} {told}")
            x, y = part[-2:]
        if letter == "M":
            start = (x, y)
    return " ".join(said)


def named_by_labels(text: str, _chance: Random) -> str:
    """Give every line a new id and keep the old one as the editor's label."""
    text = text.replace("<svg ", f"<svg {INKSCAPE}", 1)
    count = iter(range(1, 10**6))
    return re.sub(
        r' id="(n\d[^"]*)" data-name="[^"]*"', lambda m: f' id="path{next(count)}" inkscape:label="{m[1]}"', text
    )


def named_in_groups(text: str, _chance: Random) -> str:
    """Take the ids of the lines away: their names within their piece's group are left."""
    return re.sub(r'(<path) id="n\d[^"]*"', r"\1", text)


def in_classes(text: str, _chance: Random) -> str:
    """Put the look of every line into classes of a style sheet."""
    text = re.sub(r' class="[^"]*"| stroke(-[a-z]+)?="[^"]*"', "", text).replace("<path", '<path class="st0"')
    return text.replace("<g ", "<style>.st0{fill:none;stroke:#000;stroke-width:0.3;}</style>\n<g ", 1)


def in_one_layer(text: str, _chance: Random) -> str:
    """Dissolve the groups of all pieces into one layer."""
    body = re.sub(r"</?g\b[^>]*>|<title>[^<]*</title>", "", text)
    return re.sub(r"(<svg[^>]*>)", r'\1<g id="layer1">', body, count=1).replace("</svg>", "</g></svg>")


def halved_curves(text: str, _chance: Random) -> str:
    """Cut every curve of a line in two, as adding a node does."""

    def cut(met: re.Match[str]) -> str:
        run, x, y = [], 0.0, 0.0
        for letter, rest in re.findall(r"([MLCZ])([^MLCZ]*)", met[1]):
            numbers = [float(number) for number in re.findall(r"-?[0-9.]+", rest)]
            if letter != "C":
                run.append(f"{letter} {rest.strip()}")
            for at in range(0, len(numbers) if letter == "C" else 0, 6):
                run.append(_halves([(x, y), *zip(*[iter(numbers[at : at + 6])] * 2, strict=True)]))
                x, y = numbers[at + 4 : at + 6]
            if numbers and letter != "C":
                x, y = numbers[-2:]
        return f' d="{" ".join(run)}"'

    return re.sub(r' d="([^"]*)"', cut, text)


def _halves(points: list[tuple[float, float]]) -> str:
    """Return a cubic as two, by de Casteljau's halving."""
    rows = [points]
    while len(rows[-1]) > 1:
        rows.append([((a + c) / 2.0, (b + d) / 2.0) for (a, b), (c, d) in zip(rows[-1], rows[-1][1:], strict=False)])
    handles = [row[0] for row in rows[1:]] + [row[-1] for row in rows[-2::-1]]
    return "C " + " ".join(f"{x:.7f} {y:.7f}" for x, y in handles)


REWRITES = (in_other_units, relative, halved_curves, in_turned_layers, in_user_units, in_classes)
NAMINGS = (named_by_labels, named_in_groups, in_one_layer, lambda text, _: text)


@pytest.mark.parametrize(("recipe", "seed"), [(STAYS, 1), (STAYS, 2), (GOWN, 3), (DARTED_GOWN, 4)])
def test_whatever_an_editor_rewrites_the_same_is_read(recipe: str, seed: int) -> None:
    """A seam moved 5 mm and a line drawn, rewritten in any way by chance: the same rows, none more, none less."""
    chance = Random(f"{recipe} {seed}")
    block = pattern_of(recipe, WEARER).block
    plain = redrawn(recipe, WEARER, seam_moved(block, "side seam", 5.0)).decode()
    first = pattern_of(recipe, WEARER).panels[0].name
    plain = with_line(plain, recipe, WEARER, first, block.at([0.02, 0.04], [0.2, 0.5]), 'id="pocket"')
    text = plain
    for rewrite in chance.sample(REWRITES, 3):
        text = rewrite(text, chance)
    text = chance.choice(NAMINGS)(text, chance)
    one, other = (read_back(recipe, WEARER, drawing.encode()) for drawing in (plain, text))
    assert [(row.line, row.at, row.moved) for row in other.rows] == [(row.line, row.at, row.moved) for row in one.rows]
    assert _told(note for note in other.notes if "full size" not in note) == _told(one.notes)


def _told(notes: Iterable[str]) -> list[str]:
    """Return notes without the number of the line in the file, which a rewrite may change."""
    return [re.sub(r"line \d+ of the file", "line of the file", note) for note in notes]


def test_every_rewrite_by_itself_moves_nothing() -> None:
    """No edge and no mark of an untouched drawing lies elsewhere."""
    for rewrite in (*REWRITES, *NAMINGS):
        found = read_back(STAYS, WEARER, rewrite(svg_of(STAYS, WEARER), Random(7)).encode())
        assert (found.rows, found.text) == ((), ""), rewrite.__name__
        assert found.notes == (), rewrite.__name__


def _hostile(kind: str) -> bytes:
    text = svg_of(STAYS, WEARER)
    line = '<path id="n2-side-front-top-edge"'
    match kind:
        case "laughs":
            names = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10))
            text = text.replace("<svg ", f'<!DOCTYPE svg [<!ENTITY a0 "ha">{names}]>\n<svg ', 1)
            text = text.replace("<title>", "<title>&a9;", 1)
        case "outside":
            text = text.replace("<svg ", '<!DOCTYPE svg SYSTEM "file:///etc/hostname">\n<svg ', 1)
        case "long":
            run = "M 0 0 " + " ".join(f"L {n % 7} {n % 11}" for n in range(100_000))
            text = re.sub(rf'({line}[^>]* d=")[^"]*', rf"\g<1>{run}", text)
        case "deep":
            text = text.replace("</svg>", "<g>" * 5000 + "</g>" * 5000 + "</svg>")
        case "huge":
            text = re.sub(rf'({line}[^>]* d=")[^"]*', r"\g<1>M 0 0 L 1e300 1e300 L 5 1e308", text)
        case "endless":
            text = re.sub(rf'({line}[^>]* d=")[^"]*', r"\g<1>M 0 0 L NaN inf", text)
        case "many":
            text = text.replace("</svg>", "<path/>" * 60_000 + "</svg>")
        case "arcs":
            run = "M 0 0 " + "A 1e5 1e5 0 1 1 1 1 A 1e5 1e5 0 1 1 0 0 " * 1500
            text = re.sub(rf'({line}[^>]* d=")[^"]*', rf"\g<1>{run}", text)
    return text.encode()


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("laughs", "it has a document type"),
        ("outside", "it has a document type"),
        ("long", "has more than 200000 characters. Draw it with fewer points."),
        ("deep", "its groups lie more than 60 deep in one another."),
        ("huge", "is longer than 20 m. Look at the size of the drawing."),
        ("endless", "cannot be read."),
        ("many", "it has more than 50000 elements."),
        ("arcs", "has more than 200 arcs. Draw it with fewer points."),
    ],
)
def test_what_a_hostile_drawing_does_is_refused_and_soon(kind: str, says: str) -> None:
    """In under two seconds, with words that say what is wrong."""
    data, panels = _hostile(kind), open_kept(str(folder_of(STAYS, WEARER))).panels
    began = time.process_time()
    with pytest.raises(GeometryError) as caught:
        found_strokes(data, "my.svg", panels)
    assert time.process_time() - began < 2.0
    assert says in str(caught.value.problems[0])


def test_scripts_and_references_in_a_drawing_are_not_followed() -> None:
    """A script, a picture from elsewhere and a style that fetches are passed over: nothing was moved."""
    more = (
        '<script href="https://example.org/x.js">x()</script><style>@import url(https://example.org/x.css);</style>'
        '<image href="file:///etc/hostname" width="1" height="1"/><foreignObject><path id="in" d="M 0 0 L 9 9"/></foreignObject>'
    )
    found = read_back(STAYS, WEARER, svg_of(STAYS, WEARER).replace("</svg>", f"{more}</svg>").encode())
    assert (found.rows, found.notes, found.text) == ((), (), "")
