"""How the pieces go together: how many there are, how far apart, and whether what is sewn together agrees."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.words import value_of
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Statement
from .reading import WORKED, heard, is_whole, last_round, made, one_of, worked_lines

_NUMBER = r"(\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"


# --- places on a round ----------------------------------------------------------------------------------------------

_APART = re.compile(
    rf"\b{_NUMBER} (?:sts?|stitches|sc|dc)\b (?:apart|between (?:them|the two|the eyes|both|each))|\bwith {_NUMBER} (?:sts?|stitches) between",
    re.IGNORECASE,
)


def check_places(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """too-far-apart: more than half of the round lies between two parts, so that they would meet at the back."""
    text = heard(pattern)
    if "apart" not in text and "between" not in text:
        return
    for at, piece in enumerate(pattern.pieces):
        for line in piece.lines:
            if line.kind not in WORKED or not isinstance(line, syntax.RoundLine):
                continue
            statement = line.statement.as_read()
            match = _APART.search(statement.text)
            there = _round_meant(line, piece, result, at) if match else None
            count = made(there) if there is not None else None
            if match is None or there is None or count is None:
                continue
            apart = value_of(match[1] or match[2])
            slack = 1 if "apart" in match[0].lower() else 0  # some count up to the other part's own stitch
            if apart > count / 2 + slack:
                findings.add(
                    "too-far-apart", statement.span(*match.span()),
                    f"{there.label} has {count} stitches; {apart} between them are more than half of the way around.",
                    suggestion="Count again from one to the other across the front, or compare the round.",
                )


def _round_meant(line: syntax.RoundLine, piece: syntax.Piece, result: PatternResult, at: int) -> RoundResult | None:
    """The round that a line names, else the last one before it in the same piece."""
    for reference in line.references:
        named = _piece_named(reference.piece, result) if reference.piece else result.pieces[at] if at < len(result.pieces) else None
        if named is None or not reference.rounds:
            continue
        first = reference.rounds[0][0]
        return next((one for one in named.rounds if one.first is not None and one.first <= first <= (one.last or one.first)), None)
    own = next((one for one in result.pieces if one.syntax is piece), None)
    before = [one for one in own.rounds if one.counts and one.line < line.line] if own is not None else []
    return before[-1] if before else None


def _piece_named(name: str, result: PatternResult) -> PieceResult | None:
    wanted = one_of(name.strip())
    return next((piece for piece in result.pieces if one_of(piece.name) == wanted), None)


# --- how many -------------------------------------------------------------------------------------------------------

_PAIRS = frozenset(
    ["ears", "arms", "legs", "wings", "eyes", "flippers", "feet", "paws", "fins", "hands", "antlers", "horns", "mittens", "mitts", "slippers", "sleeves", "straps", "gloves", "socks", "cuffs", "cheeks", "feelers", "antennae", "boots", "shoes", "hooves", "thumbs", "petals", "leaves", "spots", "spikes", "claws", "whiskers", "eyelids", "handles", "pockets"]
)
_SAYS_HOW_MANY = re.compile(
    r"\b(?:make|makes|both|two|three|four|second|other|each|repeat|twice|again|pair|x ?\d|\d ?x|\d+ pieces)\b", re.IGNORECASE
)


def check_how_many(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """how-many: a piece with the name of several, and nothing says how many are made. In whole patterns only."""
    if not is_whole(pattern.header):
        return
    for piece in result.pieces:
        heading = piece.syntax.heading
        if heading is None or piece.make != 1 or not piece.rounds:
            continue
        words = re.findall(r"[a-z]+", piece.name.lower())
        if not words or words[-1] not in _PAIRS or len(words) > 3 or "and" in words:
            continue
        said = [heading.words, *(line.statement.words for line in piece.syntax.lines if line.kind in ("note", "step"))]
        if any(_SAYS_HOW_MANY.search(text) for text in said) or _mentions_more(pattern, piece.name):
            continue
        start = heading.text.find(piece.name)
        findings.add(
            "how-many", heading.span(max(start, 0), max(start, 0) + len(piece.name)),
            f"Nothing says how many {piece.name.lower()} are made.",
            suggestion=f"Write it in the heading, as in {piece.name} (make 2).", piece=piece.name,
        )


def _mentions_more(pattern: syntax.Pattern, name: str) -> bool:
    named = re.compile(rf"\b(?:{_NUMBER}|both|make|second|each)\b[^.\n]{{0,30}}\b{re.escape(name.lower())}", re.IGNORECASE)
    return bool(named.search(pattern.prose)) or bool(re.search(rf"{re.escape(name)}[^.\n]{{0,20}}\bmake\b", pattern.prose, re.IGNORECASE))


def check_numbers_sewn(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """pieces-counted: a step sews on more of a piece than are made, or "all three" of another number.

    Also where the copies by colour, as in "one in A and one in C", are more or fewer than are made.
    """
    _by_color(pattern, findings)
    totals: dict[str, int] = {}
    for piece in result.pieces:
        if piece.rounds:
            words = re.findall(r"[a-z]+", one_of(piece.name))
            for name in {" ".join(words), *words[-1:]}:
                totals[name] = totals.get(name, 0) + piece.make
    if not totals:
        return
    for _piece, line in worked_lines(pattern):
        if line.kind != "step":
            continue
        statement = line.statement.as_read()
        for match in _COUNTED.finditer(statement.text):
            named = next((words for words in _endings(match["name"]) if one_of(words) in totals), None)
            if named is None:
                continue
            name = one_of(named)
            said = 2 if match["number"].lower() == "both" else value_of(match["number"])
            if said > totals[name] or match["all"] and said != totals[name]:
                number = totals[name]
                findings.add(
                    "pieces-counted", statement.span(match.start("number"), match.start("name") + len(named)),
                    f"{said} {named.lower()} are sewn on, and the pattern makes {number}.",
                    suggestion=f"Compare with the heading: make {said}, or sew on {number}.",
                )
        for match in _ORDERED.finditer(statement.text) if _SEWN.search(statement.text) else ():
            said = _ORDER[match["order"].lower()]
            if 0 < totals.get(match["name"].lower(), said) < said:
                findings.add(
                    "pieces-counted", statement.span(*match.span()),
                    f"The {match['order'].lower()} {match['name'].lower()} is sewn on, and the pattern makes {totals[match['name'].lower()]}.",
                    suggestion=f"Compare with the heading: make {said}, or leave this step out.",
                )


def _by_color(pattern: syntax.Pattern, findings: Findings) -> None:
    for piece in pattern.pieces:
        told = sum(number for _color, number in piece.copies)
        if piece.copies and told != piece.make and piece.heading is not None:
            findings.add(
                "pieces-counted", piece.heading.span(), f"{piece.make} are made of {piece.name}, and the colours say {told}.",
                suggestion="Compare how many are made with how many in each colour.", piece=piece.name,
            )


_ORDER = {"second": 2, "2nd": 2, "other": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_ORDERED = re.compile(rf"\b(?P<order>{'|'.join(_ORDER)}) (?P<name>[a-z]+)\b(?! (?:side|end|edge|half|row|rnd|round|st|stitch))", re.IGNORECASE)
_SEWN = re.compile(r"\b(?:sew|attach|stitch|pin)\b", re.IGNORECASE)


_COUNTED = re.compile(
    rf"\b(?P<all>all )?(?:the )?(?P<number>both|{_NUMBER[1:-1]}) (?P<name>[a-z]+(?: [a-z]+)?)", re.IGNORECASE
)


def _endings(words: str) -> Iterator[str]:
    """"front legs": itself, then its words that are plurals."""
    first = words.split()[0]
    yield from (form for form in (words, first) if form.lower().endswith(("s", "feet", "antennae")))


# --- what is sewn together ------------------------------------------------------------------------------------------

_STITCH_FOR_STITCH = re.compile(
    r"\bstitch (?:for|by|to) stitch\b|\bst (?:for|by|to) st\b|\bmatch(?:ing)? (?:up )?(?:the )?(?:sts|stitches|stitch counts?)\b",
    re.IGNORECASE,
)
_OWN_STITCHES = re.compile(rf"\bthe {_NUMBER} (?:open |free |remaining |last )?(?:sts|stitches) of (?:the )?(?P<name>[a-z]+(?: [a-z]+)?)", re.IGNORECASE)


def check_seams(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """seam-mismatch: pieces sewn stitch for stitch that have other numbers of stitches, or a number no piece has."""
    for _piece, line in worked_lines(pattern):
        if line.kind != "step":
            continue
        statement = line.statement.as_read()
        text = statement.text
        if match := _STITCH_FOR_STITCH.search(text):
            _stitch_for_stitch(statement, match, result, findings)
        for own in _OWN_STITCHES.finditer(text):
            piece = next((found for words in (own["name"], own["name"].split()[0]) if (found := _piece_named(words, result))), None)
            last = _end(piece) if piece is not None else None
            if piece is not None and last is not None and last != value_of(own[1]):
                findings.add(
                    "seam-mismatch", statement.span(own.start(), own.end()),
                    f"{piece.name} ends with {last} stitches, not {value_of(own[1])}.",
                    suggestion=f"Write {last}, or compare the last rounds of {piece.name}.",
                )


def _stitch_for_stitch(statement: Statement, match: re.Match[str], result: PatternResult, findings: Findings) -> None:
    named: list[tuple[str, int]] = []
    for piece in result.pieces:
        last = _end(piece)
        if last is not None and re.search(rf"\b{re.escape(one_of(piece.name))}s?\b", statement.text, re.IGNORECASE):
            named.append((piece.name, last))
    if len(named) == 2 and named[0][1] != named[1][1]:
        (one, ends), (other, other_ends) = named
        findings.add(
            "seam-mismatch", statement.span(*match.span()),
            f"{one} ends with {ends} stitches and {other} with {other_ends}; they do not meet stitch for stitch.",
            suggestion="Compare the last rounds of both, or say how the wider one is eased in.",
        )


def _end(piece: PieceResult) -> int | None:
    """The stitches at the open end of a piece; None where it is drawn shut or not known."""
    last = piece.rounds[-1] if piece.rounds and piece.flattened else last_round(piece)
    return made(last) if last is not None and not piece.closed else None


_GENERAL = re.compile(r"\b(?:everything|pieces|parts|all of|limbs|rest|others|remaining)\b", re.IGNORECASE)
_FOR_SEWING = re.compile(r"\b(?:for sewing|to sew|for attaching|to attach|sewing tail)\b", re.IGNORECASE)


def check_attached(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """piece-not-attached: a tail is left for sewing, and no line says where the piece goes."""
    if not any(piece.making_up for piece in pattern.pieces):
        return
    elsewhere = "\n".join(
        line.statement.words for piece in pattern.pieces for line in piece.lines
        if line.kind in ("step", "note") and (piece.making_up or not _FOR_SEWING.search(line.statement.words))
    )
    texts = f"{elsewhere}\n{pattern.prose}".lower()
    if _GENERAL.search(elsewhere):
        return
    for piece in result.pieces:
        tail = next((line for line in piece.syntax.lines if line.kind == "step" and _FOR_SEWING.search(line.statement.words)), None)
        if tail is None or not piece.name or piece.syntax.making_up:
            continue
        words = [word for word in re.findall(r"[a-z]+", f"{piece.name.lower()} {one_of(piece.name)}") if len(word) > 2]
        if words and not any(re.search(rf"\b{word}", texts) for word in words):
            statement = tail.statement.as_read()
            match = _FOR_SEWING.search(statement.text)
            findings.add(
                "piece-not-attached", statement.span(*match.span() if match else (0, None)),
                f"A tail for sewing is left on {piece.name}, and no line says where it goes.",
                suggestion="Add a line under Making up, with the rounds it goes on.", piece=piece.name,
            )


# --- left and right -------------------------------------------------------------------------------------------------


def check_pairs(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """pair-differs: "Left X" and "Right X" end with other counts, or one has two rounds more. In whole patterns only."""
    if not is_whole(pattern.header):
        return
    sides: dict[str, dict[str, PieceResult]] = {}
    for piece in result.pieces:
        match = re.search(r"\b(left|right)\b", piece.name, re.IGNORECASE)
        if match and last_round(piece) is not None:
            other = (piece.name[: match.start()] + piece.name[match.end() :]).strip(" ,").lower()
            sides.setdefault(other, {})[match[1].lower()] = piece
    for pair in sides.values():
        if len(pair) == 2:
            _compare(pair["left"], pair["right"], findings)


_TOGETHER = re.compile(r"\b(?:left|right|other|first|both|join\w*|same)\b(?! st| sc| loop| ch| side)", re.IGNORECASE)


def _compare(left: PieceResult, right: PieceResult, findings: Findings) -> None:
    first, second = sorted((left, right), key=lambda piece: piece.line)
    one, other = last_round(first), last_round(second)
    said_of_both = (line.statement.words for piece in (first, second) for line in piece.syntax.lines if line.kind in WORKED)
    if any(_TOGETHER.search(text) for text in said_of_both):
        return  # one goes on where both are joined, or as the other and then further
    if one is None or other is None or made(one) is None or made(other) is None:
        return
    rounds = [sum(line.worked for line in piece.rounds if line.counts) for piece in (first, second)]
    if not all(rounds):
        return
    noun = "rows" if second.flat else "rounds"
    if made(one) != made(other):
        said = f"{second.name} ends with {made(other)} stitches, and {first.name} with {made(one)}."
    elif abs(rounds[0] - rounds[1]) > 1:
        said = f"{second.name} has {rounds[1]} {noun}, and {first.name} {rounds[0]}."
    else:
        return
    findings.add(
        "pair-differs", other.syntax.statement.span(*other.syntax.body), said,
        suggestion="Compare the two line by line; they should be alike, or each other's mirror.", piece=second.name,
    )
