"""One text for one content."""

from hypothesis import given
from hypothesis import strategies as st

from fanblock.units import UNITS
from fanblock.wearer.canonical import canonical_text
from fanblock.wearer.reading import read_wearer

INCHES = """\
wearer: 1
name: ferrywoman
taken: {on: 2026-04-12, over: shift}
units: in
measures:
  bust: 36 1/4
  waist: 28 1/8
  bust to waist: 6 1/2
figure:
  - tilt: {at: center back, take: 5/8 in, height: 50%}
  - tilt: {at: center front, let out: 1/4}
notes: in inches
"""

SAME_OTHERWISE = """\
figure:
- tilt: {take: -6.35 mm, at: centre front}
- tilt: {at: centre back, take: 1.5875 cm}
units: mm
sets:
  - measures:
      bust to waist: 165.1
      waist: 714.375
      bust: "92.075 cm"
    taken: {over: shift, on: 2026-04-12}
name: "ferrywoman"
wearer: 1
"""


def text_of(source: str) -> str:
    """Return the canonical text of a file."""
    return canonical_text(read_wearer(source, "w.yaml"))


def test_the_text_is_plain() -> None:
    """Millimetres, sorted, one thing a line."""
    assert text_of(INCHES) == (
        "wearer 1\n"
        "name ferrywoman\n"
        "over shift 2026-04-12\n"
        "  bust 920.750000\n"
        "  bust to waist 165.100000\n"
        "  waist 714.375000\n"
        "tilt center back 15.875000 0.500000 -\n"
        "tilt center front -6.350000 0.500000 -\n"
    )


def test_same_content_gives_the_same_text() -> None:
    """Order, units, quotation marks, spelling of centre and notes make no difference."""
    assert text_of(SAME_OTHERWISE) == text_of(INCHES)


def test_other_content_gives_another_text() -> None:
    """A sixteenth of an inch, another day or another name is another content."""
    changes = [
        ("28 1/8", "28 3/16"),
        ("04-12", "04-13"),
        ("ferrywoman", "pilot"),
        ("50%", "40%"),
        ("shift", "stays"),
    ]
    texts = {text_of(INCHES.replace(old, new)) for old, new in changes}
    assert len(texts | {text_of(INCHES)}) == len(changes) + 1


@given(
    st.tuples(st.integers(300, 600), st.integers(250, 450), st.integers(60, 80)),
    st.permutations(("bust", "waist", "bust to waist")),
    st.sampled_from(sorted(UNITS)),
)
def test_text_does_not_depend_on_order_or_unit(sizes: tuple[int, int, int], order: list[str], unit: str) -> None:
    """Any body in tenths of an inch has one text in all three units and in any order."""
    tenths = dict(zip(("bust", "waist", "bust to waist"), (sizes[0], min(sizes[1], sizes[0]), sizes[2]), strict=True))
    tenths["waist"] = max(tenths["waist"], tenths["bust"] * 2 // 3)

    def written(name: str, other: str) -> str:
        hundredths_mm = tenths[name] * 254
        if other == "in":
            return f"{tenths[name]}/10 in"
        millimetres = f"{hundredths_mm // 100}.{hundredths_mm % 100:02d}"
        return f"{millimetres} mm" if other == "mm" else f"{hundredths_mm // 1000}.{hundredths_mm % 1000:03d} cm"

    def file(names: list[str], other: str) -> str:
        lines = "".join(f"  {name}: {written(name, other)}\n" for name in names)
        return f"wearer: 1\nname: pilot\nmeasures:\n{lines}"

    assert text_of(file(order, unit)) == text_of(file(["bust", "waist", "bust to waist"], "mm"))
