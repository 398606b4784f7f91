"""The hundred points of a technical editor as data: which a rule checks, where the program helps, what is the writer's.

The order and numbers are those of this project's own list; what editors go through is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

TOPICS = {
    "A": "Counts and arithmetic", "B": "Sizes and measures", "C": "Materials", "D": "Words and abbreviations",
    "E": "How it is made", "F": "Drawings and photographs", "G": "For every reader", "H": "Publication",
}
CHECKED, HELPED, YOURS = "checked", "helped", "yours"


@dataclass(frozen=True, slots=True)
class Point:
    """One point: ``kind`` is checked (by ``rules``), helped (``says`` what is computed or shown) or yours (a question)."""

    number: int
    topic: str
    kind: str
    rules: tuple[str, ...]
    says: str


@cache
def points() -> tuple[Point, ...]:
    """All points in order."""
    found = []
    topic = ""
    for line in _TABLE.strip().splitlines():
        if line in TOPICS:
            topic = line
            continue
        number, kind, rules, says = (part.strip() for part in line.split("|"))
        found.append(Point(int(number), topic, kind, tuple(rules.split()), says))
    return tuple(found)


_TABLE = """
A
1|checked|count-missing count-left-out|Every round or row that changes the number of stitches states it.
2|checked|count-mismatch|The round makes the count that it states.
3|checked|stitches-left-over stitches-run-out|The round uses all stitches of the round before, and no more.
4|checked|count-mismatch|"(+6)" and "6 sts increased" are what the round really gains.
5|checked|repeat-does-not-fit|A repeat to the end comes out, or the stitches that remain are said.
6|checked|repeat-does-not-fit stitches-left-over|The last repeat ends as its words say.
7|checked|range-length round-missing round-twice|Round numbers run on without gap, overlap or double.
8|checked|range-length|A range has as many rounds as it says beside it.
9|checked|round-missing unknown-round circular-reference|Rows that are repeated exist, and end at the row that follows.
10|checked|stitches-left-over stitches-run-out count-mismatch|The foundation chain gives the first row.
11|checked|multiple-mismatch repeat-does-not-fit|The foundation chain is of the multiple that the stitch pattern needs.
12|checked|stitches-left-over stitches-run-out|Every chain is used on both sides of a chain that is worked around.
13|checked|join-mismatch stitches-left-over count-mismatch|Joined legs and bridges sum to the joining round.
14|checked|count-mismatch stitches-left-over stitches-run-out|Chain spaces are counted and worked into by one rule.
15|checked|reading-guessed reading-undecided stitches-left-over|Turning chains count, or do not, the same way all through.
16|checked|count-mismatch|The joining slip stitch and its chain are not counted as stitches.
17|checked|style|A special stitch says how many stitches it takes and counts as.
18|checked|stitches-left-over|Stitches left unworked and stitches worked are together the row before.
19|checked|stitches-left-over stitches-run-out|Short rows come back to the whole row.
20|checked|count-mismatch stitches-left-over|Sides and corners of an edging come to the stated counts.
21|checked|seam-mismatch join-mismatch|Pieces that are sewn or crocheted together stitch for stitch have as many stitches.
22|checked|pair-differs|A left and a right piece end alike.
23|checked|repeat-does-not-fit|The count can be divided where the next round's repeat needs it.
24|checked|stitches-run-out stitches-left-over|The blocks of colour of a round sum to the round.
25|checked|too-wide-to-close|The last round is small enough to be drawn shut.
B
26|checked|left-unsaid gauge-unusual|The gauge has stitches and rows, and goes with yarn and hook.
27|checked|finished-size|The finished size follows from gauge and counts.
28|checked|sizes-disagree|Every list has an entry for every size.
29|checked|sizes-disagree|All lists have the same length.
30|checked|sizes-out-of-order|Measures grow from size to size.
31|checked|units-disagree|Inches and centimetres, ounces and grams, yards and metres agree.
32|checked|left-unsaid|A garment says whether its measures are to fit or finished, and how much ease there is.
33|yours||Does a schematic, if you drew one, carry the numbers of the text?
34|checked|length-disagrees|A length that a note states is what the rows come to.
35|checked|finished-size|The height of a toy goes with its gauge.
36|helped|on-trust|Rounds "until it measures" are named as taken on trust, with the rows that the gauge asks for where it is known.
C
37|checked|left-unsaid bad-quantity|Yarn with its thickness or put-up, and amounts of the colours.
38|checked|yarn-short|The yarn listed is enough for the stitches.
39|checked|put-up|Balls, weight and length go together.
40|checked|unlisted-color unused-color|Colours used are listed, and listed ones are used.
41|checked|unlisted-hook unused-hook units-disagree|Hooks used are listed, listed ones used; letter and millimetres agree.
42|checked|unlisted-material unused-material notion-without-size|Notions used are listed with size and number, and listed ones are used.
43|helped||The amount of stuffing is computed from the size of each piece.
44|yours||Do you say which other yarns will do? stitchcheck yarn computes size and amount in another yarn.
45|yours||Can the yarn and the shades still be bought?
D
46|checked|terms-unknown|The pattern says whether its terms are US or UK.
47|checked|unknown-stitch undefined-abbreviation unused-abbreviation|Every abbreviation used is known or explained, and every one explained is used.
48|checked|two-meanings|An abbreviation has one meaning.
49|checked|style|Capitals, spaces, and number before or after the stitch are the same all through.
50|checked|unbalanced-mark style|Brackets and stars are closed, and of one kind.
51|checked|explained-after-use|A special stitch is explained before it is worked.
52|checked|mixed-terms|The stitch names are of one country.
53|checked|style|Numbers of times in figures or in words, not in both.
54|checked|side-mismatch|Right and wrong sides alternate as the rows are turned.
55|checked|style|Rows go across and rounds go around; ranges are written in one way.
56|helped|word-twice|Words that stand twice are found; read the rest aloud: grammar, tone, and what "it" stands for.
57|checked|style|Units are written with a space, or all without.
58|yours||Do you use brand names only as their owners allow?
59|yours||Do you speak of bodies and people in words that leave nobody out?
60|yours||Do the notes stand in the order in which they are needed?
E
61|checked|how-many pieces-counted piece-twice|Every piece has one name and says how many are made, and as many are sewn on.
62|checked|closed-before-stuffing eyes-after-closing color-cut|Stuffing, eyes and colours come before it is too late for them.
63|checked|unknown-round too-far-apart|Places for eyes and pieces exist, and lie on the front.
64|checked|pair-differs|Left and right are mirrored.
65|checked|join-missing|A piece is joined in every round, or worked in a spiral.
66|checked|marker-not-placed|A marker that is named has been placed.
67|checked|not-fastened-off fastened-off-twice after-fasten-off|Every piece is fastened off, once.
68|checked|piece-not-attached unknown-piece|Every piece left with a tail for sewing has its place.
69|yours||Are seams and blocking told as you did them?
70|helped||The report says whether a Care line is there; what stands in it is yours.
F
71|helped||The drawings are made from the checked rounds; they cannot disagree with the text.
72|helped||A drawing that the page makes brings its own key and directions.
73|yours||Do the photographs show this object, in these colours?
74|checked|unknown-photo|A photo that is named by number is there.
75|checked|picture-without-words|Every picture has words of its own.
G
76|helped||The large-print sheet is black on white, in a plain typeface, at 22 points and more.
77|helped||The large-print sheet has no italics.
78|helped||The large-print sheet has one column, set left, with wide lines and margins.
79|helped||A drawing is made from rounds that stand beside it in words.
80|checked|color-alone|Nothing is told by the colour of the print alone.
81|helped||The sheet is text, not a scan, and its foot repeats only title, address and page.
82|helped||Page and sheet have real headings and a list or table of rounds.
83|checked|long-run|No round is a long run of numbers.
84|checked|unspoken-mark|A mark that a screen reader passes over has words beside it.
85|yours||Are the paragraphs short, and does the story stand at the end?
86|checked|picture-without-words|Photographs have alternative text.
87|yours||Do you say which needs your pattern was made for, and which not?
88|helped||Page and sheet print without the site's colours and menus.
H
89|checked|left-unsaid header-twice|Title, and for what was corrected or licensed a version or date.
90|helped||The report says whether a Designer line is there; testers and editor are thanked by you.
91|helped||The report says whether Licence or Copyright stands there; what they allow is yours.
92|helped||The report says whether a Contact line is there.
93|checked|link-without-words left-over-text|Links say where they lead, and lead somewhere.
94|helped||The sheet carries page numbers.
95|checked|another-name left-over-text unknown-piece|Nothing is left from another pattern or from writing.
96|checked|small-parts|A pattern with small parts or cords carries the caution.
97|checked|level-unknown|The level has a usual name; the one that the stitches imply is computed.
98|helped||Weights of testers (Weighed:) are compared with each other and with the estimate; what testers said is yours.
99|yours||Do file name, description and tags say what it is?
100|yours||Do price and sizes on the shop's page agree with the pattern? stitchcheck prints the checked numbers.
"""
