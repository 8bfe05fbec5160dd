"""What a fitting leaves on the disk: new files beside the old, numbers counted up, and wearers that read back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from fanblock.cli.fit import fit
from fanblock.cli.main import main
from fanblock.fitting.keeping import next_name, wearer_edited
from fanblock.fitting.notes import WaistLine, read_notes
from fanblock.garment.library import draft_garment, open_garment
from fanblock.shipped import wearer_names, wearer_text
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Tilt, Wearer
from fanblock.wearer.reading import read_wearer
from fanblock.wearer.writing import wearer_text as written_text

NOTES = "fit: 1\ndraft: 1\nunits: cm\ngap: {waist: 3}\npinch: {at: side, height: middle, take: 1}\n"


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a wearer, a garment of hers, and the notes of its first fitting; the program is called in it."""
    (tmp_path / "me.yaml").write_text(wearer_text("ferrywoman"), encoding="utf-8")
    (tmp_path / "stays.yaml").write_text("garment: 1\nwearer: me.yaml\nrecipe: stays-three-panels\n", encoding="utf-8")
    (tmp_path / "notes.yaml").write_text(NOTES, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("name", wearer_names())
def test_a_wearer_is_written_as_it_was(name: str) -> None:
    """Every set, correction and note of the demo wearers reads back the same, to a thousandth of a millimetre."""
    first = open_wearer(name)
    again = read_wearer(written_text(first, "A copy."), "copy.yaml")
    assert (again.name, again.figure, again.notes, again.units, again.overs) == (
        first.name,
        first.figure,
        first.notes,
        first.units,
        first.overs,
    )
    for one, other in zip(first.sets, again.sets, strict=True):
        assert (one.over, one.taken_on) == (other.over, other.taken_on)
        assert dict(other.values) == pytest.approx(dict(one.values), abs=2e-3)


def test_corrections_of_the_figure_are_written() -> None:
    """Wedges at a height and to the side, taken out and let out."""
    first = open_wearer("pilot")
    tilts = (Tilt("center back", 12.0, 0.4), Tilt("center front", -6.5, 0.5, "side"))
    wearer = Wearer(first.name, first.sets, tilts, (), "mm")
    assert read_wearer(written_text(wearer), "w.yaml").figure == tilts


@pytest.mark.parametrize(
    ("name", "after"),
    [("me.yaml", "me-2.yaml"), ("me-9.yaml", "me-10.yaml"), ("a-b.yml", "a-b-2.yml"), ("me", "me-2.yaml")],
)
def test_names_are_counted_up(name: str, after: str) -> None:
    """The number behind a name is that of the version."""
    assert next_name(name) == after


def test_a_fitting_leaves_new_files_and_the_old_ones(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The wearer's waist and the garment's seam are in the new files; nothing that was there has changed."""
    before = {path.name: path.read_bytes() for path in room.iterdir()}
    assert main(["fit", "stays.yaml", "notes.yaml"]) == 0
    said = capsys.readouterr().out
    assert {path.name for path in room.iterdir()} - set(before) == {"me-2.yaml", "stays-2.yaml"}
    assert all((room / name).read_bytes() == data for name, data in before.items())
    assert "me-2.yaml is written." in said
    assert "Draw it: fanblock draft stays-2.yaml" in said
    second = open_garment("stays-2.yaml")
    assert (second.garment.wearer, second.garment.draft) == ("me-2.yaml", 2)
    assert second.wearer.sets[0].values["waist"] < open_wearer("me.yaml").sets[0].values["waist"]
    assert len(second.garment.changes) == 1
    assert draft_garment(second).sound


def test_nothing_is_written_over(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A second fitting of the same draft is refused: its files are there."""
    assert main(["fit", "stays.yaml", "notes.yaml"]) == 0
    held = (room / "stays-2.yaml").read_bytes()
    assert main(["fit", "stays.yaml", "notes.yaml"]) == 1
    assert "“stays-2.yaml” is already there, and was left as it is." in capsys.readouterr().err
    assert (room / "stays-2.yaml").read_bytes() == held


def test_dry_only_tells(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What would be changed is told, and no file appears."""
    names = {path.name for path in room.iterdir()}
    assert main(["fit", "stays.yaml", "notes.yaml", "--dry"]) == 0
    assert "Nothing was written." in capsys.readouterr().out
    assert {path.name for path in room.iterdir()} == names


def test_the_story_from_tape_to_second_draft(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Begin the notes, fill them in, fit, draft again: the second draft has a folder of its own."""
    assert main(["draft", "stays.yaml", "--no-pictures", "--paper", "a4"]) == 0
    assert main(["new", "fitting", "stays.yaml"]) == 0
    notes = room / "stays-fitting-1.yaml"
    text = notes.read_text(encoding="utf-8")
    notes.write_text(text.replace("#  - gapes at the centre front", "  - gapes at the centre front"), encoding="utf-8")
    assert main(["fit", "stays.yaml", str(notes)]) == 0
    assert main(["draft", "stays-2.yaml", "--no-pictures", "--paper", "a4"]) == 0
    assert (room / "stays-draft-1" / "pattern.json").is_file()
    assert (room / "stays-draft-2" / "pattern.json").is_file()
    capsys.readouterr()


def test_answers_become_notes(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Asked question by question: lengths that are none are asked again, and what was answered is kept and applied."""
    worn = ["body", "", "", "x", "1 cm", "below", "", "", ""]  # how, which bones, the waist line at five places
    gaps, pinches = ["6 cm", "", "", "4 cm"], ["", "", "1 cm", "side", "left", ""]
    said = ["99", "8", "12 mm", "she sat", ""]
    answers = [*worn, *gaps, *pinches, *said]
    runner = CliRunner()
    result = runner.invoke(fit, ["stays.yaml"], input="\n".join(answers) + "\n", standalone_mode=False)
    assert result.exception is None, result.output
    notes = read_notes((room / "stays-fitting-1.yaml").read_text(encoding="utf-8"), "n.yaml")
    assert notes.lines == (WaistLine("center back", -10.0),)
    assert [(pinch.at, pinch.half) for pinch in notes.pinches] == [("side", "left")]
    assert [said.sentence.words for said in notes.said] == ["rides up"]
    assert notes.comments == ("she sat",)
    assert (room / "stays-2.yaml").is_file()


def test_a_measure_told_left_and_right_is_written_in_its_place() -> None:
    """One number becomes two where it stood; her comments and her other numbers are as she wrote them."""
    text = (
        "wearer: 1\nname: me  # that is I\nunits: in\ntaken: {on: 2026-11-20, over: shift}\nmeasures:\n  bust: 38 1/2\n"
        "  waist: 31 1/4\n  bust to waist: 6 3/4\n  bust to waist at side: 6 5/8  # by the seam\n"
    )
    before = read_wearer(text, "w.yaml")
    (chosen,) = before.sets
    sides = (174.625, 168.275)
    values = {**chosen.values, "bust to waist at side": sum(sides) / 2.0}
    own = replace(chosen, values=Fixed(values), sides=Fixed({"bust to waist at side": sides}))
    made = wearer_edited(text, before, replace(before, sets=(own,)), "After.")
    assert made == "# After.\n" + text.replace("side: 6 5/8  #", "side: {left: 6.875 in, right: 6.625 in}  #")
