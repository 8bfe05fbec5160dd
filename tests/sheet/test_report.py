"""The report: one page that needs nothing else, hides nothing and runs nothing."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from defusedxml import ElementTree
from tests.sheet.real import drafted
from tests.sheet.sample import sample

from fanblock.pattern.model import Note
from fanblock.sheet.drawing import Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.layout import laid_out
from fanblock.sheet.report import report_html

VOID = {"meta", "br", "hr", "img", "input", "link"}
HOSTILE = "<script>alert('x')</script> & \"quoted\" </title></style>"


class Page(HTMLParser):
    """Reads a page: its tags, its attributes, its text, and whether tags nest."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag and open it."""
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag that closes itself."""
        self.tags.append(tag)
        self.attributes += attrs

    def handle_endtag(self, tag: str) -> None:
        """Close a tag; it must be the one opened last."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Gather text that is not style."""
        if not self.open or self.open[-1] != "style":
            self.text += data


def read(text: str) -> Page:
    """The page as a parser sees it, wholly closed."""
    page = Page()
    page.feed(text)
    page.close()
    assert page.open == []
    return page


@pytest.mark.parametrize("pattern", [sample(), sample(sound=False), drafted("ferrywoman", "stays-five-panels")])
def test_it_opens_and_its_tags_nest(pattern: object) -> None:
    """The page parses as HTML with every tag closed, and as XML too."""
    text = report_html(pattern)  # type: ignore[arg-type]
    assert {"svg", "table", "h1", "section"} <= set(read(text).tags)
    ElementTree.fromstring(text.split("\n", 1)[1])


def test_it_reaches_for_nothing_outside() -> None:
    """No address, no script, no import, no picture from elsewhere."""
    text = report_html(drafted("ferrywoman", "stays-five-panels"))
    page = read(text)
    assert not re.search(r"https?:|//[a-z]|url\(|@import|javascript:", text)
    assert not {"script", "link", "img", "iframe", "object"} & set(page.tags)
    assert not {"src", "href", "onload", "onclick"} & {name for name, _ in page.attributes}


def test_ids_are_its_own() -> None:
    """No id stands twice on the page, though it holds several pictures."""
    page = read(report_html(sample()))
    ids = [value for name, value in page.attributes if name == "id"]
    assert len(ids) == len(set(ids))


def test_hostile_names_are_text() -> None:
    """A name that looks like markup is shown, never obeyed."""
    text = report_html(sample(hostile=HOSTILE))
    page = read(text)
    assert "<script" not in text
    assert "script" not in page.tags
    assert "<script>alert('x')</script>" in page.text


def test_sound_says_what_it_does_not_mean() -> None:
    """SOUND stands with its limits beside it."""
    said = read(report_html(sample())).text
    assert "SOUND: it adds up and sews up. Whether it fits only a toile tells." in said
    assert "NOT SOUND" not in said


def test_not_sound_says_what_fails() -> None:
    """An unsound pattern says so first, with what fails."""
    said = read(report_html(sample(sound=False))).text
    assert "NOT SOUND" in said
    assert said.index("Seam B: its edges differ by 1.3 mm.") < said.index("Look at these on the toile")


def test_five_numbers_stand_before_any_picture() -> None:
    """What a tape can check comes first."""
    text = report_html(sample())
    sentence = (
        "Above the waist it stands centre front 21.2 cm; under the arm, at its lowest, 16.0 cm; centre back along the "
        "lacing edge 25.9 cm; the waist as worn is 68.6 cm, of which 5.0 cm is gap."
    )
    assert text.index(sentence) < text.index("<svg")


@pytest.mark.parametrize(
    "word",
    [
        "pregnancy",
        "surgery",
        "heart",
        "lung",
        "children",
        "clinician",
        "undo you",
        "20 to 30 minutes",
        "numb",
        "scissors",
        "tenth of the waist",
        "toile",
    ],
)
def test_cautions_are_given(word: str) -> None:
    """The usual cautions of lacing are in the report (common practice, no source)."""
    assert word in read(report_html(sample())).text


def test_notes_checks_cuts_and_dials_are_shown() -> None:
    """Guesses, warnings, every check, the cut list and the dials are on the page."""
    pattern = sample()
    said = read(report_html(pattern)).text
    for note in pattern.notes:
        assert note.says.removeprefix("GUESSED: ") in said
    for finding in pattern.findings:
        assert finding.says in said
    for name, words, _ in pattern.dials:
        assert name in said
        assert words in said
    assert "outer: 1 pair, strength: 2 pairs, lining: 1 pair" in said


def test_same_pattern_same_page() -> None:
    """Twice the same bytes."""
    assert report_html(sample()) == report_html(sample())


def test_a_guess_is_said_once_and_memory_is_owned() -> None:
    """Under the heading for guesses none begins GUESSED again, and memory is said to be memory of the trade."""
    pattern = replace(sample(), notes=(Note("guess", "GUESSED: held bust: 18 cm (from memory: measure raised)"),))
    said = read(report_html(pattern)).text
    assert "GUESSED" not in said
    assert "Held bust: 18 cm (from memory of the trade, not measured: measure raised)" in said


def test_words_of_the_trade_are_explained() -> None:
    """Draft and code, turn, dial, take, truing and memory each have one line."""
    text = report_html(sample())
    for word in ("draft 2 · code 7F3A", "block", "dial", "take", "truing", "from memory"):
        assert f"<dt>{word}</dt>" in text
    assert re.search(r"<dt>turns \d+°</dt>", text)
    assert "Same code, same papers" in text


def test_the_toile_has_a_box_of_its_own() -> None:
    """How to cut and lace a toile, and what is not planned, stand after the sewing order."""
    said = read(report_html(sample())).text
    assert said.index("Join A to A") < said.index("For the toile") < said.index("not planned on these sheets")


def test_the_title_of_the_pieces_has_room_in_any_font() -> None:
    """On a screen without our font the title is shown in a wider one: a fifth more than its width is kept for it."""
    drawing = laid_out(sample())
    title = next(group for group in drawing.groups if group.name == "title")
    words = max((item for item in title.items if isinstance(item, Words)), key=lambda item: item.size_mm)
    assert words.x + 1.19 * width_mm(words.text, words.size_mm, words.bold) < drawing.width_mm


def test_paper_counts_what_holds_and_lists_what_does_not() -> None:
    """Every check stands on the page; on paper those that hold are left to their family's tally."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    text = report_html(pattern)
    seams = [finding for finding in pattern.findings if finding.family == "seams"]
    assert {finding.state for finding in seams} == {"holds"}
    assert f'Seams</th><th class="n" colspan="2">{len(seams)} hold</th>' in text
    assert text.count('<tr class="check-holds">') == sum(finding.state == "holds" for finding in pattern.findings)
    assert "tr.check-holds { display: none; }" in text[text.index("@media print") :]
    assert "tr.check-holds" not in text[: text.index("@media print")]
