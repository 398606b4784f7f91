"""Forms of words that have two readings, and how each is answered. Data apart from the search in ``readings``.

The defaults: common practice, no source; ``text from * to ; is worked once, then repeated`` is the letter of the
Craft Yarn Council's convention for the asterisk.
"""

from __future__ import annotations

from .. import late_re as re

TURNING = "turning-chain"
STAR = "star-repeat"
NUMBER = "number-stitch"
CHAINS = "chains-counted"
SLIP = "slip-stitches"
IMPLICIT = "implicit-repeat"
REACH = "space-reach"

# The answers in words: what True means, what False means.
WORDS: dict[str, tuple[str, str]] = {
    TURNING: ("counts", "does not count"),
    STAR: ("rep from * 5 times is 6 in all", "rep from * 5 times is 5 in all"),
    NUMBER: ("2 sc is two in one stitch", "2 sc is two stitches"),
    CHAINS: ("chains count", "chains between stitches do not count"),
    SLIP: ("slip stitches count", "slip stitches do not count"),
    IMPLICIT: ("a bare list is repeated to the end", "a bare list is worked once"),
    REACH: ("stitches before a space are passed over in order", "spaces are free to choose"),
}
_DEFAULTS: dict[str, bool] = {STAR: True, NUMBER: False, CHAINS: False, SLIP: True, IMPLICIT: False, REACH: True}

# What to write in the header so that nothing is left to guess.
HEADER: dict[str, tuple[str, str]] = {
    STAR: ("Reading: rep from * 5 times is 6 in all", "Reading: rep from * 5 times is 5 in all"),
    NUMBER: ("Reading: 2 sc is two in one stitch", "Reading: 2 sc is two stitches"),
    CHAINS: ("Reading: chains count", "Reading: chains do not count"),
    SLIP: ("Slip stitches: count", "Slip stitches: do not count"),
    IMPLICIT: ("Reading: a list without brackets is repeated", "Reading: a list without brackets is worked once"),
    REACH: ("Reading: spaces in order", "Reading: spaces free"),
}

_NO = re.compile(r"\b(?:not|no|never|false|ignored?)\b")


# The declared answers that mean True, as the header's reader gives them; the others say "counts", "do not count".
_YES = {STAR: "more", NUMBER: "in one", IMPLICIT: "repeat", REACH: "in order"}


def default(question: str) -> bool:
    """The answer where nothing is declared and nothing decides: turning chains by height, sc and hdc do not count."""
    if question.startswith(TURNING):
        return question[len(TURNING) + 1 :] not in ("sc", "hdc", "sl st", "esc")
    return _DEFAULTS[question]


def answer_of(question: str, text: str) -> bool:
    """A declared answer as a truth value."""
    said = text.strip().lower()
    yes = _YES.get(question)
    return said == yes if yes is not None else _NO.search(said) is None


def words(question: str, answer: bool) -> str:
    """The answer as people say it."""
    yes, no = WORDS[question.split(" ", 1)[0]]
    return yes if answer else no


def header_line(question: str, answer: bool) -> str:
    """The header line that declares *answer*."""
    if question.startswith(TURNING):
        return f"Turning chain: {question[len(TURNING) + 1 :]} {words(question, answer)}"
    yes, no = HEADER[question]
    return yes if answer else no


class Answers:
    """How the open questions are read. ``declared`` are the questions that a header or "throughout" has settled."""

    __slots__ = ("declared", "given")

    def __init__(self, given: dict[str, bool] | None = None, declared: frozenset[str] = frozenset()) -> None:
        self.given = given or {}
        self.declared = declared

    def get(self, question: str) -> bool:
        """The answer in force."""
        found = self.given.get(question)
        return default(question) if found is None else found

    def but(self, changes: dict[str, bool]) -> Answers:
        """These answers with some changed."""
        return Answers({**self.given, **changes}, self.declared)
