"""The correction sheet as questions in a terminal: what is answered becomes a notes file."""

from __future__ import annotations

import json
from collections.abc import Iterator

import click

from fanblock.cli.screen import say, wrapped
from fanblock.fitting.form import LOOKS
from fanblock.fitting.notes import FORMAT, sentence_list
from fanblock.fitting.sentences import LEVELS
from fanblock.units import parse_length

_PLACES = {"all round": "all round", "center back": "at the centre back", "center front": "at the centre front"}


def asked_notes(draft: int, units: str) -> str:
    """Return the text of a notes file for a draft, asked for question by question; Enter leaves a question out."""
    say(wrapped("Laced snug and comfortable, over the shift, a string round the waist. Look in this order:"))
    for number, look in enumerate(LOOKS, 1):
        say(wrapped(look, f"  {number}. ", "     "))
    say(wrapped(f"Lengths are in {units} unless you write another unit. Press Enter where there is nothing to say."))
    return "\n".join(_lines(draft, units)) + "\n"


def _lines(draft: int, units: str) -> Iterator[str]:
    yield from (f"fit: {FORMAT}", f"draft: {draft}", f"units: {units}")
    stand = click.prompt("Worn on the body, or on a stand", type=click.Choice(("body", "stand")), default="body")
    yield f"worn: {'on a stand' if stand == 'stand' else 'on the body'}"
    bones = click.prompt("Which bones were in", default="", show_default=False).strip()
    if bones:
        yield f"bones: {json.dumps(bones, ensure_ascii=False)}"
    lines = [_line(words, where, units) for where, words in _PLACES.items()]
    yield from _listed("line", [one for one in lines if one])
    gaps = {level: _length(f"Gap at the {level}", units) for level in LEVELS}
    said = ", ".join(f"{level}: {amount}" for level, amount in gaps.items() if amount)
    if said:
        yield f"gap: {{{said}}}"
    pinches = [_pinch(level, units) for level in LEVELS]
    yield from _listed("pinch", [one for one in pinches if one])
    yield from _listed("notes", list(_sentences(units)))


def _listed(key: str, items: list[str]) -> Iterator[str]:
    if items:
        yield f"{key}:"
        yield from (f"  - {item}" for item in items)


def _line(words: str, where: str, units: str) -> str:
    amount = _length(f"How far is the drawn waist off the string {words}", units)
    if not amount:
        return ""
    side = click.prompt("Above or below it", type=click.Choice(("above", "below")))
    return f"{{waist: {amount} {side} string, where: {where}}}"


def _pinch(level: str, units: str) -> str:
    amount = _length(f"What you pinch in all at the {level}", units)
    if not amount:
        return ""
    where = click.prompt("Where: front, side, back, all round, or a seam", default="side").strip()
    return f"{{at: {json.dumps(where, ensure_ascii=False)}, height: {level}, take: {amount}}}"


def _sentences(units: str) -> Iterator[str]:
    """Ask which sentences are true, by their numbers, then how much of each."""
    sentences = sentence_list()
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
