"""Readers of the header lines that settle how words are read: terms, stitches, turning chains, readings, draft."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from .. import late_re as re
from ..findings import Edit, Findings, Severity
from ..source import ReadStatement
from . import syntax
from .composed import composed, parts_of
from .declared import declared_stitch, derived
from .gauges import read_gauge
from .keys import NO, SHOWN, STITCH_OF_CHAINS, TERMS, TERMS_OF_WORD, YES
from .measuring import parts
from .near import nearest
from .other_terms import OTHER_TERMS
from .quantities import BadQuantity
from .vocabulary import Stitch, stitches, words, words_of

Reader = Callable[[syntax.HeaderLine, syntax.Header, Findings], None]

# --- terms, draft, show -----------------------------------------------------------------------------------------


def _terms(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``Terms: US``, "UK terms", "American", "letters", "de"."""
    text, at = line.statement.text, line.value_start
    written = re.sub(r"\b(?:crochet|terms?|terminology|english|abbreviations)\b", " ", text[at:].lower()).strip(" .")
    head = re.split(r"[(,;/]| and | with ", written)[0].strip(" .")
    end = at + len(text[at:].rstrip())
    if "/" in written and {TERMS_OF_WORD.get(word.strip()) for word in written.split("/")} >= {"US", "UK"}:
        raise BadQuantity(at, end, "A pattern is read in one system of terms; two are named here.",
                          "Write US or UK.", "unknown-option")
    terms = TERMS_OF_WORD.get(head)
    if terms is None:
        near = nearest(head, TERMS_OF_WORD)
        known = TERMS_OF_WORD[near] if near else None
        raise BadQuantity(at, end, f"{line.value or 'Nothing'} is no system of terms that I know"
                          + (f"; did you mean {known}?" if known else "."),
                          f"Write {known}." if known else "Write US, UK, letters or the code of a language, as de.",
                          "unknown-option", known)
    if terms not in ("US", "UK", *OTHER_TERMS):
        raise BadQuantity(at, end, f"Patterns in {TERMS[terms][1].capitalize()} can't be read yet; this one is read as US terms.",
                          f"Write the rounds in US or UK terms, or in one of {', '.join(OTHER_TERMS)}.", "unknown-option")
    header.terms = terms


def _draft(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text, at = line.statement.text, line.value_start
    word = text[at:].strip(" .").lower()
    if word not in YES | NO:
        raise BadQuantity(at, max(at + 1, len(text.rstrip())),
                          f"Draft is yes or no; {line.value or 'nothing'} is written.",
                          "Write Draft: yes or Draft: no.", "unknown-option")
    header.draft = word in YES


def _show(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text = line.statement.text
    for left, right in parts(text, line.value_start):
        name = text[left:right].strip(" .").lower()
        if name in SHOWN:
            header.show.append(name)
            continue
        near = nearest(name, SHOWN)
        span = line.statement.span(left, right)
        findings.add("unknown-option", span, f"{text[left:right]} is nothing that can be shown"
                     + (f"; did you mean {near}?" if near else "."),
                     suggestion=f"Write {near}." if near else f"Choose from {', '.join(SHOWN)}.",
                     edits=(Edit(span, near),) if near else ())


# --- stitches ---------------------------------------------------------------------------------------------------

_RELATION = re.compile(r"=|:| - |\bmeans\b|\bis\b")
_ALSO = re.compile(r"\(([^()]{1,20})\)\s*$")
_BRACKETED = re.compile(r"[\w/-]{1,12} \([^()]{1,60}\)")
_PROPERTY = re.compile(r"\s*(?:uses?|takes?|makes?|yarn|counts?)\b", re.IGNORECASE)


def _special(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``bobble = 5 dc closed together in one st; uses 1, makes 1, yarn 3 sc``; several are parted by semicolons."""
    text, at = line.statement.text, line.value_start
    groups: list[list[int]] = []
    for left, right in parts(text, at, marks=";"):
        if _RELATION.search(text, left, right) and not _PROPERTY.match(text, left, right) or not groups:
            groups.append([left, right])
        else:
            groups[-1][1] = right
    for left, right in groups:
        _one_special(line, header, findings, left, right)


def _one_special(line: syntax.HeaderLine, header: syntax.Header, findings: Findings, left: int, right: int) -> None:
    text = line.statement.text
    relation = _RELATION.search(text, left, right)
    if relation is None:
        if text[left:right].strip(" .").lower() in ("none", "no"):
            return
        raise BadQuantity(left, right, f"Nothing says what {text[left:right][:40]} is.",
                          "Write it as in bobble = 5 dc closed together in one st; uses 1, makes 1.")
    stitch, settled = declared_stitch(text, (left, relation.start()), (relation.end(), right), header.terms)
    if parts := parts_of(text[relation.end() : right], header.terms):
        stitch, settled = composed(stitch, parts), True
    for start, end in _names(text, left, relation.start()):
        _declare(line, header, findings, start, end, _shown(line, relation.end(), right), stitch, True)
    if not settled:
        findings.add("style", line.statement.span(left, right),
                     f"Nothing says how many stitches {stitch.name} is worked into and how many it counts as; "
                     "one and one are taken.", suggestion="Add: uses 1, makes 1.")


def _names(text: str, left: int, right: int) -> Iterator[tuple[int, int]]:
    """The name and, in a bracket behind it, its abbreviation: "Bobble (bo)"."""
    also = _ALSO.search(text[left:right])
    if also:
        yield left, left + len(text[left : left + also.start()].rstrip())
        yield left + also.start(1), left + also.end(1)
    else:
        yield left, left + len(text[left:right].rstrip())


def _abbreviations(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``bo = bobble; rsc = reverse sc`` or ``sc - single crochet, inc - increase``; a text may hold commas."""
    text, at = line.statement.text, line.value_start
    entries: list[list[int]] = []
    for left, right in parts(text, at, marks=";" if ";" in text[at:] else ",;"):
        if _RELATION.search(text, left, right) or _BRACKETED.fullmatch(text, left, right) or not entries:
            entries.append([left, right])
        else:
            entries[-1][1] = right
    for left, right in entries:
        relation = _RELATION.search(text, left, right)
        bracket = _ALSO.search(text[left:right])
        if relation:
            start, end = left, relation.start()
            meaning = text[relation.end() : right].strip(" .")
        elif bracket:  # "sc (single crochet)"
            start, end = left, left + len(text[left : left + bracket.start()].rstrip())
            meaning = bracket.group(1).strip()
        else:
            continue
        shown = _shown(line, relation.end(), right) if relation else meaning
        _declare(line, header, findings, start, end, shown.strip(" ."), derived(meaning, header.terms, header.special), False)


def _shown(line: syntax.HeaderLine, left: int, right: int) -> str:
    """What readers see of a meaning: the writer's own words, also where English ones were read for them."""
    statement = line.statement
    own = isinstance(statement, ReadStatement)
    return (statement.as_written(left, right) if own else statement.text[left:right]).strip()


def _declare(
    line: syntax.HeaderLine, header: syntax.Header, findings: Findings, start: int, end: int, meaning: str,
    stitch: Stitch | None, special: bool,
) -> None:
    word = line.statement.text[start:end].strip()
    if not word:
        raise BadQuantity(start, end + 1, "A word is missing before the sign.", "Write it as in bo = bobble.")
    before = header.special.get(word.lower())
    if before and before.text.lower() != meaning.lower() and before.stitch != stitch and before.special == special:
        findings.add("two-meanings", line.statement.span(start, end),
                     f"{word} stands for {before.text} in line {before.statement.line} and for {meaning} here.",
                     suggestion="Give one of the two another name.")
        return
    if not special and stitch is not None:
        _against_standard(line, header, findings, start, end, meaning, stitch)
    if before is None or special:
        header.special[word.lower()] = syntax.SpecialStitch(word, meaning, stitch, line.statement, special)


def _against_standard(
    line: syntax.HeaderLine, header: syntax.Header, findings: Findings, start: int, end: int, meaning: str, stitch: Stitch
) -> None:
    """A word of the trade declared as a stitch that is worked into or counts as another number."""
    word = line.statement.text[start:end].strip()
    table = words("UK" if header.terms == "UK" else "US")
    usual = table.get(words_of(word)) or (table.get((word.lower()[-3:],)) if word.lower().endswith(("inc", "dec")) else None)
    if usual is None or usual.kind not in ("plain", "increase", "decrease") or (usual.uses, usual.makes) == (stitch.uses, stitch.makes):
        return
    findings.add(
        "two-meanings", line.statement.span(start, end),
        f"{word} is usually {'an' if usual.name[0] in 'aeiou' else 'a'} {usual.name}, {usual.makes} from {usual.uses}; here it is {meaning[:60]}, {stitch.makes} from {stitch.uses}. "
        "It is read as declared.",
        severity=Severity.WARNING, suggestion="Write another abbreviation, or correct what it stands for.",
    )  # fmt: skip


# --- questions that the writer answers ---------------------------------------------------------------------------

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


def _turning_chain(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    for left, right, clause in _clauses(line):
        if not _turning(line, header, clause):
            raise _unread(left, right, clause, "dc counts as a stitch, sc does not count")


def _turning(line: syntax.HeaderLine, header: syntax.Header, clause: str) -> bool:
    counts, heights = _counts(clause), _heights(clause, header.terms)
    for key in heights if counts is not None else ():
        _answer(header, line, f"turning-chain {key}", "counts" if counts else "does not count")
    return counts is not None and bool(heights)


def _slip_stitches(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    counts = _counts(line.value)
    if counts is None:
        raise _unread(line.value_start, len(line.statement.text), line.value, "Slip stitches: do not count")
    _answer(header, line, "slip-stitches", "count" if counts else "do not count")


def _reading(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
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


# --- when all lines are read -------------------------------------------------------------------------------------


def settle(header: syntax.Header, findings: Findings) -> None:
    """Read once more in the declared terms what stood before them, and report a letter with two meanings."""
    gauge = header.first("gauge")
    if header.terms == "UK" and gauge and header.gauge:
        header.gauge = read_gauge(gauge.statement.text, gauge.value_start, system="UK") or header.gauge
    for word, special in header.special.items():
        if special.stitch is None:
            special.stitch = derived(special.text, header.terms, header.special)
            if special.stitch is None and (made_of := parts_of(special.text, header.terms)):
                special.stitch = composed(Stitch(word, special.word), made_of)
        color = next((key for key in header.colors if key.lower() == word), None)
        if color and special.stitch is not None:
            findings.add("two-meanings", special.statement.span(),
                         f"{special.word} is a colour in line {header.colors[color].statement.line} and a stitch here.",
                         suggestion="Give one of the two another letter.")


READERS: dict[str, Reader] = {
    "terms": _terms, "draft": _draft, "show": _show, "special stitch": _special, "abbreviations": _abbreviations,
    "turning chain": _turning_chain, "slip stitches": _slip_stitches, "reading": _reading,
}
