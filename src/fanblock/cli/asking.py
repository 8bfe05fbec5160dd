"""The correction sheet as questions in a terminal: what is answered becomes a notes file."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence

import click

from fanblock.cli.screen import say, wrapped
from fanblock.fitting.notes import FORMAT
from fanblock.fitting.questions import Questions
from fanblock.fitting.sentences import Sentence
from fanblock.fitting.state import told_length
from fanblock.units import parse_length

_PLACES = {
    "all round": "all round",
    "center back": "at the centre back",
    "center front": "at the centre front",
    "left side": "at the left side",
    "right side": "at the right side",
}

_UNITS = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}
"""What the units are called in a sentence."""


def asked_notes(draft: int, questions: Questions, code: str = "") -> str:
    """Return the text of a notes file for a draft, asked for question by question; Enter leaves a question out."""
    say(wrapped(f"{questions.before} Look in this order:"))
    for number, look in enumerate(questions.looks, 1):
        say(wrapped(look, f"  {number}. ", "     "))
    say(
        wrapped(
            f"Lengths are in {_UNITS[questions.units]} unless you write another unit. Press Enter where there is nothing to say."
        )
    )
    return "\n".join(_lines(draft, questions, code)) + "\n"


def _lines(draft: int, questions: Questions, code: str) -> Iterator[str]:
    units = questions.units
    yield from (f"fit: {FORMAT}", f"draft: {draft}", *([f"code: {code}"] if code else []), f"units: {units}")
    stand = click.prompt("Worn on the body, or on a stand", type=click.Choice(("body", "stand")), default="body")
    yield f"worn: {'on a stand' if stand == 'stand' else 'on the body'}"
    bones = click.prompt("Which bones were in", default="", show_default=False).strip() if questions.boned else ""
    if bones:
        yield f"bones: {json.dumps(bones, ensure_ascii=False)}"
    if questions.levels:
        yield from _measured(questions)
    yield from _listed("notes", list(_sentences(questions.spoken, units)))


def _measured(questions: Questions) -> Iterator[str]:
    """Ask for the waist line, the gap and the pinches at every level."""
    units = questions.units
    lines = [_line(f"{questions.line} off the string {words}", where, units) for where, words in _PLACES.items()]
    yield from _listed("line", [one for one in lines if one])
    say(wrapped(questions.how))
    gaps = {
        level: _length(f"{questions.gap[:1].upper()}{questions.gap[1:]} at the {called} ({_should(mm, units)})", units)
        for level, called, mm in questions.levels
    }
    said = ", ".join(f"{level}: {amount}" for level, amount in gaps.items() if amount)
    if said:
        yield f"gap: {{{said}}}"
    pinches = [_pinch(level, called, units) for level, called, _ in questions.levels]
    yield from _listed("pinch", [one for one in pinches if one])


def _should(mm: float, units: str) -> str:
    return f"should be {told_length(mm, units) if mm else '0'}"


def _listed(key: str, items: list[str]) -> Iterator[str]:
    if items:
        yield f"{key}:"
        yield from (f"  - {item}" for item in items)


def _line(words: str, where: str, units: str) -> str:
    amount = _length(f"How far is the {words}", units)
    if not amount:
        return ""
    side = click.prompt("Above or below it", type=click.Choice(("above", "below")))
    return f"{{waist: {amount} {side} string, where: {where}}}"


def _pinch(level: str, called: str, units: str) -> str:
    amount = _length(f"What you pinch in all at the {called}", units)
    if not amount:
        return ""
    where = click.prompt("Where: front, side, back, all round, or a seam", default="side").strip()
    half = click.prompt("In which half", type=click.Choice(("both", "left", "right")), default="both")
    own = "" if half == "both" else f", half: {half}"
    return f"{{at: {json.dumps(where, ensure_ascii=False)}, height: {level}, take: {amount}{own}}}"


def _sentences(sentences: Sequence[Sentence], units: str) -> Iterator[str]:
    """Ask which sentences are true, by their numbers, then how much of each."""
    for number, sentence in enumerate(sentences, 1):
        say(wrapped(sentence.words, f"  {number:2}  ", "      "))
    while True:
        typed = click.prompt("The numbers of what you see, with spaces between", default="", show_default=False)
        numbers = typed.replace(",", " ").split()
        if all(one.isascii() and one.isdigit() and 1 <= int(one[:4]) <= len(sentences) for one in numbers):
            break
        say(wrapped(f"Write numbers from 1 to {len(sentences)}, or nothing."))
    for one in dict.fromkeys(int(number) for number in numbers):
        sentence = sentences[one - 1]
        amount = _length(f"{sentence.words}: {sentence.asks}", units) if sentence.effects else ""
        yield f"{sentence.words}: {amount}" if amount else sentence.words
    while free := click.prompt("Anything else in your own words", default="", show_default=False).strip():
        yield json.dumps(free, ensure_ascii=False)


def _length(question: str, units: str) -> str:
    """Ask for a length until it is one, or nothing."""
    while True:
        typed = str(click.prompt(question, default="", show_default=False)).strip()
        if not typed:
            return ""
        try:
            parse_length(typed, units)
        except ValueError as error:
            say(wrapped(str(error)))
            continue
        return typed
