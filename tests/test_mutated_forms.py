"""Real forms with a slip of the hand: whatever comes out, it is read or reported, and nothing is passed over in silence."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator

import pytest
from everything import checked
from forms.table import Form, all_forms

from mkdocs_stitchcheck.results import FileResult, Status
from mkdocs_stitchcheck.source import Statement

LOOK_ALIKE = dict(zip("aceopxyABCEHKMOPTXlI01-*x(),.:;'", "асеорхуАВСЕНКМОРТХIlOl–∗×（），。：；’", strict=True))
DOUBLED = "()[]{}*,;:.-=+x0123456789"
TYPED = "()[]{}<>*,;:.-=+x/&#|@~^%$!?\"'\\_ \t0279azSC\u00e9\u200b\u00a0"
WORD = re.compile(r"[^\W\d_]+|\d+|[^\w\s]")
EACH = 6  # mutants of a form


def mutants(form: Form, number: int = EACH) -> Iterator[str]:
    """Texts of the form with one slip each, after its start; the same ones at every run."""
    chance = random.Random(f"{form.name} {form.header}")
    written = "\n".join(form.lines)
    for _ in range(number):
        changed = chance.choice(WAYS)(written, chance)
        if changed != written and changed.strip():
            yield "\n".join([*form.lead, *changed.split("\n")]) + "\n"


def _without_a_sign(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text))
    return text[:at] + text[at + 1 :]


def _signs_swapped(text: str, chance: random.Random) -> str:
    at = chance.randrange(max(1, len(text) - 1))
    return text[:at] + text[at : at + 2][::-1] + text[at + 2 :]


def _a_sign_more(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(TYPED) + text[at:]


def _a_sign_twice(text: str, chance: random.Random) -> str:
    places = [at for at, sign in enumerate(text) if sign in DOUBLED]
    at = chance.choice(places or [0])
    return text[:at] + text[at] + text[at:]


def _a_look_alike(text: str, chance: random.Random) -> str:
    places = [at for at, sign in enumerate(text) if sign in LOOK_ALIKE]
    at = chance.choice(places or [0])
    return text[:at] + LOOK_ALIKE.get(text[at], text[at]) + text[at + 1 :]


def _without_a_word(text: str, chance: random.Random) -> str:
    word = chance.choice(list(WORD.finditer(text)) or [re.match("", text)])
    return text[: word.start()] + text[word.end() :] if word else text


def _a_word_twice(text: str, chance: random.Random) -> str:
    word = chance.choice(list(WORD.finditer(text)) or [re.match("", text)])
    return f"{text[: word.end()]} {word[0]}{text[word.end() :]}" if word else text


def _words_swapped(text: str, chance: random.Random) -> str:
    words = list(WORD.finditer(text))
    if len(words) < 2:
        return text
    at = chance.randrange(len(words) - 1)
    one, two = words[at], words[at + 1]
    return text[: one.start()] + two[0] + text[one.end() : two.start()] + one[0] + text[two.end() :]


WAYS = (
    _without_a_sign, _signs_swapped, _a_sign_more, _a_sign_twice, _a_look_alike, _without_a_word, _a_word_twice, _words_swapped,
)  # fmt: skip


def silences(text: str, result: FileResult) -> Iterator[str]:
    """Lines of *text* that are no part of what was read, or could not be read, and that no finding is about."""
    told: set[int] = set()
    for finding in result.findings:
        for span in (finding.span, *(label.span for label in finding.also)):
            told.update(range(span.line, span.end_line + 1))
    known: set[int] = set(told)
    for pattern in result.patterns:
        for line in pattern.rounds:
            lines = {part.number for part in line.syntax.statement.lines}
            known |= lines
            if line.status is Status.UNREAD and not lines & told:
                yield f"line {line.line} is unread and nothing says so"
            if line.status is Status.ON_TRUST and not line.trust:
                yield f"line {line.line} is on trust and nothing says why"
            if line.status is Status.MISMATCH and not any(finding.severity in ("error", "warning") for finding in result.findings):
                yield f"line {line.line} is wrong and nothing says so"
        statements: list[Statement | None] = [line.statement for line in pattern.syntax.header.lines]
        statements += [excuse for excuse, _ in pattern.syntax.excuses]
        for piece in pattern.syntax.pieces:
            statements += [piece.heading, *(line.statement for line in piece.lines)]
        known |= {part.number for one in statements if one is not None for part in one.lines}
    for number, line in enumerate(text.split("\n"), 1):
        if re.search(r"[^\W_]", line) and number not in known and "ntinued" not in line:  # a second heading of a piece is not kept
            yield f"line {number} is nowhere: {line!r}"


FORMS = all_forms()


@pytest.mark.parametrize("section", sorted({form.section for form in FORMS}))
def test_a_slip_of_the_hand_is_read_or_reported(section: str) -> None:
    silent = []
    for form in FORMS:
        if form.section != section:
            continue
        for text in mutants(form):
            silent += [f"{one}\n{text}" for one in silences(text, checked(text, "form.txt"))]
    assert not silent, f"{len(silent)}:\n" + "\n".join(silent[:5])
