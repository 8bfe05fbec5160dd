"""The file a new wearer starts from."""

import re

import pytest

from fanblock.problems import WearerError
from fanblock.wearer.measures import MEASURES, NUMBERS
from fanblock.wearer.reading import read_wearer
from fanblock.wearer.starter import starter_wearer


def middle_cm(name: str) -> float:
    """Return a length that fits a body of middling size."""
    lengths = {
        "bust": 92, "waist": 74, "bust to waist": 16, "raised": 18, "bust to waist at side": 16,
        "bust to waist at back": 15, "underarm": 20, "front arc": 47, "underbust": 79, "underbust height": 9,
        "hip": 98, "hip depth": 20, "belly": 88, "back length": 40, "front length": 44, "upper chest": 88,
    }  # fmt: skip
    measure = MEASURES[name]
    return lengths.get(name, (measure.usual_least_mm + measure.usual_most_mm) / 20)


def test_blanks_are_asked_for() -> None:
    """An untouched starter tells what is still missing and how to take it."""
    text = starter_wearer("pilot")
    lines = text.split("\n")
    expected = [
        f"w.yaml:{lines.index(f'  {name}:') + 1}:3: measures › {name} › this is still blank. {MEASURES[name].how}"
        for name in ("bust", "waist", "bust to waist")
    ]
    with pytest.raises(WearerError) as caught:
        read_wearer(text, "w.yaml")
    assert str(caught.value) == "\n".join(expected)


@pytest.mark.parametrize(("units", "each"), [("cm", 1.0), ("in", 2.54), ("mm", 0.1)])
def test_filled_blanks_are_read(units: str, each: float) -> None:
    """With three numbers the file is whole, in the unit it was asked for."""
    text = starter_wearer("pilot", units)
    for name in ("bust", "waist", "bust to waist"):
        text = text.replace(f"\n  {name}:\n", f"\n  {name}: {middle_cm(name) / each:.2f}\n")
    wearer = read_wearer(text, "w.yaml")
    assert (wearer.name, wearer.units, wearer.overs) == ("pilot", units, ("shift",))
    assert wearer.sets[0].values["bust"] == pytest.approx(920, abs=0.2)


def test_every_measure_can_be_taken_up() -> None:
    """Taking the # away before a line makes it count; none is forgotten."""
    text = starter_wearer("pilot")
    for name in MEASURES:
        text, times = re.subn(rf"\n  (# )?{name}:\n", f"\n  {name}: {middle_cm(name)}\n", text)
        assert times == 1
    text = text.replace("# figure:\n#   - tilt", "figure:\n  - tilt").replace("# notes:", "notes:")
    wearer = read_wearer(text.replace("  on:  ", "  on: 2026-04-12"), "w.yaml")
    assert set(wearer.sets[0].values) == set(MEASURES)
    assert wearer.sets[0].taken_on == "2026-04-12"
    assert len(wearer.figure) == len(wearer.notes) == 1


@pytest.mark.parametrize("name", ["pilot", "the pilot's mate", "No", "a: b", "- x", "“q” # \\", "42", "Ǆ é"])
def test_any_name_is_kept(name: str) -> None:
    """A name that YAML would misread is put in quotation marks."""
    text = starter_wearer(name)
    for measure in ("bust", "waist", "bust to waist"):
        text = text.replace(f"\n  {measure}:\n", f"\n  {measure}: {middle_cm(measure)}\n")
    assert read_wearer(text, "w.yaml").name == name


def test_starter_tells_the_usual_cautions() -> None:
    """The first page a maker fills in says when not to lace and whom to ask."""
    text = " ".join(starter_wearer("pilot").replace("#", " ").split())
    for words in ("ask a clinician", "says nothing about health", "numbness", "unlace or cut the lace"):
        assert words in text


def test_the_file_and_the_form_number_the_measures_alike() -> None:
    """Every measure stands in the order and with the number of the printed form, those for stays with a star."""
    text = starter_wearer("pilot")
    places = []
    for name, measure in MEASURES.items():
        star = "* " if measure.for_stays else ""
        places.append(text.index(f"  # {NUMBERS[name]}. {star}{measure.how.split()[0]} "))
    assert places == sorted(places)


def test_unknown_units_are_refused() -> None:
    """Only the three units there are can be stated."""
    with pytest.raises(ValueError, match=r"^“ell” is not a unit\. Use in, cm or mm\.$"):
        starter_wearer("pilot", "ell")
