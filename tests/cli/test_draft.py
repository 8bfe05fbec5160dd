"""The command that drafts: its files, its words, its exit codes."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pytest
from tests.cli.conftest import Run

from fanblock import bundle
from fanblock.cloth import laying
from fanblock.garment.model import Cloth
from fanblock.problems import ExportError, Problem
from fanblock.sheet.pdf import Sheets

WEARER, RECIPE = "ferrywoman", "stays-three-panels"
SOUND = "SOUND: it adds up and sews up. Whether it fits only a toile tells."


def test_a_draft_writes_every_file_it_tells_of_and_ends_with_the_verdict(run: Run, tmp_path: Path) -> None:
    """Each file is named with what it is for; the verdict comes after all checks, and cautions after that."""
    ran = run("draft", WEARER, RECIPE, "--out", "stays")
    names = {path.name for path in (tmp_path / "stays").iterdir()}
    assert (ran.code, ran.err) == (0, "")
    assert names == {
        "cloth-a4.pdf", "cloth-letter.pdf", "guide.html", "pattern-a0.pdf", "pattern-a4.pdf", "pattern-letter.pdf", "pattern.dxf", "pattern.json",
        "pattern.svg", "report.html", "sheet.png",
    }  # fmt: skip
    assert all(f"  {name}  " in ran.out for name in names)
    assert ran.out.index("Checks: ") < ran.out.index(SOUND)
    assert ran.out.index(SOUND) < ran.out.index("costume")
    assert f"Open first: {Path('stays') / 'report.html'}" in ran.out


def test_the_pages_told_of_are_the_pages_in_the_file(run: Run, tmp_path: Path) -> None:
    """A PDF reader of other hands counts the pages that the list of files promises."""
    ran = run("draft", WEARER, RECIPE, "--out", "stays", "--paper", "a4", "--json")
    (purpose,) = (one["purpose"] for one in json.loads(ran.out)["files"] if one["name"] == "pattern-a4.pdf")
    words = purpose.replace(",", "").split()
    promised = int(words[words.index("to") - 1]) + int(words[words.index("A4") - 1])
    with pypdfium2.PdfDocument(tmp_path / "stays" / "pattern-a4.pdf") as document:
        assert len(document) == promised


def test_the_worn_waist_told_is_what_a_stranger_adds_up_from_the_file(run: Run, tmp_path: Path) -> None:
    """Twice the parts of the waist level, with the gap along it, make the worn waist that is printed."""
    ran = run("draft", WEARER, RECIPE, "--out", "stays", "--paper", "a0", "--json")
    pattern = json.loads((tmp_path / "stays" / "pattern.json").read_text("utf-8"))
    half = 0.0
    for panel in pattern["panels"]:
        for part in panel["levels"]["waist"]:
            steps = pairwise(part)
            half += sum(((x - a) ** 2 + (y - b) ** 2) ** 0.5 for (a, b), (x, y) in steps)
    worn = 2.0 * half + pattern["gap"]["per_level"]["waist"]
    assert json.loads(ran.out)["tape"]["worn_waist"] == pytest.approx(worn, abs=0.5)


def test_the_folder_says_what_to_buy_before_anything_is_known_of_the_cloth(run: Run, tmp_path: Path) -> None:
    """The pieces lie on cloth of ordinary width, said to be assumed, and the report lists what to buy."""
    assert run("draft", WEARER, RECIPE, "--out", "s", "--paper", "a4").code == 0
    report = (tmp_path / "s" / "report.html").read_text("utf-8")
    assert report.index("<h2>Buy</h2>") < report.index("<h2>On the cloth</h2>")
    with pypdfium2.PdfDocument(tmp_path / "s" / "cloth-a4.pdf") as document:
        assert "assumed" in "".join(page.get_textpage().get_text_range() for page in document)


def test_a_piece_wider_than_the_cloth_assumed_is_told_and_all_else_is_written(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without a list of cloth the draft is whole all the same, and it says why there is none."""
    monkeypatch.setattr(laying, "ASSUMED", dict.fromkeys(laying.ASSUMED, Cloth(150.0)))
    ran = run("draft", WEARER, "jumps", "--out", "j", "--paper", "a0")
    assert ran.code == 0
    assert "left out: cloth: piece 1 (front) is" in " ".join(ran.out.split())
    assert "The cloth is assumed; say your own in a garment file." in " ".join(ran.out.split())
    assert not list((tmp_path / "j").glob("cloth-*"))
    assert (tmp_path / "j" / "pattern-a0.pdf").exists()


def test_turning_a_dial_changes_the_gap_and_nothing_hides_it(run: Run) -> None:
    """A dial that was turned shows in the numbers told, with its unit converted."""
    ran = run("draft", WEARER, RECIPE, "--out", "s", "--paper", "a0", "--set", "gap = 1 1/2 in", "--json")
    told = json.loads(ran.out)
    assert told["recipe"]["dials"]["gap"] == pytest.approx(38.1)
    assert told["tape"]["gap"] == pytest.approx(38.1)


def test_an_unsound_pattern_is_written_marked_and_ends_with_one(run: Run, samples: Path, tmp_path: Path) -> None:
    """NOT SOUND stands on the screen and in the report, the files are there, and the exit code is 1."""
    ran = run("draft", WEARER, samples / "too-narrow.yaml", "--out", "s", "--paper", "a4")
    assert ran.code == 1
    says = "panel 1 (front) is narrower than 9/16 in somewhere: no bone can stand there"
    assert f"  FAILS {says}\n" in ran.out
    assert f"NOT SOUND: {says}\n" in ran.out
    assert SOUND not in ran.out
    assert "NOT SOUND" in (tmp_path / "s" / "report.html").read_text("utf-8")
    assert (tmp_path / "s" / "pattern-a4.pdf").is_file()


def test_what_fails_stands_before_what_holds(run: Run, samples: Path) -> None:
    """Failures and warnings come first, in words and not by colour alone, and again in their family."""
    ran = run("draft", WEARER, samples / "too-narrow.yaml", "--out", "s", "--paper", "a0")
    assert ran.out.index("  FAILS ") < ran.out.index("  holds ")
    assert ran.out.count("  FAILS ") == 2
    assert "\x1b" not in ran.out


def test_a_refusal_names_the_word_that_overrides_it(run: Run, samples: Path) -> None:
    """More than a tenth of the waist is refused; with the word it is drawn, and still marked."""
    order = ("draft", WEARER, samples / "tight.yaml", "--out", "s", "--paper", "a0")
    refused = run(*order)
    assert refused.code == 1
    assert "`--despite reduction`" in refused.err
    insisted = run(*order, "--despite", "reduction")
    assert "LOOK  the lacing takes in 12.0% of the waist" in insisted.out


def test_the_same_command_writes_the_same_bytes(run: Run, tmp_path: Path) -> None:
    """Two runs of one command agree in every file to the last byte."""
    for folder in ("one", "two"):
        run("draft", WEARER, RECIPE, "--out", folder, "--paper", "letter", "--roll", "90 cm")
    one, two = ({path.name: path.read_bytes() for path in (tmp_path / name).iterdir()} for name in ("one", "two"))
    assert one == two
    assert {"pattern-letter.pdf", "pattern-roll-900-mm.pdf"} <= one.keys()


def test_prints_of_an_earlier_draft_are_named_and_left_alone(run: Run, tmp_path: Path) -> None:
    """A sheet from an earlier draft in the same folder is neither changed nor passed over in silence."""
    (tmp_path / "s").mkdir()
    (tmp_path / "s" / "pattern-a4.pdf").write_bytes(b"old")
    (tmp_path / "s" / "mine.pdf").write_bytes(b"mine")
    ran = run("draft", WEARER, RECIPE, "--out", "s", "--paper", "a0")
    says = "LOOK  From an earlier draft, and not changed: pattern-a4.pdf. Do not mix the two."
    assert says in ran.out
    assert "mine.pdf" not in ran.out
    assert (tmp_path / "s" / "pattern-a4.pdf").read_bytes() == b"old"


def test_a_usual_paper_too_small_is_left_out_and_one_asked_for_is_a_problem(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nobody asked for A0: the rest is written without it. Somebody asked for it: nothing is written."""

    def too_large(*_: object) -> Sheets:
        raise ExportError([Problem("too-large", "paper", "The drawing does not fit on A0.", "Choose another.")])

    monkeypatch.setattr(bundle, "single_sheet", too_large)
    usual = run("draft", WEARER, RECIPE, "--out", "usual")
    assert "left out: pattern-a0.pdf: The drawing does not fit on A0.\n" in usual.out
    assert (tmp_path / "usual" / "pattern-a4.pdf").is_file()
    asked = run("draft", WEARER, RECIPE, "--out", "asked", "--paper", "a0")
    assert (asked.code, asked.err) == (1, "paper › The drawing does not fit on A0. Choose another.\n")
    assert not (tmp_path / "asked").exists()


def test_one_json_document_and_nothing_else_is_the_answer_for_machines(run: Run) -> None:
    """With --json the whole of standard output is one document, with all checks and a verdict."""
    ran = run("draft", WEARER, RECIPE, "--out", "s", "--paper", "a0", "--json")
    told = json.loads(ran.out)
    assert ran.err == ""
    assert (told["sound"], told["draft"], told["folder"]) == (True, 1, "s")
    assert {check["state"] for check in told["checks"]} <= {"holds", "warns"}


def test_the_draft_number_is_on_the_screen_and_in_the_file(run: Run, tmp_path: Path) -> None:
    """The number given is the one printed."""
    ran = run("draft", WEARER, RECIPE, "--out", "s", "--paper", "a0", "--number", "7")
    assert "draft 7 · code " in ran.out.splitlines()[0]
    assert json.loads((tmp_path / "s" / "pattern.json").read_text("utf-8"))["draft"] == 7


def test_measures_over_the_stays_are_used_when_asked_for(run: Run) -> None:
    """``--over stays`` drafts from the other set of measures."""
    order = ("draft", WEARER, RECIPE, "--out", "s", "--paper", "a0", "--json")
    assert json.loads(run(*order, "--over", "stays").out)["over"] == "stays"


def test_a_jacket_over_the_shift_is_drawn_with_a_word_of_warning(run: Run, samples: Path, tmp_path: Path) -> None:
    """What goes over stays is cut to measures taken over them; without them the maker is told."""
    text = (samples / "tight.yaml").read_text("utf-8").replace("makes: stays", "makes: jacket")
    (tmp_path / "jacket.yaml").write_text(text.replace("default: 12%", "default: 2%"), encoding="utf-8")
    order = ("draft", WEARER, "jacket.yaml", "--out", "s", "--paper", "a0")
    says = "LOOK  A jacket goes over stays. Measure again, laced in them, and draft with --over stays.\n"
    assert says in run(*order).out
    assert "goes over stays" not in run(*order, "--over", "stays").out


def test_pictures_can_be_left_out(run: Run, tmp_path: Path) -> None:
    """For other programs: the pages, the drawings and the numbers, and neither report nor picture nor hand guide."""
    ran = run("draft", WEARER, RECIPE, "--out", "bare", "--paper", "a4", "--no-pictures")
    assert ran.code == 0
    assert sorted(path.name for path in (tmp_path / "bare").iterdir()) == [
        "pattern-a4.pdf",
        "pattern.dxf",
        "pattern.json",
        "pattern.svg",
    ]


def test_the_hand_guide_is_printed_when_asked_for(run: Run, tmp_path: Path) -> None:
    """The page for the screen is always there; pages to print come on the home paper that was named."""
    ran = run("draft", WEARER, RECIPE, "--out", "hand", "--paper", "letter", "--paper", "projector", "--guide")
    assert ran.code == 0
    found = sorted(path.name for path in (tmp_path / "hand").iterdir())
    assert [name for name in found if name.endswith(".pdf")] == [
        "cloth-letter.pdf",
        "guide-letter.pdf",
        "pattern-letter.pdf",
        "pattern-projector.pdf",
    ]
    assert "  guide-letter.pdf       the same, to print on Letter\n" in ran.out
    with pypdfium2.PdfDocument(tmp_path / "hand" / "guide-letter.pdf") as document:
        assert "By hand: " in document[0].get_textpage().get_text_bounded()


def test_a_toile_comes_with_its_own_files_and_a_sheet_to_fill_in(run: Run, tmp_path: Path) -> None:
    """Every page of it says TOILE, and the pattern's own pages do not; the correction sheet lies beside it."""
    ran = run("draft", WEARER, RECIPE, "--out", "stays", "--paper", "a4", "--toile", "--no-pictures")
    names = {path.name for path in (tmp_path / "stays").iterdir()}
    assert ran.code == 0
    assert {"toile-a4.pdf", "toile.svg", "correction-a4.pdf", "pattern-a4.pdf"} <= names
    for name, marked in (("toile-a4.pdf", True), ("pattern-a4.pdf", False)):
        with pypdfium2.PdfDocument(tmp_path / "stays" / name) as document:
            says = [document[page].get_textpage().get_text_bounded() for page in range(len(document))]
        assert all(("TOILE" in page) is marked for page in says)


def test_a_band_is_refused_a_toile_before_anything_is_written(run: Run, tmp_path: Path) -> None:
    """The whole refusal, and an empty folder."""
    ran = run("draft", WEARER, "falling-collar", "--out", "collar", "--toile", "--no-pictures")
    assert (ran.code, ran.out) == (1, "")
    assert " ".join(ran.err.split()) == (
        "toile › “Falling collar” is a band and not fitted to a body, so it has no toile of its own. "
        "Draft it without --toile, and cut a trial piece 2 cm larger all round."
    )
    assert not list(tmp_path.iterdir())
