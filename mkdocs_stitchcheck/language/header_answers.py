"""Readers of the header lines in which the writer answers a question: "Turning chain: dc counts as a stitch"."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings
from . import syntax
from .keys import STITCH_OF_CHAINS
from .measuring import parts
from .quantities import BadQuantity
from .vocabulary import stitches, words, words_of

_COUNTS = re.compile(
    r"\b(?:do(?:es)? not|don't|doesn't|never|not) count|\bcount(?:s|ed)?\b|\bignored?\b", re.IGNORECASE
)
_CHAIN_NUMBER = re.compile(r"\bch(?:ain)?s?[ -]?(\d)\b", re.IGNORECASE)
_STAR = re.compile(r"\*|\brep(?:eat)?s? from\b|\bstar\b", re.IGNORECASE)
_NUMBER = re.compile(r"\d{1,6}")


def _answer(header: syntax.Header, line: syntax.HeaderLine, question: str, answer: str) -> None:
    header.readings[question] = answer
    header.declared_at[question] = line.statement


def _counts(clause: str) -> bool | None:
    """Whether a clause says "counts" or "does not count"; None for neither."""
    found = _COUNTS.search(clause)
    if found is None:
        return None
    word = found.group().lower()
    return not (word.startswith(("do", "never", "not", "ignore")))


def _clauses(line: syntax.HeaderLine) -> Iterator[tuple[int, int, str]]:
    text = line.statement.text
    for left, right in parts(text, line.value_start, marks=",;"):
        yield left, right, text[left:right].strip(" .")


def _unread(left: int, right: int, clause: str, way_out: str) -> BadQuantity:
    return BadQuantity(left, right, f"What {clause[:60]} decides could not be read.", f"Write it as in {way_out}.",
                       "unknown-option")


def _heights(clause: str, system: str) -> list[str]:
    """The stitches whose turning chain a clause speaks of; every plain stitch where it names none."""
    table = words("UK" if system == "UK" else "US")
    plain = {key for key, stitch in stitches().items() if stitch.base == key}
    before = re.split(r"\bcount|\b(?:do|does) not|\bnot\b|\bis\b", clause, maxsplit=1)[0]
    for stretch in (before, clause):
        written = words_of(stretch)
        named = [table[tuple(written[i : i + n])].key for n in (4, 3, 2, 1) for i in range(len(written) - n + 1)
                 if tuple(written[i : i + n]) in table]
        named = [key for key in named if key in plain]
        if named:
            return [named[0]] if stretch is clause or "and" not in written else list(dict.fromkeys(named))
        chains = _CHAIN_NUMBER.search(stretch)
        if chains and stretch is clause:
            return [STITCH_OF_CHAINS[int(chains.group(1))]] if int(chains.group(1)) in STITCH_OF_CHAINS else []
    return sorted(plain)


def read_turning_chain(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    for left, right, clause in _clauses(line):
        if not _turning(line, header, clause):
            raise _unread(left, right, clause, "dc counts as a stitch, sc does not count")


def _turning(line: syntax.HeaderLine, header: syntax.Header, clause: str) -> bool:
    counts, heights = _counts(clause), _heights(clause, header.terms)
    for key in heights if counts is not None else ():
        _answer(header, line, f"turning-chain {key}", "counts" if counts else "does not count")
    return counts is not None and bool(heights)


def read_slip_stitches(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    counts = _counts(line.value)
    if counts is None:
        raise _unread(line.value_start, len(line.statement.text), line.value, "Slip stitches: do not count")
    _answer(header, line, "slip-stitches", "count" if counts else "do not count")


def read_readings(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``rep from * 5 times is 5 in all; 2 sc is two stitches; chains count``."""
    for left, right, clause in _clauses(line):
        answer = _read_clause(line, header, clause.lower())
        if answer is None:
            raise _unread(left, right, clause, "rep from * 5 times is 5 in all; 2 sc is two stitches; chains count")
        question, said = answer
        if question:
            _answer(header, line, question, said)


def _read_clause(line: syntax.HeaderLine, header: syntax.Header, clause: str) -> tuple[str, str] | None:
    """The question and answer of one clause; ("", "") where it was entered already, None where it could not be read."""
    counts = _counts(clause)
    if _STAR.search(clause):
        return _star(clause)
    if counts is not None and "turning" in clause:
        return ("", "") if _turning(line, header, clause) else None
    if counts is not None and re.search(r"\b(?:sl|slip|ss)\b", clause):
        return "slip-stitches", "count" if counts else "do not count"
    if counts is not None and re.search(r"\bch(?:ain)?s?\b", clause) and not _CHAIN_NUMBER.search(clause):
        return "chains-counted", "count" if counts else "do not count"
    if counts is not None and _CHAIN_NUMBER.search(clause):
        return ("", "") if _turning(line, header, clause) else None
    if re.search(r"\bspaces?\b|\bsps?\b", clause):
        if re.search(r"\border\b", clause):
            return "space-reach", "in order"
        return ("space-reach", "free") if re.search(r"\bfree(?:ly)?\b|\bany\b", clause) else None
    if re.search(r"\b(?:list|bracket|implicit|without)", clause):
        if re.search(r"\bonce\b|\bnot repeated\b", clause):
            return "implicit-repeat", "once"
        return ("implicit-repeat", "repeat") if "repeat" in clause else None
    return _number_stitch(clause)


def _star(clause: str) -> tuple[str, str] | None:
    numbers = [int(number) for number in _NUMBER.findall(clause)]
    if len(numbers) >= 2 and "more" not in clause:
        gap = numbers[1] - numbers[0]
        return ("star-repeat", "more" if gap else "all") if gap in (0, 1) else None
    if "more" in clause:
        return "star-repeat", "more"
    return ("star-repeat", "all") if re.search(r"\bin all\b|\btotal\b|\baltogether\b", clause) else None


def _number_stitch(clause: str) -> tuple[str, str] | None:
    if not re.search(r"\d ?[a-z]", clause):
        return None
    if re.search(r"\bin (?:one|the same|same|1|a single)\b|\binc(?:rease)?\b", clause):
        return "number-stitch", "in one"
    separate = re.search(r"\b2 st|\bseparate|\bone in each|\btwo\b", clause)
    return ("number-stitch", "separate") if separate else None
