"""What a reader with a screen reader, without colours or with tired eyes can't take in; and what was left standing.

Of the pattern's own lines: marks, long runs, colours as the only sign, left-over words. Of the page's prose: pictures
without words, links that say nothing, photos that aren't there.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from .. import late_re as re
from ..fences import prose_lines
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult
from ..source import BlockLine, Source, Span, Statement
from .reading import WORKED, is_whole, steps

_HUES = r"(?:red|blue|green|yellow|orange|pink|purple|gr[ae]y|brown|bold red|colou?r(?:ed)?)"
_BY_COLOR = re.compile(
    rf"\b{_HUES} (?:numbers?|figures|digits|letters|text|type|ink|print|brackets)\b"
    rf"|\b(?:shown|printed|marked|highlighted|written|set|typed|given|underlined) in {_HUES}\b"
    rf"|<(?:font|span)\b[^>]{{0,80}}\bcolou?r\b",
    re.IGNORECASE,
)
_LEFT_OVER = re.compile(
    r"\b(?:TODO|FIXME|TBD|TBC|XXX+)\b|\blorem ipsum\b|\byour (?:name|title|text|logo) here\b"
    r"|\b(?:insert|add) (?:a )?(?:photo|picture|link|text|image) here\b"
    r"|\[(?:insert|add|name|yarn|photo|title|link|date|pattern)(?: [^\]]{0,30})?\](?![(\[])|\]\(\s*+(?:#|TODO|url|link)?\s*+\)",
    re.IGNORECASE,
)
_TWICE = re.compile(r"\b(the|a|an|and|of|to|in|is|with|for|at|from|are|it|as|your|this|be|by) \1\b", re.IGNORECASE)


def check_for_readers(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """color-alone, left-over-text and word-twice in the pattern's own lines."""
    for statement in _written(pattern):
        _in_text(statement.text, statement.span, findings)


def _written(pattern: syntax.Pattern) -> Iterator[Statement]:
    for line in pattern.header.lines:
        yield line.statement
    for piece in pattern.pieces:
        if piece.heading is not None:
            yield piece.heading
        yield from (line.statement for line in piece.lines if line.kind in ("note", "step"))


def _in_text(text: str, span: Callable[[int, int], Span], findings: Findings) -> None:
    if match := _BY_COLOR.search(text):
        findings.add(
            "color-alone", span(*match.span()),
            "Colour alone tells the reader something here; some don't see it, and print is mostly black.",
            suggestion="Say it in words too: a letter, a heading, brackets.",
        )
    if match := _LEFT_OVER.search(text):
        findings.add(
            "left-over-text", span(*match.span()), f"“{match[0][:40]}” was left standing from writing.",
            suggestion="Write what belongs here, or take it out.",
        )
    if match := _TWICE.search(text):
        findings.add(
            "word-twice", span(*match.span()), f"“{match[0]}”: the word stands twice.", suggestion="Take one out."
        )


# --- marks and long runs --------------------------------------------------------------------------------------------

LONG_RUN = 14  # numbers in one round before the eye loses its place: common practice, no source
_MARKS = re.compile("[\u2020\u2021\u25ca\u00a7\u00a4\u2666]|(?<!\\w)[#@](?!\\d)")
_REPEAT_WORDS = re.compile(r"\brep|\btimes|\baround|\bacross|\bto end|\btwice|\bx ?\d|\bto last", re.IGNORECASE)
_STITCH_NUMBERS = re.compile(r"(?<![\w.])\d+(?![\w.])")


def check_marks(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unspoken-mark and long-run, each once a whole pattern."""
    if not is_whole(pattern.header):
        return
    mark_told = run_told = False
    for piece in pattern.pieces:
        for line in piece.lines:
            if line.kind != "round" or not isinstance(line, syntax.RoundLine):
                continue
            text = line.statement.text[line.body[0] : line.body[1]]
            if not mark_told and (place := _unspoken(line, text)) is not None:
                mark_told = True
                findings.add(
                    "unspoken-mark", line.statement.span(line.body[0] + place, line.body[0] + place + 1),
                    f"A screen reader passes over {text[place]}, and no word says what is repeated.",
                    suggestion="Put the repeat in brackets with x 6, or say rep from * to end.",
                )
            numbers = list(_STITCH_NUMBERS.finditer(text)) if not run_told and len(text) > LONG_RUN * 4 else []
            if len(numbers) > LONG_RUN and not _sized(pattern):
                run_told = True
                name = line.label.text if line.label else "This line"
                findings.add(
                    "long-run", line.statement.span(*line.body), f"{name} has {len(numbers)} numbers in a row; the eye loses its place.",
                    suggestion="Break it into repeats, or into two lines at a comma.",
                )


def _sized(pattern: syntax.Pattern) -> bool:
    return bool(pattern.header.sizes)


def _unspoken(line: syntax.RoundLine, text: str) -> int | None:
    strange = _MARKS.search(text)
    if strange:
        return strange.start()
    if "*" not in text:
        return None
    starred = any(isinstance(step, syntax.Repeat) and step.mark.startswith("*") for step in steps(line))
    return text.find("*") if starred and not _REPEAT_WORDS.search(line.statement.words) else None


# --- names of another pattern ---------------------------------------------------------------------------------------

_NAMES = (
    "bear bunny rabbit hare cat kitten dog puppy fox wolf lion tiger elephant giraffe zebra monkey sheep lamb goat cow "
    "horse unicorn pony donkey pig piglet hedgehog mouse rat squirrel deer reindeer owl penguin duck duckling chicken "
    "chick hen goose swan parrot frog toad turtle tortoise dinosaur dragon whale dolphin shark octopus jellyfish seal "
    "otter koala panda kangaroo sloth raccoon badger bee ladybird ladybug butterfly snail snake crocodile camel llama "
    "alpaca mole bat beaver walrus gnome elf fairy mermaid doll robot snowman dormouse heron puffin newt lizard gecko"
)
_ANIMALS = frozenset(_NAMES.split())
_ANIMAL = re.compile(rf"\b(?:the|your|this) ({'|'.join(sorted(_ANIMALS))})(?:'s|s)?\b", re.IGNORECASE)


def check_other_names(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """another-name: a line speaks of "the bear", and the title is of a hare. Words of the page's prose are let pass."""
    title = set(re.findall(r"[a-z]+", f"{pattern.title} {pattern.header.title}".lower()))
    if not title & _ANIMALS:
        return
    known = title | set(re.findall(r"[a-z]+", " ".join(piece.name for piece in pattern.pieces).lower()))
    prose = set(re.findall(r"[a-z]+", pattern.prose.lower()))
    for piece in pattern.pieces:
        for line in piece.lines:
            match = _ANIMAL.search(line.statement.text) if line.kind in (*WORKED, "note") else None
            if match and match[1].lower() not in known | prose:
                findings.add(
                    "another-name", line.statement.span(match.start(1), match.end(1)),
                    f"This speaks of a {match[1].lower()}, and the pattern is called {pattern.title}.",
                    suggestion="It may be left from another pattern; write the right name.",
                )
                return


# --- the page's prose -----------------------------------------------------------------------------------------------

_PICTURE = re.compile(r"!\[([^\]]{0,500})\](?=[(\[])")
_IMG = re.compile(r"<img\b(?![^>]*\balt\s*=)[^>]*>", re.IGNORECASE)
_SAYS_NOTHING = re.compile(r"\s*+(?:image|img|photo|picture|pic|foto|untitled|dsc|pxl|screenshot)?[\s_\d.-]*(?:(?<=\.)(?:jpe?g|png|webp|gif|svg)\s*+)?", re.IGNORECASE)
_BARE_LINK = re.compile(r"(?<!!)\[(?:click )?(?:here|link|this|this link|this page|more|read more)\](?=[(\[])", re.IGNORECASE)
_PHOTO = re.compile(r"\b(?:photo|picture|fig\.|figure(?! 8\b| of)) (\d{1,2})\b", re.IGNORECASE)


def check_page_text(source: Source, patterns: list[syntax.Pattern], findings: Findings) -> None:
    """What is wrong for readers in the prose around the blocks: pictures, links, photos named, left-over words."""
    lines = list(prose_lines(source))
    pictures, numbered = 0, set()
    for line in lines:
        alts = list(_PICTURE.finditer(line.text))
        pictures += len(alts) + len(re.findall(r"<img\b", line.text, re.IGNORECASE))
        for match in alts:
            numbered.update(_PHOTO.findall(match[1]))
            if _SAYS_NOTHING.fullmatch(match[1]):
                _picture(line, match, findings)
        for match in _IMG.finditer(line.text):
            _picture(line, match, findings)
        if bare := _BARE_LINK.search(line.text):
            findings.add(
                "link-without-words", _span(line, *bare.span()),
                f"The link says only {bare[0]}; read by itself, it leads nowhere.",
                suggestion="Put the words of the page it leads to between the brackets.",
            )
        _in_text(line.text, partial(_span, line), findings)
    if pictures:
        _photos(lines, patterns, pictures, numbered, findings)


def _picture(line: BlockLine, match: re.Match[str], findings: Findings) -> None:
    findings.add(
        "picture-without-words", _span(line, *match.span()), "This picture has no words for those who can't see it.",
        suggestion="Say what it shows, as in ![The muzzle, seven rounds deep](muzzle.jpg).",
    )


def _photos(
    lines: list[BlockLine], patterns: list[syntax.Pattern], pictures: int, numbered: set[str], findings: Findings
) -> None:
    """unknown-photo: "see photo 7" on a page of four pictures."""
    told: list[tuple[str, Span]] = []
    for line in lines:
        text = _PICTURE.sub(lambda match: " " * len(match[0]), line.text)
        told += [(match[1], _span(line, *match.span())) for match in _PHOTO.finditer(text)]
    for pattern in patterns:
        for statement in _all(pattern):
            told += [(match[1], statement.span(*match.span())) for match in _PHOTO.finditer(statement.text)]
    for number, span in told:
        if int(number) > pictures and number not in numbered:
            shown = "1 picture" if pictures == 1 else f"{pictures} pictures"
            findings.add(
                "unknown-photo", span, f"The page has {shown}, and this speaks of number {int(number)}.",
                suggestion="Add the photo, or write its number.",
            )


def _all(pattern: syntax.Pattern) -> Iterator[Statement]:
    for piece in pattern.pieces:
        yield from (line.statement for line in piece.lines if line.kind in (*WORKED, "note"))


def _span(line: BlockLine, start: int, end: int) -> Span:
    return Span(line.number, line.column + start, line.number, line.column + end)
