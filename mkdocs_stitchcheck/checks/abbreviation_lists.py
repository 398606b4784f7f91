"""The writer's own list of abbreviations against the words of the rounds, and stitches explained too late."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Findings, Label, Severity
from ..language import syntax
from ..language.other_terms import OTHER_TERMS
from ..results import PatternResult
from .reading import said, steps, worked_lines

_WHOLE_LIST = 3  # a list with so many plain words of the trade is meant to be complete
_USUAL = re.compile(
    r"(?<![A-Za-z])(?:sl st|BLO|FLO|blo|flo|(?:FP|BP|fp|bp)(?:sc|hdc|dc|tr)|(?:sc|hdc|dc|tr|htr|dtr)\d?tog|(?:sc|hdc|dc|tr|htr|dtr|inc|dec|ch|sk|ss)s?)"
    r"(?![A-Za-z]|\d?tog)"
)
_PARTS = re.compile(r"[/,]| or |\(|\)")


def check_abbreviations(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unused-abbreviation and undefined-abbreviation, where the pattern has a list of its own. Each once a pattern."""
    listed = [special for special in pattern.header.special.values() if not special.special]
    line = pattern.header.first("abbreviations")
    if line is None or not listed or pattern.header.terms in OTHER_TERMS:
        return
    texts = [statement.text for statement in said(pattern)]
    texts += [other.value for other in pattern.header.lines if other.key not in ("abbreviations", "title")]
    words = "\n".join([*texts, pattern.prose])
    unused = [special for special in listed if not any(_stands(word, words) for word in _forms(special.word))]
    if unused:
        places = [(special.statement, at) for special in unused if (at := special.statement.text.find(special.word)) >= 0]
        spans = [statement.span(at, at + len(special.word)) for (statement, at), special in zip(places, unused, strict=False)]
        names = _and([special.word for special in unused])
        findings.add(
            "unused-abbreviation", spans[0] if spans else line.statement.span(),
            f"{names}: in the abbreviations, and no line uses {'it' if len(unused) == 1 else 'them'}.",
            suggestion="Leave out what is not used.", also=tuple(Label(span) for span in spans[1:]),
        )
    _undefined(pattern, listed, line, findings)


def _undefined(
    pattern: syntax.Pattern, listed: list[syntax.SpecialStitch], line: syntax.HeaderLine, findings: Findings
) -> None:
    defined = {form.lower() for special in pattern.header.special.values() for form in _forms(special.word)}
    if sum(bool(_USUAL.fullmatch(special.word.strip())) for special in listed) < _WHOLE_LIST:
        return
    spaced = [form for form in defined if " " in form]
    phrases = re.compile("|".join(rf"(?<![a-z]){re.escape(form)}(?![a-z])" for form in spaced), re.IGNORECASE) if spaced else None
    missing: dict[str, syntax.Line] = {}
    for _piece, worked in worked_lines(pattern):
        if worked.kind != "step":
            text = worked.statement.text if phrases is None else phrases.sub("", worked.statement.text)  # "inv dec" is no dec
            for match in _USUAL.finditer(text):
                word = match[0].lower().removesuffix("s") if match[0].lower() != "ss" else "ss"
                if not {word, f"{word}s"} & defined:
                    missing.setdefault(match[0], worked)
    if missing:
        findings.add(
            "undefined-abbreviation", line.statement.span(0, len(line.label)),
            f"{_and(list(missing))}: used in the rounds, and not in your abbreviations.",
            suggestion="Add them, or leave the list out: the page prints one made from what the rounds use.",
            also=tuple(Label(worked.statement.span(at, at + len(word)))
                       for word, worked in missing.items() if (at := worked.statement.text.find(word)) >= 0),
        )


def _forms(word: str) -> list[str]:
    """"st(s)" and "rnd/rnds" are several words."""
    whole = re.sub(r"\((?:s|es|ing)\)", "", word)
    return [part.strip() for part in _PARTS.split(whole) if part.strip()] or [word]


def _stands(word: str, texts: str) -> bool:
    end = "" if word[-1:].isdigit() or word[-1:] in ".)*" else r"(?:s|es)?(?![A-Za-z])"
    start = r"(?<![A-Za-z])" if word[:1].isalpha() else ""
    return re.search(start + re.escape(word) + end, texts, re.IGNORECASE) is not None


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


# --- explained too late ---------------------------------------------------------------------------------------------


def check_explained(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """explained-after-use: a special stitch is worked before the line that explains it."""
    late = {word: special for word, special in pattern.header.special.items() if special.special}
    if not late:
        return
    for piece in pattern.pieces:
        for line in piece.lines:
            if line.kind != "round":
                continue
            for word, special in list(late.items()):
                if special.statement.line <= line.line:
                    continue
                match = re.search(rf"(?<![a-z]){re.escape(word)}(?:s|es)?(?![a-z])", line.statement.text, re.IGNORECASE)
                if match:
                    del late[word]
                    findings.add(
                        "explained-after-use", line.statement.span(*match.span()),
                        f"{special.word} is worked here, and explained only in line {special.statement.line}.",
                        suggestion="Move the explanation to the top, before the first piece.", piece=piece.name,
                    )


# --- MC -------------------------------------------------------------------------------------------------------------


def check_ring_and_color(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """two-meanings: MC is the main colour, and a round begins in it as in a magic circle."""
    if "MC" not in pattern.header.colors:
        return
    for _piece, line in worked_lines(pattern):
        for step in steps(line):
            node = getattr(step, "place", None) or step
            ring = isinstance(step, syntax.Ring) or getattr(node, "kind", "") == "ring"
            match = re.search(r"\bMC\b", line.statement.text[node.start : node.end], re.IGNORECASE) if ring else None
            if match:
                findings.add(
                    "two-meanings", line.statement.span(node.start + match.start(), node.start + match.end()),
                    "MC is your main colour, and here it stands for a magic circle.", severity=Severity.WARNING,
                    suggestion="Write magic ring here, or MR.",
                )
                return
