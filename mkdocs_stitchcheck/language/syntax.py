"""The syntax tree: what a designer wrote, with places, before anything is counted.

``start`` and ``end`` of a node are offsets in the text of its :class:`~mkdocs_stitchcheck.source.Statement`.
Nodes are compared by identity: one written number is one ``Number`` object, which the search for repairs replaces.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ..source import Statement
from .quantities import Amount, Gauge, Length, PutUp, Swatch, Weighing
from .vocabulary import Stitch


@dataclass(eq=False, slots=True)
class Node:
    start: int
    end: int


@dataclass(eq=False, slots=True)
class Number(Node):
    """A written number, or one number a size. ``values`` has one entry, or as many as the pattern has sizes.

    None stands for a size that is not worked (a dash). ``word`` is true for "six", "twice".
    """

    values: tuple[int | None, ...]
    word: bool = False

    @property
    def value(self) -> int:
        """The number, of the first size where there are several; 0 for a size that is not worked."""
        return self.values[0] or 0


# --- what stands in a round -------------------------------------------------------------------------------------


@dataclass(eq=False, slots=True)
class Place(Node):
    """Where stitches go. ``number`` and ``each`` as written. Kinds:

    =============  ======================================================================================
    ``next``       "in next 5 sts", "in next st", "in each of next 5", "over next 2 sts", "in one st",
                   "in 3rd st": takes ``number`` places (1 where None)
    ``first``      "in first st", "in first 2 sts": as ``next``, but only right at the start of the round
    ``last``       "in last st", "in last 2 sts", "in last ch", "in top of tch": as ``next``, and these are the last
    ``rest``       "around", "across", "to end", "in each st", "in rem sts": all that are left. With ``number``
                   ("in all 24 sts") that number is claimed to be what is there
    ``to_last``    "to last 2 sts": all that are left but the last ``number``
    ``same``       "in same st", "in base of ch": takes no place of its own
    ``ring``       "in magic ring", "in ring": takes no place
    ``chain``      "in 2nd ch from hook": the ``number``-th chain; the chains before it are skipped
    ``piece``      "around leg 2", "along the ch": ``reference`` says whose stitches
    ``loops``      "in free front loops of Rnd 9": ``reference`` says whose
    ``space``      "in next ch-2 sp", "in corner sp": ``noun`` is "space", ``number`` how many, ``chains`` its length
    ``gap``        "between next 2 groups": the place where two groups meet, without a chain of its own
    ``to_space``   "to next corner", "in each dc to next ch-2 sp": all up to the space ``upto``
    ``in_group``   "in center dc of next shell", "in 3rd dc of next shell": one stitch of a group
    =============  ======================================================================================

    ``noun`` is what the writer calls the places: "stitch", "chain", "space", or a stitch's key; empty where unsaid.
    ``layers`` is 2 for "through both layers" (each place is a stitch of both), else 1.
    """

    kind: str
    number: Number | None = None
    each: bool = False
    noun: str = ""
    layers: int = 1
    chains: int | None = None
    reference: Reference | None = None
    counts_as: tuple[tuple[str, int], ...] | None = None  # of a ``chain``: what the skipped chains count for, as in Chain
    upto: Place | None = None  # of ``to_space``: the space before which it ends
    also: Place | None = None  # "in each dc and ch-1 sp around": these spaces too, in their order
    within: str = ""  # "in ch-2 sp of next shell": the group whose space or stitch it is


@dataclass(eq=False, slots=True)
class Step(Node):
    """Something to do in a round."""


@dataclass(eq=False, slots=True)
class Work(Step):
    """Stitches of one kind: "sc 5", "5 sc", "inc", "inc x 6", "dec in next 4 sts", "2 dc in next st", "sk 2".

    - ``place`` None: ``count`` times the stitch, one after the other (None: once).
    - ``place`` given, and the stitch uses 1: ``count`` (None: 1) of them in *each* of the place's places.
      "2 sc in next 3 sts" uses 3 and makes 6. If ``count`` equals the number of places and is 5 or more
      ("work 6 sc in next 6 sts"), one in each is meant.
    - ``place`` given, and the stitch makes 2 of 1 (inc) with ``count`` None: one in each place.
    - ``place`` given, and the stitch uses more (dec, sc3tog): the stitch as often as the places allow; with
      ``spread`` set ("dc2tog over next 3 sts, skipping the middle") once over all of them.
    - ``times`` multiplies the whole ("sc in next 2 sts x 3", "inc x 6" has count 6 instead).
    - ``glued`` is true for "2sc", "sc2", "inc3": how it stands on the page; ``number_first`` for "2 sc".
    """

    stitch: Stitch
    count: Number | None = None
    place: Place | None = None
    loop: str = ""  # "back", "front", "third", "both" or "" (unsaid)
    number_first: bool = False
    glued: bool = False
    spread: bool = False
    times: Number | None = None
    color: str | None = None  # "6 sc A": the colour of just these


@dataclass(eq=False, slots=True)
class Chain(Step):
    """Chains made: "ch 3", "ch 1, turn", "ch 3 (counts as dc)".

    ``counts_as`` holds what the writer says it counts for, as (stitch key, number) pairs; () for "does not count";
    None where nothing is said. ``throughout`` is true for "here and throughout". ``turning`` is true where it
    stands before any stitch of a round, or after the last one beside a turn: then it gives height, otherwise it
    lies between stitches.
    """

    number: Number
    counts_as: tuple[tuple[str, int], ...] | None = None
    throughout: bool = False
    turning: bool = False


@dataclass(eq=False, slots=True)
class Ring(Step):
    """A magic ring, or chains closed to a ring ("ch 4, join to form a ring"); stitches worked into it use no place."""

    chains: Number | None = None


@dataclass(eq=False, slots=True)
class Group(Step):
    """Several kinds in one place: "(sc, hdc, dc) in next st", "(sc, sc) in each st around"; or the same "times" over."""

    body: tuple[Step, ...]
    place: Place
    times: Number | None = None
    name: str = ""  # of a declared stitch that it is: "shell"


@dataclass(eq=False, slots=True)
class Repeat(Step):
    """``body`` worked more than once.

    ``extent``: ``times`` (``times`` counts), ``rest`` ("around", "to end", or nothing said after paired stars),
    ``to_last`` ("to last ``left`` sts"), ``to_space`` ("to next corner": ``upto``), ``ending`` ("ending with ``ending``").
    ``counting`` says what ``times`` counts: ``all`` ("x 6", paired stars), ``more`` ("5 more times": six in all),
    ``star`` ("rep from * 5 times": the question star-repeat; 6 or 5 in all). ``mark`` is "(", "[", "{", "<", "*" ...
    ``closed`` is false where the closing mark is missing.
    """

    body: tuple[Step, ...]
    times: Number | None = None
    extent: str = "times"
    counting: str = "all"
    left: Number | None = None
    ending: tuple[Step, ...] = ()
    mark: str = "("
    closed: bool = True
    last: int | None = None  # "ending last rep at **": so many steps of the body are worked the last time
    upto: Place | None = None
    left_spaces: bool = False  # ``left`` are chain spaces


@dataclass(eq=False, slots=True)
class Leave(Step):
    """Stitches that stay: "leave rem 6 sts unworked", "leave last 2" (``number`` None: all the rest).

    ``only`` says how many are worked instead: "work on these 20 sts only".
    """

    number: Number | None = None
    only: Number | None = None


@dataclass(eq=False, slots=True)
class Turn(Step):
    """The work is turned."""


@dataclass(eq=False, slots=True)
class Join(Step):
    """The round is closed by a slip stitch ("join", "sl st in first sc"): 0/0. ``stitch`` for "join with sc": counts 1.

    ``piece`` for "join to first leg".
    """

    stitch: Stitch | None = None
    reference: Reference | None = None


@dataclass(eq=False, slots=True)
class OtherSide(Step):
    """From here on along the other side of the foundation chain."""


@dataclass(eq=False, slots=True)
class StartAt(Step):
    """Where what follows begins: "from the 2nd ch from hook: 23 sc", "in free front loops of Rnd 9: ..."."""

    place: Place


@dataclass(eq=False, slots=True)
class Loops(Step):
    """A loop choice that holds from here on ("BLO:", "in back loops only", "both loops")."""

    loop: str


@dataclass(eq=False, slots=True)
class ColorChange(Step):
    """Another colour from here on: "change to B", "(B)", "with MC". ``name`` as written, ``color`` as declared or None.

    ``last_stitch`` is true for "in last st", "in last yo": the colour begins with the next round.
    """

    name: str
    color: str | None = None
    last_stitch: bool = False


@dataclass(eq=False, slots=True)
class More(Step):
    """Stitches after the end of the round ("sc 3 more"): on the new edge; they move the start."""

    body: tuple[Step, ...]


@dataclass(eq=False, slots=True)
class Again(Step):
    """A reference: "as Rnd 5", "rep Rows 2-5 twice", "Rnds 1-8 of Head", "repeat on the other side".

    ``times``: how often the whole stretch is worked (None: once); ``more`` for "more times" after it was just worked.
    ``until``: "until you have 34 rows", how many there are then in all.
    """

    reference: Reference
    times: Number | None = None
    more: bool = False
    until: Number | None = None


@dataclass(eq=False, slots=True)
class Trust(Step):
    """Words that cannot be counted ("as established", "evenly", "until it measures"): the round is on trust.

    ``reason`` is a short phrase for the report. "inc 6 evenly" is a ``Spread`` instead.
    """

    reason: str


@dataclass(eq=False, slots=True)
class Spread(Step):
    """So many more or fewer, evenly over the whole edge: "inc 6 evenly (30)": all used, ``number`` more (or fewer) made."""

    number: Number
    stitch: Stitch  # an increase or a decrease


@dataclass(eq=False, slots=True)
class EdgingPart(Node):
    """What goes into each place of an edging. ``where``: ``rows`` (row ends), ``stitches``, ``chain`` (of the foundation), ``corner``;
    ``number`` None for "evenly". ``per`` is 3 for "2 sc for every 3 rows"."""

    where: str
    number: Number | None = None
    per: int = 1


@dataclass(eq=False, slots=True)
class Edging(Step):
    """Stitches along the edges of a piece: around, or along the sides that ``parts`` name one after the other."""

    stitch: Stitch
    parts: tuple[EdgingPart, ...] = ()
    around: bool = False
    evenly: bool = False


@dataclass(eq=False, slots=True)
class Shaping(Step):
    """Rows told by how often they shape: "dec 1 st at each end of every 4th row 5 times".

    ``stitch`` is an increase or a decrease, ``number`` how many of them at each of so many ``ends`` (None: one).
    ``phases`` are (rows to each shaping, how often). ``first`` for "next and every 4th row": one row more shapes, at once.
    ``after`` is the measure from which on it holds, of "at the same time, when piece measures 10 cm".
    """

    stitch: Stitch
    ends: int
    number: Number | None = None
    phases: tuple[tuple[int, Number], ...] = ()
    first: bool = False
    after: Length | None = None


@dataclass(eq=False, slots=True)
class Until(Step):
    """How far to go on: "until it measures 20 cm", "for 5 cm more" (``more``: from here, not from the beginning).

    ``rows`` is "even" or "odd" where it must end with a row of one side ("ending with a WS row").
    """

    length: Length
    more: bool = False
    rows: str = ""


@dataclass(eq=False, slots=True)
class Aside(Step):
    """A doing that neither uses nor makes stitches: stuff, place marker, do not join, fasten off ... ``kind`` from data.

    Kinds that matter: ``fasten-off``, ``close``, ``stuff``, ``do-not-stuff``, ``eyes``, ``flatten``, ``sew``, ``marker``,
    ``continue`` ("do not fasten off"), ``held`` ("holding both ears together": ``reference`` says which pieces, for what
    then goes "through both"), ``remark``.
    """

    kind: str
    reference: Reference | None = None


# --- references, counts, lines -----------------------------------------------------------------------------------


@dataclass(eq=False, slots=True)
class Reference(Node):
    """Rounds or a piece named somewhere: "Rnds 7 and 8", "Rnds 1-8 of Head", "the Body", "leg 1".

    ``rounds`` holds (first, last) pairs, empty for a whole piece; negative numbers count back from here: (-2, -1) is
    "the last 2 rows". ``piece`` is the name as written, "" for the piece
    at hand. ``side`` is "front" or "back" for free loops. ``numbers`` are the written numbers.
    """

    rounds: tuple[tuple[int, int], ...] = ()
    piece: str = ""
    side: str = ""
    numbers: tuple[Number, ...] = ()


@dataclass(eq=False, slots=True)
class KindCount(Node):
    """A number with what it counts, of a stated count: "24", "24 sc", "6 ch-2 sps". ``kind`` is "" for plain stitches.

    Kinds: a stitch's key, "stitch", "chain", "space", "space 2", "corner space", "group", or the group's name.
    """

    number: Number
    kind: str = ""
    share: bool = False  # "15 dc on each side": of each side or part, not of all
    size: Number | None = None  # "4 groups of 3 dc": how many stitches each has


@dataclass(eq=False, slots=True)
class Stated(Node):
    """The count a round states. ``start:end`` covers the brackets. ``form``:

    ``total`` "(24)"; ``kinds`` "(24 sc, 6 ch-2 sps)": each checked, by ``parts``; ``sum`` "(24 + 24)"; ``each``
    "(12 on each leg)"; ``change`` "(+6)", "(6 sts increased)": ``change`` more than before; ``about`` "(36-42 sts)";
    ``unknown`` "(?)": not written yet.
    ``number`` is the total where one is stated; ``change`` may accompany it.
    """

    form: str = "total"
    number: Number | None = None
    change: int | None = None
    change_number: Number | None = None
    parts: tuple[KindCount, ...] = ()


@dataclass(eq=False, slots=True)
class RoundLabel(Node):
    """"Rnds 5-7 (3 rnds):". ``kind`` "round" or "row"; ``numbers`` every number covered, in order, as (first, last)
    stretches; empty for a line without a number ("Next rnd:", "Foundation row:"), whose ``name`` says it.

    ``length`` is a stated number of rounds. ``side`` "RS"/"WS"/"left side" ...; ``section`` a prefix ("Leg 2").
    ``text`` is the label for people: "Rnd 7", "Rnds 5-7".
    """

    kind: str
    text: str
    numbers: tuple[tuple[int, int], ...] = ()
    length: Number | None = None
    name: str = ""
    side: str = ""
    section: str = ""
    written: tuple[Number, ...] = ()

    @property
    def first(self) -> int | None:
        return self.numbers[0][0] if self.numbers else None

    @property
    def last(self) -> int | None:
        return self.numbers[-1][1] if self.numbers else None


@dataclass(eq=False, slots=True)
class Line:
    """A statement of a piece. ``kind``: round, foundation, step, note, private (``>>``), excuse (``>> right as written:``)."""

    kind: str
    statement: Statement

    @property
    def line(self) -> int:
        return self.statement.line


@dataclass(eq=False, slots=True)
class RoundLine(Line):
    """A round, row, foundation or working step with what it says.

    ``label`` is None for foundations and steps. ``steps`` is None where it could not be read (a finding says why):
    status "unread". ``stated`` are the counts: one, or one a round of a range, or ().  ``body`` is the (start, end) of
    the instruction in the statement, without label and count. ``moment`` is a film mark in seconds.
    ``hue`` is the colour at the round's head. ``only`` holds the sizes (from 0) in which the line is worked, where the
    writer says so.
    """

    label: RoundLabel | None
    steps: tuple[Step, ...] | None
    stated: tuple[Stated, ...] = ()
    body: tuple[int, int] = (0, 0)
    moment: int | None = None
    not_written: bool = False  # "Rnd 12: ?"
    references: tuple[Reference, ...] = ()  # rounds and pieces that a step names: "between Rnds 7 and 8 of the Body"
    only: frozenset[int] | None = None  # "Sizes M and L only:"
    unwritten: RoundLine | None = None  # worked once before it, as "all even rows" says; the label covers it too
    otherwise: tuple[tuple[Step, ...], tuple[Stated, ...]] | None = None  # a second reading, taken where only it comes out


@dataclass(eq=False, slots=True)
class Piece:
    """A piece of the pattern: "# Ears (make 2, color B)".

    ``heading`` is None for a piece without one. ``name`` is what it is called in messages. ``making_up`` for a piece
    without rounds whose lines are steps. ``notes`` are among ``lines``.
    """

    name: str
    heading: Statement | None
    make: int = 1
    color: str | None = None
    copies: tuple[tuple[str, int], ...] = ()  # how many are made in which colour, where they differ
    making_up: bool = False
    lines: list[Line] = field(default_factory=list)
    same_as: Reference | None = None
    continued: bool = False
    line: int = 1
    moment: int | None = None


@dataclass(eq=False, slots=True)
class Color:
    """A declared colour: ``key`` ("A", "MC"), ``name`` ("slate"), ``shown`` ("#6d7a86") and the amount listed."""

    key: str
    name: str
    statement: Statement
    shown: str | None = None
    shade: str = ""
    amount: Amount | None = None
    yarn: int | None = None  # index in Header.yarns of the yarn it belongs to


@dataclass(eq=False, slots=True)
class Yarn:
    """A ``Yarn:`` line: free words, the Craft Yarn Council category 0-7, and the put-up."""

    text: str
    statement: Statement
    category: int | None = None
    put_up: PutUp | None = None


@dataclass(eq=False, slots=True)
class HeaderLine:
    """One ``Key: value`` as written. ``key`` is the standard key in lower case, or the writer's own for an unknown one."""

    key: str
    label: str
    value: str
    statement: Statement
    value_start: int
    known: bool = True


@dataclass(eq=False, slots=True)
class SpecialStitch:
    """A declared stitch or abbreviation: the word, what it stands for, its stitch, and the line that declares it."""

    word: str
    text: str
    stitch: Stitch | None
    statement: Statement
    special: bool = True  # False: from "Abbreviations:"


@dataclass(eq=False, slots=True)
class Header:
    """What the header lines say, parsed. Lists are in the order written; quantities keep their written units."""

    lines: list[HeaderLine] = field(default_factory=list)
    title: str = ""
    terms: str = ""  # "US", "UK", "letters", "de" ... as declared; "" where undeclared
    yarns: list[Yarn] = field(default_factory=list)
    colors: dict[str, Color] = field(default_factory=dict)
    hooks: list[Length] = field(default_factory=list)
    gauge: Gauge | None = None
    swatches: list[Swatch] = field(default_factory=list)
    weighings: list[Weighing] = field(default_factory=list)
    notions: list[str] = field(default_factory=list)
    sizes: tuple[str, ...] = ()
    finished: list[Length] = field(default_factory=list)
    special: dict[str, SpecialStitch] = field(default_factory=dict)
    readings: dict[str, str] = field(default_factory=dict)  # question -> answer, as declared
    declared_at: dict[str, Statement] = field(default_factory=dict)  # question -> the line that declares it
    draft: bool = False
    show: list[str] = field(default_factory=list)

    def first(self, key: str) -> HeaderLine | None:
        """The first line with *key*."""
        return next((line for line in self.lines if line.key == key), None)


@dataclass(eq=False, slots=True)
class Pattern:
    """A whole pattern as read. ``system`` is "US" or "UK": the terms its words are read in."""

    header: Header
    pieces: list[Piece] = field(default_factory=list)
    system: str = "US"
    line: int = 1
    title: str = ""
    excuses: list[tuple[Statement, str]] = field(default_factory=list)
    draft: bool = False
    terms_decided: bool = True  # whether a declaration or a word of one system alone decided the terms
    prose: str = ""  # the page's text outside the blocks: a colour or notion named there is used
