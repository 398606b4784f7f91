"""One reading for the whole pattern: which answers to the open questions let most rounds pass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import product

from ..language import syntax
from .questions import TURNING, Answers, answer_of, default

_MOST_OPEN = 10  # questions searched together; the ten that most rounds put
_IN_ONE_ROUND = 4
HDC = f"{TURNING} hdc"


@dataclass(slots=True)
class Speaker:
    """A round that holds an undeclared form and states a count. ``passes`` judges it under given answers."""

    line: syntax.RoundLine
    questions: tuple[str, ...]
    passes: Callable[[dict[str, bool]], bool]


@dataclass(slots=True)
class Words:
    """What rounds say themselves: the question, the answer, the name of the round, whether it holds throughout."""

    question: str
    answer: bool
    name: str
    throughout: bool


@dataclass(slots=True)
class Choice:
    """The answers chosen; ``why`` by question; questions that nothing decides, and those that one round decides."""

    answers: Answers
    why: dict[str, str] = field(default_factory=dict)
    undecided: list[str] = field(default_factory=list)
    guessed: dict[str, syntax.RoundLine] = field(default_factory=dict)
    told: dict[str, str] = field(default_factory=dict)  # question -> the round whose own words decide


Table = tuple[tuple[str, ...], tuple[bool, ...]]


def declared(header: syntax.Header) -> Answers:
    """The answers that header lines give."""
    given = {question: answer_of(question, answer) for question, answer in header.readings.items()}
    return Answers(given, frozenset(given))


def choose(base: Answers, speakers: list[Speaker], words: list[Words], silent: Counter[str]) -> Choice:
    """Chooses one answer to each open question. *silent* are the questions put, by how many rounds."""
    given, why = dict(base.given), {question: "declared" for question in base.declared}
    bound = set(base.declared)
    for word in words:
        if word.throughout and word.question not in bound:
            bound.add(word.question)
            given[word.question] = word.answer
            why[word.question] = f"{word.name} says so for the whole pattern"
    tables = [_table(speaker, bound, given) for speaker in speakers]
    open_questions = _most_put(speakers, bound)
    told = _told(words, bound)
    found = _best(tables, open_questions)
    choice = Choice(Answers(given, frozenset(bound)), why)
    for question in open_questions:
        _settle(choice, question, found, tables, told, speakers, given)
    for question, (answer, name) in told.items():
        if question not in open_questions and silent[question]:
            given[question] = answer
            why[question] = f"{name} says so"
            choice.told[question] = name
    if silent[HDC] and HDC not in bound and HDC not in why and HDC not in choice.undecided:
        choice.undecided.append(HDC)
    choice.answers = Answers(given, frozenset(bound))
    return choice


def _most_put(speakers: list[Speaker], bound: set[str]) -> list[str]:
    put = Counter(question for speaker in speakers for question in speaker.questions if question not in bound)
    return [question for question, _ in put.most_common(_MOST_OPEN)]


def _told(words: list[Words], bound: set[str]) -> dict[str, tuple[bool, str]]:
    """Own words of rounds, where all that speak of a stitch agree."""
    told: dict[str, tuple[bool, str]] = {}
    differing: set[str] = set()
    for word in words:
        if word.question in bound:
            continue
        if word.question in told and told[word.question][0] != word.answer:
            differing.add(word.question)
        told.setdefault(word.question, (word.answer, word.name))
    return {question: said for question, said in told.items() if question not in differing}


def _table(speaker: Speaker, bound: set[str], given: dict[str, bool]) -> Table:
    """Whether the round passes, for each combination of answers to its open questions, in the order of product()."""
    questions = tuple(question for question in speaker.questions if question not in bound)[:_IN_ONE_ROUND]
    fixed = {question: answer for question, answer in given.items() if question in bound}
    return questions, tuple(
        speaker.passes({**fixed, **dict(zip(questions, answers, strict=True))}) for answers in _combinations(len(questions))
    )


def _combinations(number: int) -> Iterator[tuple[bool, ...]]:
    return product((False, True), repeat=number)


def _look_up(table: Table, answers: dict[str, bool]) -> bool:
    index = 0
    for question in table[0]:
        index = 2 * index + answers.get(question, default(question))
    return table[1][index]


def _best(tables: list[Table], questions: list[str]) -> dict[str, bool]:
    """The answers under which most rounds pass; of equal ones those with the most defaults."""
    grouped = Counter(table for table in tables if table[0])
    best: dict[str, bool] = {question: default(question) for question in questions}
    best_rank = (-1, 0)
    for combination in _combinations(len(questions)):
        answers = dict(zip(questions, combination, strict=True))
        score = sum(count for table, count in grouped.items() if _look_up(table, answers))
        rank = (score, sum(answers[question] == default(question) for question in questions))
        if rank > best_rank:
            best, best_rank = answers, rank
    return best


def _settle(
    choice: Choice, question: str, found: dict[str, bool], tables: list[Table], told: dict[str, tuple[bool, str]],
    speakers: list[Speaker], given: dict[str, bool],
) -> None:  # fmt: skip
    """Enters the answer to one question, with the reason for it."""
    answer = found[question]
    with_it = {**found, question: True}
    without = {**found, question: False}
    mine = [index for index, table in enumerate(tables) if question in table[0]]
    for_true = [index for index in mine if _look_up(tables[index], with_it) and not _look_up(tables[index], without)]
    for_false = [index for index in mine if _look_up(tables[index], without) and not _look_up(tables[index], with_it)]
    if question in told:
        said, name = told[question]
        against = len(for_false) - len(for_true) if said else len(for_true) - len(for_false)
        if against < 2:
            given[question] = found[question] = said
            choice.why[question] = f"{name} says so"
            choice.told[question] = name
            return
    deciding = for_true if answer else for_false
    usual = default(question)
    if question == f"{TURNING} sc" and answer != usual and len(deciding) - len(for_false) < 2:
        answer, deciding = usual, []  # a chain 1 that counts is rare: one round is rather a slip
    given[question] = found[question] = answer
    if len(for_true) == len(for_false):
        _tied(choice, question, bool(for_true), any(any(tables[index][1]) for index in mine))
        return
    if answer == usual and question != HDC:
        choice.why[question] = "usual" if not deciding else _rounds(len(deciding))
        return
    choice.why[question] = _rounds(len(deciding)) if deciding else "usual"
    if answer != usual and len(deciding) == 1:
        choice.guessed[question] = speakers[deciding[0]].line


def _tied(choice: Choice, question: str, both_speak: bool, any_passes: bool) -> None:
    """Nothing decides: worth a word where rounds speak for either side, or for hdc, which has no usual reading."""
    if question == f"{TURNING} sc":
        choice.why[question] = "usual"
    elif both_speak or question == HDC and any_passes:
        choice.undecided.append(question)
        choice.why[question] = "nothing decides"
    else:
        choice.why[question] = "usual"


def _rounds(number: int) -> str:
    return "one round adds up only so" if number == 1 else f"{number} rounds add up only so"
