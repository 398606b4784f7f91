"""Puts a page's statements together into patterns: headers, pieces, rounds, steps and notes, each read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from .. import late_re as re
from ..findings import Edit, Findings, Severity
from ..source import BlockLine, Span, Statement
from . import vocabulary
from .cursor import Context, Unreadable, index_words
from .header import finish_header, read_header
from .headings import Heading, read_heading, same_as
from .instructions import Instruction, read_instruction
from .line_signs import (
    in_ring,
    is_foundation,
    is_habit,
    joins_pieces,
    only_moves,
    other_names,
    starts_piece,
    stretches,
    works,
)
from .lines import Cut, cut_blocks, holds_pattern_words
from .near import nearest
from .other_terms import OTHER_TERMS, likely_terms
from .plain_headings import header_key, keep_in_place, mark_headings
from .round_labels import LIMIT, find_label, find_moment
from .said_of_rounds import Between, Marks, chain_rule, declare_chains, is_mark, mark_behind
from .size_lists import sized_label
from .size_words import size_indexes
from .syntax import (
    Again,
    Aside,
    Chain,
    ColorChange,
    Header,
    Join,
    Line,
    Loops,
    Number,
    Pattern,
    Piece,
    Reference,
    Ring,
    RoundLabel,
    RoundLine,
    Shaping,
    Stated,
    Step,
    Trust,
    Until,
    Work,
)
from .unkeyed import chains_in_notes, mark_unkeyed, read_unkeyed, terms_in_notes

_FORMS_PATTERN = re.compile(r"^\s*(?:these|the last|last)\s+\w+\s+(?:rows?|rnds?|rounds?)\s+(?:form|make|are|set)\b|^\s*(?:rows?|rnds?|rounds?)\s+\d+[\d\s-]*(?:to\s+\d+\s+)?(?:form|make|set)s?\b", re.IGNORECASE)


def read_patterns(
    blocks: Sequence[Sequence[BlockLine]],
    headings: Sequence[str],
    findings: Findings,
    *,
    terms: str = "",
    plain: bool = False,
) -> list[Pattern]:
    """The patterns that *blocks* of one page hold; *headings* are the Markdown headings before each block.

    A second ``Title:`` starts a second pattern. *terms* is the site's own default where a pattern declares none.
    *plain* is true for a text file, whose prose is gathered in one info.
    """
    cuts = cut_blocks(blocks, terms)
    mark_headings(cuts)
    keep_in_place(cuts)
    parts = [part for part in _split_patterns(cuts) if part]
    for part in parts:
        mark_unkeyed(part)
    return [_Reader(part, headings, findings, terms, plain).read() for part in parts]


def _split_patterns(cuts: list[Cut]) -> list[list[Cut]]:
    parts: list[list[Cut]] = [[]]
    titled = False
    for cut in cuts:
        if cut.kind == "header" and header_key(cut) == "title":
            if titled:
                parts.append([])
            titled = True
        parts[-1].append(cut)
    return parts


@dataclass(slots=True)
class _State:
    piece: Piece | None = None
    rounds: int = 0  # numbered rounds of the piece so far
    last: int | None = None  # its last number
    lasts: tuple[int | None, ...] = ()  # the same in each size, where a label gave one number a size
    fastened: bool = False
    between: Between | None = None  # a row said for every other one
    began_at: int = -1  # the block in which a piece was last named by its Markdown heading


@dataclass(slots=True)
class _Unknown:
    """An unknown word with all its places: reported once a pattern."""

    first: tuple[Statement, Unreadable]
    places: list[str] = field(default_factory=list)


class _Reader:
    """Reads one pattern's statements, first the header lines, then the rest in order."""

    def __init__(self, cuts: list[Cut], headings: Sequence[str], findings: Findings, terms: str, plain: bool) -> None:
        self.cuts = cuts
        self.plain = plain
        self.prose: list[Statement] = []
        self.feet: list[Statement] = []
        self.definitions: list[Statement] = []
        self.headings = headings
        self.findings = findings
        self.terms = terms
        self.pattern = Pattern(Header(), line=cuts[0].statement.line if cuts else 1)
        self.context = Context()
        self.state = _State()
        self.unknown: dict[str, _Unknown] = {}
        self.before: int | None = None  # the last round of the piece before
        self.suspects: list[tuple[str, Span]] = []
        self.marks = Marks()
        self.chain_rules: dict[int, bool] = {}
        self.only: frozenset[int] | None = None  # the sizes that a line of its own names, from there on

    def read(self) -> Pattern:
        pattern = self.pattern
        self._read_headers()
        self._prepare()
        for cut in self.cuts:
            try:
                if not self._said(cut):
                    getattr(self, "_" + cut.kind.replace("-", "_"))(cut)
            except Exception as fault:  # noqa: BLE001 - a bug of ours costs one line, never the page
                self._fault(cut, fault)
        self._report_definitions()
        self._report_feet()
        self._report_prose()
        self._report_unknown()
        self._link_same()
        pattern.title = pattern.header.title
        pattern.draft = pattern.header.draft
        return pattern

    def _fault(self, cut: Cut, fault: Exception) -> None:
        self.findings.add(
            "checker-fault", cut.statement.span(),
            f"The checker itself failed on this line ({type(fault).__name__}); it is not checked.",
            suggestion="This is a bug of stitchcheck, not of the pattern: please report it with this line.",
        )  # fmt: skip
        if self.state.piece is not None:
            self.state.piece.lines.append(RoundLine("step", cut.statement, None, None))

    # --- before the rounds -----------------------------------------------------------------------------------------

    def _read_headers(self) -> None:
        started = False
        for cut in self.cuts:
            if cut.kind in ("round", "foundation", "heading", "plain-heading"):
                started = True
            if cut.kind == "header":
                read_header(cut.statement, self.pattern.header, self.findings, started)
        for cut in self.cuts:
            if cut.kind == "unkeyed":
                read_unkeyed(cut, self.pattern.header, self.findings)
        terms_in_notes(self.pattern.header)
        self.chain_rules.update(chains_in_notes(self.pattern.header))
        finish_header(self.pattern.header, self.findings)

    def _prepare(self) -> None:
        from .terms import settle_terms

        header = self.pattern.header
        if not header.terms and self.terms in ("US", "UK"):
            header.terms = self.terms
        kinds = ("round", "foundation", "step", "other", "near-label")
        spoken = [cut.statement for cut in self.cuts if cut.kind in kinds]
        system, decided = settle_terms(header, spoken, self.findings)
        self.pattern.system, self.pattern.terms_decided = system, decided
        self.context.system = system
        self.context.sizes = max(len(header.sizes), 1)
        self.context.colors = _color_words(header)
        self.context.special = header.special
        declared = {
            vocabulary.words_of(word): special.stitch for word, special in header.special.items() if special.stitch is not None
        }
        self.context.special_words = index_words({key: stitch for key, stitch in declared.items() if key})
        for cut in self.cuts:
            if cut.kind in ("heading", "plain-heading"):
                name = read_heading(cut.statement, self.context.colors).name.lower()
                self.context.pieces.add(name)
                self.context.pieces.update(other_names(name))

        terms = OTHER_TERMS.get(header.terms)
        for key, color in header.colors.items():
            if terms is not None and key.isupper() and key.lower() in terms.index:
                self.findings.add(
                    "two-meanings", color.statement.span(),
                    f"{key} is a colour here and a word of {terms.name}, which the pattern declares; it is read as that word.",
                    suggestion="Give the colour another letter.",
                )  # fmt: skip

    # --- lines that speak of rounds ---------------------------------------------------------------------------------

    def _said(self, cut: Cut) -> bool:
        """A sentence that declares what a chain counts for, a mark across rows, or a piece worked as another."""
        if cut.kind not in ("foundation", "other", "step"):
            return False
        text, piece = cut.statement.words, self.state.piece
        if (rule := chain_rule(text)) is not None:
            self.chain_rules[rule[0]] = rule[1]
            self._add(Line("note", cut.statement), cut)
            return True
        if piece is None or piece.making_up or cut.kind == "foundation":
            return False
        if is_mark(text):
            self.marks.note(piece.name, self.state.last or 0)
            self._add(Line("note", cut.statement), cut)
            return True
        copied = self.marks.copied(text)
        if copied is None or self.state.rounds and copied.reference.rounds[0][0] == 1:
            return False
        self._copy(cut, copied)
        return True

    def _copy(self, cut: Cut, again: Again) -> None:
        """The rounds of another piece, numbered on from here."""
        first, last = again.reference.rounds[0]
        done = self.state.last or 0
        other = self._named(again.reference.piece)
        labels = [line.label for line in other.lines if isinstance(line, RoundLine) and line.label is not None] if other else []
        kind = labels[-1].kind if labels else self._kind()
        start, end = done + 1, done + last - first + 1
        word = "Row" if kind == "row" else "Rnd"
        text = f"{word}s {start}-{end}" if end > start else f"{word} {start}"
        label = RoundLabel(again.start, again.start, kind, text, ((start, end),))
        self._add(RoundLine("round", cut.statement, label, (again,), (), (again.start, again.end)), cut)
        self._number(label)

    def _fill(self, label: RoundLabel, line: RoundLine) -> None:
        """"Row 4 and all even rows": the even row before this one is not written."""
        between, last = self.state.between, self.state.last
        if between is None or last is None or label.first != last + 2 or not between.fills(last + 1):
            return
        label.numbers = ((last + 1, label.numbers[0][1]), *label.numbers[1:])
        line.unwritten = between.line

    def _every_other(self, cut: Cut, line: RoundLine) -> None:
        """Keeps a row that is said for every other one."""
        assert cut.label is not None
        label = cut.label.label
        if cut.label.every is None or label.last is None:
            return
        if cut.label.every in ("even", "odd") and (label.last % 2 == 0) != (cut.label.every == "even"):
            self.findings.add(
                "unreadable-line", cut.statement.span(label.start, label.end),
                f"{label.text} is no {cut.label.every} one, so I can't tell which rows are meant.",
                suggestion=f"Write {'odd' if cut.label.every == 'even' else 'even'}, or the number that is meant.",
            )  # fmt: skip
            line.steps = None
        self.state.between = Between(line, label.last)

    # --- sizes -----------------------------------------------------------------------------------------------------

    def _sizes(self, cut: Cut) -> None:
        """"Sizes M and L only:" on a line of its own: holds until all sizes go on, or the next piece."""
        self.only = self._only(cut)

    def _only(self, cut: Cut) -> frozenset[int] | None:
        """The sizes in which a line is worked; None for all."""
        if not cut.sizes:
            return self.only
        sizes = self.pattern.header.sizes
        only, unknown = size_indexes(cut.sizes, sizes)
        if unknown:
            declared = f"the pattern's sizes are {', '.join(sizes)}" if sizes else "the pattern has no line Sizes:"
            self.findings.add(
                "sizes-disagree", cut.statement.span(), f"There is no size {unknown}: {declared}.",
                suggestion="Name sizes as they stand in the line Sizes: at the top.",
            )  # fmt: skip
            return frozenset()
        return only

    # --- statements that are no rounds ------------------------------------------------------------------------------

    def _header(self, cut: Cut) -> None:
        pass  # read before the rounds

    _unkeyed = _header

    def _heading(self, cut: Cut) -> None:
        self._begin(read_heading(cut.statement, self.context.colors), cut)

    _plain_heading = _heading

    def _foot(self, cut: Cut) -> None:
        self.feet.append(cut.statement)

    def _too_long(self, cut: Cut) -> None:
        line = cut.statement.lines[0]
        span = Span(line.number, line.column, line.number, line.column + 40)
        self.findings.add(
            "unreadable-line", span, f"This line is {len(line.text):,} characters long; no round is, so it is not read.",
            suggestion="Cut it into rounds, one a line.",
        )  # fmt: skip

    def _note(self, cut: Cut) -> None:
        self._add(Line("note", cut.statement), cut)

    def _private(self, cut: Cut) -> None:
        self._add(Line("private", cut.statement), cut)

    def _excuse(self, cut: Cut) -> None:
        self.pattern.excuses.append((cut.statement, cut.reason))
        self._add(Line("excuse", cut.statement), cut)

    def _near_label(self, cut: Cut) -> None:
        statement = cut.statement
        start = len(statement.text) - len(statement.text.lstrip())
        word = statement.text[start:].split()[0].rstrip("0123456789:.)")
        self.findings.add(
            "unreadable-line", statement.span(start, start + len(word)),
            f"This line looks like a round, but {word} is no label that I know; did you mean {cut.near}?",
            suggestion=f"Write {cut.near}.", edits=(Edit(statement.span(start, start + len(word)), cut.near),),
        )  # fmt: skip
        self._add_unread(cut)

    def _add_unread(self, cut: Cut) -> None:
        """A line that is probably a round but cannot be read: it stands in the piece as one, unread."""
        text = cut.statement.text
        stripped = text.lstrip()
        word = stripped.split()[0].rstrip("0123456789:.)") if stripped else ""
        mended = text.replace(word, cut.near, 1) if word and cut.near else text
        found = find_label(mended)
        label = found.label if found else None
        self._add(RoundLine("round", cut.statement, label, None), cut)
        if label is not None and label.last is not None:
            self.state.last = label.last
            self.state.rounds += 1

    def _other(self, cut: Cut) -> None:
        """Something without a label: in Making up a step, else perhaps an unlabelled round, else unreadable."""
        piece = self.state.piece
        if piece is not None and piece.making_up:
            self._step(cut)
            return
        text = cut.statement.text
        if _FORMS_PATTERN.search(cut.statement.words):
            self._add(Line("note", cut.statement), cut)
            return
        if holds_pattern_words(cut.statement.words):
            read = read_instruction(cut.statement, self.context, 0)
            if self._repeats_rounds(cut, read):
                return
            if read.steps and not read.problems and only_moves(read.steps):
                self._unlabelled(cut, read)
                return
            if read.steps and not read.problems and works(read.steps) and (read.stated or stretches(read.steps)):
                self._unlabelled(cut, read)
                return
            self._unreadable(cut, read)
            return
        if self.plain:
            self.prose.append(cut.statement)
            self._add(Line("note", cut.statement), cut)
            return
        start = len(text) - len(text.lstrip())
        self.findings.add(
            "unreadable-line", cut.statement.span(start, len(text.rstrip())),
            "This line is taken as a note; begin it with > so that it stands apart from the rounds.",
            severity=Severity.WARNING, suggestion="Put > in front of it.",
            edits=(Edit(cut.statement.span(start, start), "> "),),
        )  # fmt: skip
        self._add(Line("note", cut.statement), cut)

    def _repeats_rounds(self, cut: Cut, read: Instruction) -> bool:
        """"Rep Rnd 5 three more times." without a label: the rounds that follow, numbered on."""
        steps = [step for step in read.steps or () if not isinstance(step, Aside)]
        if steps and isinstance(steps[0], Again) and self._whole_piece(cut, read, steps):
            return True
        if steps and self.state.last is not None and not read.problems and self._rows_told(cut, read, steps):
            return True
        named = bool(steps) and isinstance(steps[0], Again) and bool(steps[0].reference.piece)
        if not steps or self.state.last is None and not named:
            return False
        if all(isinstance(step, (Again, Trust)) for step in steps) and any(isinstance(step, Trust) for step in steps):
            self._on_trust(cut, read)
            return True
        if not all(isinstance(step, Again) for step in steps):
            return False
        counts = [0] * self.context.sizes
        for step in steps:
            assert isinstance(step, Again)
            if not step.reference.rounds:
                return False
            once = sum(abs(last - first) + 1 for first, last in step.reference.rounds)
            times = step.times.values if step.times is not None else (1,)
            for size in range(len(counts)):
                counts[size] += (times[size if len(times) > 1 else 0] or 0) * once
        count = counts[0]
        if not 0 < max(counts) <= LIMIT or min(counts) < 0 or not count and len(counts) == 1:
            return False
        done = self.state.last or 0
        first, last = done + 1, done + count
        kind = self._kind()
        text = f"{'Row' if kind == 'row' else 'Rnd'}{'s' if count > 1 else ''} {first}" + (f"-{last}" if count > 1 else "")
        label = RoundLabel(read.body[0], read.body[0], kind, text, ((first, last),))
        if len(counts) > 1:
            at = read.body[0]
            label.written = (Number(at, at, (first,)), Number(at, at, tuple(done + each for each in counts)))
        self._report(cut.statement, read)
        self._add(RoundLine("round", cut.statement, label, read.steps, read.stated, read.body), cut)
        self._number(label)
        return True

    def _rows_told(self, cut: Cut, read: Instruction, steps: list[Step]) -> bool:
        """"Dec 1 st at each end of every 4th row 5 times", "Work even until it measures 20 cm": rows without a label."""
        shaping = next((step for step in steps if isinstance(step, Shaping)), None)
        if shaping is None and read.length is not None and works(tuple(steps)) and all(isinstance(s, Work) for s in steps):
            return self._so_many(cut, read, read.length)
        if shaping is None and not any(isinstance(step, Until) for step in steps):
            return False
        kind = self._kind()
        name = f"the {kind}s that are shaped" if shaping is not None else f"the {kind}s to that length"
        label = RoundLabel(read.body[0], read.body[0], kind, name[:1].upper() + name[1:], name="repeat")
        self._report(cut.statement, read)
        self._add(RoundLine("round", cut.statement, label, read.steps, read.stated, read.body), cut)
        if shaping is not None and shaping.after is None and self.state.last is not None:
            self.state.last += shaping.first + sum(every * times.value for every, times in shaping.phases)
        return True

    def _so_many(self, cut: Cut, read: Instruction, length: Number) -> bool:
        """"Work in sc for 8 rows.", "Work even for 3 (4, 5) rnds": so many, numbered on."""
        kind = self._kind()
        label = RoundLabel(read.body[0], read.body[0], kind, f"The next {kind}s", name="next", length=length)
        self._report(cut.statement, read)
        self._add(RoundLine("round", cut.statement, label, read.steps, read.stated, read.body), cut)
        self._number(label)
        return True

    def _on_trust(self, cut: Cut, read: Instruction) -> None:
        """"Rep Row 2 until piece measures 20 cm": so many rounds as it takes."""
        label = RoundLabel(read.body[0], read.body[0], self._kind(), "The repeated rows", name="repeat")
        self._report(cut.statement, read)
        self._add(RoundLine("round", cut.statement, label, read.steps, read.stated, read.body), cut)

    def _whole_piece(self, cut: Cut, read: Instruction, steps: list[Step]) -> bool:
        """"Same as Back." as a piece's first line: the piece is worked as that one."""
        again = steps[0]
        assert isinstance(again, Again)
        piece = self.state.piece
        if piece is None or self.state.rounds or again.reference.rounds or not again.reference.piece or len(steps) > 1:
            return False
        piece.same_as = again.reference
        self._add(Line("note", cut.statement), cut)
        return True

    def _kind(self) -> str:
        """Whether the piece is worked in rounds or rows so far."""
        lines = self.state.piece.lines if self.state.piece is not None else []
        labels = (line.label for line in reversed(lines) if isinstance(line, RoundLine))
        return next((label.kind for label in labels if label is not None), "round")

    def _unreadable(self, cut: Cut, read: Instruction) -> None:
        text = cut.statement.text
        start = len(text) - len(text.lstrip())
        problem = read.problems[0] if read.problems else None
        at = f" It stops at: {text[problem.start : problem.end]}." if problem and problem.start > start else ""
        self.findings.add(
            "unreadable-line", cut.statement.span(start, len(text.rstrip())),
            f"I can't tell what this line is: no round label and no working step that I know begins it.{at}",
            suggestion="Give it a label such as Rnd 4:, or begin it with > if it is a note for readers.",
        )  # fmt: skip
        self._add(Line("note", cut.statement), cut)

    # --- pieces -----------------------------------------------------------------------------------------------------

    def _begin(self, heading: Heading, cut: Cut) -> None:
        known = self._named(heading.name)
        if known is not None and (heading.continued or not heading.making_up and self._goes_on(cut)):
            self.state.piece = known
            return
        piece = Piece(heading.name, cut.statement, heading.make, heading.color, making_up=heading.making_up, line=cut.statement.line)
        piece.moment, piece.copies = heading.moment, heading.copies
        if heading.color is None and heading.color_name:
            piece.color = heading.color_name
        if heading.mistyped is not None:
            place = cut.statement.span(*heading.mistyped)
            word = cut.statement.text[heading.mistyped[0] : heading.mistyped[1]]
            self.findings.add(
                "unreadable-line", place, f"{word} is no word for how many are made; did you mean make?",
                suggestion="Write make.", edits=(Edit(place, "make"),),
            )  # fmt: skip
        if heading.make > 1000:
            self.findings.add("number-out-of-range", cut.statement.span(), "More than 1,000 of a piece can't be meant.", suggestion="Write how many are made.")
            piece.make = 1
        if known is not None and not heading.making_up:
            self.findings.add(
                "piece-twice", cut.statement.span(),
                f"There is a piece called {known.name} already, on line {known.line}.",
                suggestion=f"Give this one a name of its own, or write {heading.name}, continued.",
            )  # fmt: skip
        piece.continued = self._runs_on(cut)
        self._open(piece, cut)

    def _open(self, piece: Piece, cut: Cut) -> None:
        self.before = self.state.last
        self.only = None
        self.pattern.pieces.append(piece)
        self.state = _State(piece, began_at=cut.block)

    def _named(self, name: str) -> Piece | None:
        return next((piece for piece in self.pattern.pieces if piece.name.lower() == name.lower()), None)

    def _next_first(self, cut: Cut) -> int | None:
        """The first number of the next labelled round behind a heading."""
        later = self.cuts[self.cuts.index(cut) + 1 :]
        for other in later:
            if other.kind in ("heading", "plain-heading", "foundation"):
                return None
            if other.kind == "round" and other.label is not None:
                return other.label.label.first
        return None

    def _goes_on(self, cut: Cut) -> bool:
        first = self._next_first(cut)
        return first is not None and first > 1 and first == (self.state.last or -1) + 1

    def _runs_on(self, cut: Cut) -> bool:
        state = self.state
        return state.piece is not None and not state.fastened and self._goes_on(cut)

    def _add(self, line: Line, cut: Cut) -> None:
        if self.state.piece is None:
            self._unheaded(cut)
        assert self.state.piece is not None
        if isinstance(line, RoundLine):
            line.only = self._only(cut)
            if self.chain_rules:
                declare_chains(line.steps or (), self.chain_rules)
        self.state.piece.lines.append(line)

    def _unheaded(self, cut: Cut) -> None:
        """A piece without a heading is named by the nearest Markdown heading since the last block, else by its number."""
        name = self.headings[cut.block] if cut.block < len(self.headings) and self.state.began_at != cut.block else ""
        if not name or self._named(name) is not None or (name.lower() == self.pattern.header.title.lower()):
            name = f"Piece {len(self.pattern.pieces) + 1}"
        self._open(Piece(name, None, line=cut.statement.line), cut)

    # --- rounds, foundations, steps ---------------------------------------------------------------------------------

    def _round(self, cut: Cut) -> None:
        assert cut.label is not None
        try:
            if self.context.sizes > 1 or cut.label.label.length is not None:
                cut.label = sized_label(cut.statement.words, cut.label, self.context.sizes, self.state.lasts)
        except Unreadable as problem:
            self._add_problem(cut.statement, problem, problem.message)
        label = cut.label.label
        if cut.label.bare and self._counts_first(label):
            self._count_first(cut)
            return
        if not (cut.sizes or self.only) and self._is_new_piece(label):
            self.state.piece = None
        moment, end = self._moment(cut)
        mark = mark_behind(cut.statement.words[:end], cut.label.body)
        read = read_instruction(cut.statement, self.context, cut.label.body, mark if mark is not None else end)
        steps = self._head_steps(cut, read.steps)
        line = RoundLine("round", cut.statement, label, steps, read.stated, read.body, moment, read.not_written)
        line.references = read.references
        if read.otherwise is not None:
            line.otherwise = self._head_steps(cut, read.otherwise[0]) or (), read.otherwise[1]
        self._close_ring(line)
        self._says_nothing(cut, line)
        if cut.label.count is not None and not line.stated:
            line.stated = (self._label_count(cut, cut.label.count),)
        if read.length is not None:
            label.length = label.length or read.length
        self._report(cut.statement, read)
        self._lengthen(line)
        self._add(line, cut)
        self._fill(label, line)
        self._number(label)
        self._every_other(cut, line)
        if mark is not None and self.state.piece is not None:
            self.marks.note(self.state.piece.name, self.state.last or 0)
        self._after(steps)

    def _lengthen(self, line: RoundLine) -> None:
        """"sc in each st around x 4 (15)": four rounds where the count is that of the round before."""
        works = [step for step in line.steps or () if not isinstance(step, Aside)]
        label = line.label
        if label is None or label.length is not None or label.first is None or label.first != label.last or len(works) != 1:
            return
        work = works[0]
        if not isinstance(work, Work) or work.times is None or work.place is None or work.place.kind != "rest" or work.stitch.kind not in ("plain", "post"):
            return
        lines = self.state.piece.lines if self.state.piece is not None else []
        before = next((one for one in reversed(lines) if isinstance(one, RoundLine)), None)
        if before is None:
            return
        now, then = (one[-1].number if one else None for one in (line.stated, before.stated))
        if now is not None and then is not None and now.values == then.values:
            label.length, work.times = work.times, None

    def _close_ring(self, line: RoundLine) -> None:
        """"Ch 4, join." before a round worked "in ring": the chain was closed to a ring."""
        piece = self.state.piece
        if piece is None or self.state.rounds or not piece.lines or not in_ring(line.steps or ()):
            return
        before = piece.lines[-1]
        if isinstance(before, RoundLine) and before.kind == "foundation" and before.steps:
            chain = next((step for step in before.steps if isinstance(step, Chain)), None)
            joined = any(isinstance(step, Join) or isinstance(step, Work) and step.stitch.kind == "slip" for step in before.steps)
            if chain is not None and joined:
                before.steps = (Ring(chain.start, before.steps[-1].end, chain.number),)

    def _counts_first(self, label: RoundLabel) -> bool:
        """"18: (sc, inc) x 6": a bare number that does not go on with the numbering is the count."""
        return label.first is not None and label.first not in (1, (self.state.last or self.before or 0) + 1) and len(label.numbers) == 1 and label.first == label.last

    def _count_first(self, cut: Cut) -> None:
        assert cut.label is not None
        number = cut.label.label.written[0]
        read = read_instruction(cut.statement, self.context, cut.label.body)
        if self.state.rounds and (in_ring(read.steps or ()) or starts_piece(read.steps or ())):
            self.state.piece = None
        label = RoundLabel(number.start, number.end, self._kind(), f"The round of {number.value}", name="round")
        stated = read.stated or (Stated(number.start, number.end, "total", number),)
        self._report(cut.statement, read)
        self._add(RoundLine("round", cut.statement, label, read.steps, stated, read.body), cut)
        self.state.rounds += 1
        self._after(read.steps)

    def _says_nothing(self, cut: Cut, line: RoundLine) -> None:
        """A label without an instruction: "Rnd 2:", or only a count behind it."""
        if line.steps is None or line.steps or line.not_written or line.label is None:
            return
        line.steps = None
        if any(stated.form == "unknown" for stated in line.stated):
            line.not_written = True
            line.stated = ()
            return
        label = line.label
        self.findings.add(
            "unreadable-line", cut.statement.span(label.start, label.end), f"{label.text} says no stitches to work.",
            suggestion="Write what is worked, or ? with Draft: yes in the header until it is known.",
        )  # fmt: skip

    def _moment(self, cut: Cut) -> tuple[int | None, int | None]:
        moment = find_moment(cut.statement.text)
        return (moment[1], moment[0]) if moment else (None, None)

    def _label_count(self, cut: Cut, place: tuple[int, int]) -> Stated:
        text = cut.statement.text[place[0] : place[1]]
        digits = "".join(ch for ch in text if ch.isdigit())
        at = place[0] + text.index(digits)
        number = Number(at, at + len(digits), (int(digits[:9]),))
        return Stated(place[0], place[1], "total", number)

    def _head_steps(self, cut: Cut, steps: tuple[Step, ...] | None) -> tuple[Step, ...] | None:
        """Colour and loops in the label ("Rnd 5 (B):", "Rnd 7 (BLO):") come before the steps."""
        assert cut.label is not None
        if steps is None:
            return None
        heads: list[Step] = []
        for start, end in cut.label.heads:
            head = read_instruction(cut.statement, self.context, start, end)
            if head.steps is not None and not head.problems:
                heads.extend(step for step in head.steps if isinstance(step, (ColorChange, Loops)))
        return (*heads, *steps)

    def _is_new_piece(self, label: RoundLabel) -> bool:
        """Round 1 where the piece already has rounds; not after a side, a section word or "(left side)"."""
        state = self.state
        if state.piece is None:
            return False
        if state.piece.making_up:
            return label.first == 1
        return label.first == 1 and state.rounds > 0 and not label.section and not label.side and state.last is not None

    def _number(self, label: RoundLabel) -> None:
        """Where the numbering stands after a round: a length counts on, a round without a number is the next."""
        more = label.length.value if label.length is not None else 1
        if label.last is not None:
            single = len(label.numbers) == 1 and label.first == label.last
            self.state.last = label.last + (more - 1 if single and 0 < more <= LIMIT else 0)
            self.state.rounds += 1
            if self.state.piece is not None:
                self.marks.last[self.state.piece.name.lower()] = self.state.last
            self.state.lasts = label.written[-1].values if label.written and len(label.written[-1].values) > 1 else ()
        elif self.state.last is not None and 0 < more <= LIMIT:
            self.state.last += more
            lengths = label.length.values if label.length is not None else (1,)
            self.state.lasts = tuple(
                last + (lengths[size if size < len(lengths) else 0] or 0) if last is not None else None
                for size, last in enumerate(self.state.lasts)
            )

    def _after(self, steps: tuple[Step, ...] | None) -> None:
        for step in steps or ():
            if isinstance(step, Aside) and step.kind == "fasten-off":
                self.state.fastened = True
            elif isinstance(step, Aside) and step.kind == "continue":
                self.state.fastened = False
            elif isinstance(step, Ring):
                self.context.ring_seen = True

    def _unlabelled(self, cut: Cut, read: Instruction) -> None:
        starts = any(isinstance(step, Ring) for step in read.steps or ()) or in_ring(read.steps or ())
        if starts and self.state.rounds:
            self.state.piece = None
        if self.state.rounds and only_moves(read.steps or ()):
            self._report(cut.statement, read)
            moved = tuple(Join(s.start, s.end) if isinstance(s, Work) else s for s in read.steps or ())
            self._add(RoundLine("step", cut.statement, None, moved, read.stated, read.body), cut)
            self._after(read.steps)
            return
        kind = "foundation" if not self.state.rounds and (starts or self.state.piece is None or not self.state.piece.lines) else "round"
        label = None if kind == "foundation" else RoundLabel(read.body[0], read.body[0], "round", "the round without a label", name="round")
        if label is not None and read.length is not None:
            label.length = read.length
        self._report(cut.statement, read)
        self._add(RoundLine(kind, cut.statement, label, read.steps, read.stated, read.body), cut)
        if label is not None:
            self._number(label)
        self._after(read.steps)

    def _foundation(self, cut: Cut) -> None:
        moment, end = self._moment(cut)
        read = read_instruction(cut.statement, self.context, 0, end)
        if read.steps is not None and is_habit(cut.statement.text):
            self._add(Line("note", cut.statement), cut)
            return
        if read.steps is not None and not is_foundation(read.steps):
            if (self.state.rounds or joins_pieces(read.steps)) and not starts_piece(read.steps):
                self._step(cut)
            else:
                self._unlabelled(cut, read)
            return
        if self.state.rounds and (self.state.fastened or not self._bridge_follows(cut)):
            self.state.piece = None
        self._report(cut.statement, read)
        self._add(RoundLine("foundation", cut.statement, None, read.steps, read.stated, read.body, moment), cut)
        self._after(read.steps)

    def _bridge_follows(self, cut: Cut) -> bool:
        """A chain in mid-piece whose next round goes on with the numbering is no new foundation."""
        first = self._next_first(cut)
        return first is None or first != 1

    def _step(self, cut: Cut) -> None:
        moment, end = self._moment(cut)
        if cut.statement.text.lstrip()[:3].lower() in ("rep", "rpt", "wor", "sam", "as ", "con", "dec", "inc", "at "):
            read = read_instruction(cut.statement, self.context, 0, end)
            if self._repeats_rounds(cut, read):
                return
        read = read_instruction(cut.statement, self.context, 0, end, step=True)
        line = RoundLine("step", cut.statement, None, read.steps, read.stated, read.body, moment)
        line.references = self._spread_piece_names(read.references)
        self._report(cut.statement, read)
        self._add(line, cut)
        self._after(read.steps)

    def _spread_piece_names(self, references: tuple[Reference, ...]) -> tuple[Reference, ...]:
        """"over Rnds 1 to 3 of the Body, the flippers between Rnds 11 and 14": the Body is still meant."""
        piece = ""
        for reference in references:
            if reference.piece:
                piece = reference.piece
            elif piece:
                reference.piece = piece
        return references

    # --- problems ---------------------------------------------------------------------------------------------------

    def _report(self, statement: Statement, read: Instruction) -> None:
        for problem in read.problems:
            if problem.rule in ("unknown-stitch", "unreadable-line"):
                self._suspect(statement, problem)
            if problem.rule == "unknown-stitch":
                word = statement.text[problem.start : problem.end].lower()
                if word in self.unknown:
                    self.unknown[word].places.append(self._place_name(statement))
                else:
                    self.unknown[word] = _Unknown((statement, problem))
                continue
            self._add_problem(statement, problem, problem.message)

    @staticmethod
    def _place_name(statement: Statement) -> str:
        found = find_label(statement.words)
        return f"{found.label.text} (line {statement.line})" if found else f"line {statement.line}"

    def _add_problem(self, statement: Statement, problem: Unreadable, message: str) -> None:
        span = statement.span(problem.start, problem.end)
        edits = (Edit(span, problem.replace),) if problem.replace else ()
        self.findings.add(problem.rule, span, message, suggestion=problem.suggestion, edits=edits)

    def _definition(self, cut: Cut) -> None:
        self.definitions.append(cut.statement)
        if self.state.piece is not None:
            self._add(Line("note", cut.statement), cut)

    def _report_definitions(self) -> None:
        """An abbreviations list with a line for each word: told once, since it declares nothing as it stands."""
        if not self.definitions:
            return
        first = self.definitions[0]
        words = "; ".join(" ".join(statement.text.split()) for statement in self.definitions[:3])
        others = len(self.definitions) - 1
        more = f" So {'does 1 more line' if others == 1 else f'do {others} more lines'}." if others else ""
        start = len(first.text) - len(first.text.lstrip())
        self.findings.add(
            "unreadable-line", first.span(start, len(first.text.rstrip())),
            f"This looks like a line of an abbreviations list; by itself it declares nothing.{more}",
            suggestion=f"Write the list in one header line, as in Abbreviations: {words}",
        )  # fmt: skip

    def _report_feet(self) -> None:
        """Page numbers, addresses and copyright lines between rounds: told once, and left out."""
        if self.feet:
            count = len(self.feet)
            lines = "This line looks" if count == 1 else f"This and {count - 1} more lines look" if count > 2 else "This and 1 more line look"
            others = ", ".join(str(statement.line) for statement in self.feet[1:9])
            more = f" (line{'s' if count > 2 else ''} {others}{' and more' if count > 9 else ''})" if others else ""
            self.findings.add(
                "unreadable-line", self.feet[0].span(), f"{lines} like the foot of a printed page{more}: left out of the pattern.",
                severity=Severity.INFO, suggestion="Take it out; begin it with > if readers should see it.",
            )  # fmt: skip

    def _report_prose(self) -> None:
        if self.prose:
            count = len(self.prose)
            lines = "1 line is" if count == 1 else f"{count} lines are"
            self.findings.add(
                "unreadable-line", self.prose[0].span(), f"{lines} taken as notes: no stitch and no number stands in them.",
                severity=Severity.INFO, suggestion="Begin a note for readers with >.",
            )  # fmt: skip

    def _report_unknown(self) -> None:
        self._hint_at_terms()
        for unknown in self.unknown.values():
            statement, problem = unknown.first
            others = ""
            if unknown.places:
                shown = ", ".join(unknown.places[:8])
                more = f" and {len(unknown.places) - 8} more places" if len(unknown.places) > 8 else ""
                others = f" It stands also in {shown}{more}."
            self._add_problem(statement, problem, problem.message + others)

    def _hint_at_terms(self) -> None:
        """Where most words that could not be read are of one other language, how to declare it; it is never guessed."""
        if not self.suspects:
            return
        likely = None if self.pattern.header.terms in OTHER_TERMS else likely_terms(word for word, _span in self.suspects)
        if likely is not None:
            self.findings.add(
                "terms-unknown", self.suspects[0][1], f"What can't be read here looks like words of {likely.name}.",
                suggestion=f"If so, write Terms: {likely.code} at the top.",
            )  # fmt: skip

    def _suspect(self, statement: Statement, problem: Unreadable) -> None:
        """Keeps the words at a place that could not be read, in case they are of another language."""
        for match in re.finditer(r"[^\W\d_]+", statement.text[problem.start : problem.start + 60]):
            self.suspects.append((match[0], statement.span(problem.start + match.start(), problem.start + match.end())))

    def _link_same(self) -> None:
        for piece in self.pattern.pieces:
            if piece.heading is not None and (name := same_as(piece.heading.text)):
                near = nearest(name.lower(), [other.name.lower() for other in self.pattern.pieces])
                if near:
                    piece.same_as = Reference(0, 0, (), near)


def _color_words(header: Header) -> dict[str, str]:
    """Every way to name a declared colour: its key, "mc", and its name."""
    words = {"mc": "MC", "cc": "CC"} if any(key in header.colors for key in ("MC", "CC")) else {}
    for key, color in header.colors.items():
        words[key.lower()] = key
        if color.name and len(color.name) > 1:
            words.setdefault(color.name.lower(), key)
            words.setdefault(" ".join(re.findall(r"[^\W\d_]+|\d+|[^\w\s]", color.name.lower())), key)
        if color.shade:
            words.setdefault(f"shade {color.shade.lower()}", key)
    return words
