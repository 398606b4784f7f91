"""Whether a number behind an instruction is its count, or work of its own: "sc around. 24 sc", "1 sc. ch 1. 1 hdc"."""

from __future__ import annotations

from itertools import pairwise

from .count_nouns import STITCH_WORDS
from .counts import number_of
from .syntax import Stated
from .tokens import CLOSING, Token
from .words import ROUND_WORDS


def is_whole(tokens: list[Token], at: int, stop: int, apart: bool) -> bool:
    """Whether the tokens end as a whole instruction does, so that a number behind them is none of its own.

    *apart*: a sign stands before the number; without one only an end that takes no number is sure.
    """
    if stop - at < 2:
        return apart and tokens[at].kind == "number"  # "16, 16"
    last, before = tokens[stop - 1], tokens[stop - 2]
    if last.kind == "number":
        return before.text in ("x", "*") and stop - at > 2 or apart and before.kind != "mark"
    if last.text in _ENDS or last.text == "x" and before.kind == "number":
        return True
    if last.text in _RINGS and any(token.text in ("in", "into") for token in tokens[at : stop - 1]):
        return True
    if last.text in STITCH_WORDS:
        return apart or any(token.text in ("each", "ea", "every") for token in tokens[max(at, stop - 3) : stop])
    return apart and (last.kind == "word" or last.text in CLOSING)


def whole_before(tokens: list[Token], at: int, index: int) -> bool:
    """"(3 sc, inc) x 5 - 25": the instruction before the dash is whole, so the number behind it is the count."""
    return any(token.text in _WHOLE or token.text == "*" for token in tokens[at:index])


# Words that show that the instruction before a count is whole: "sc around. 24 sc", and not "1 sc. ch 1. 1 hdc".
_WHOLE = frozenset(["rem", "remaining", "around", "across", "turn", "join", "end", "each", "ea", "every", "rep", "repeat", "times", "even", "ring", "circle", "eor", "x", "even", "mr", "total"])
# Words that end an instruction and take no number behind them.
_ENDS = frozenset(["around", "across", "times", "time", "end", "eor", "even", "twice", "join", "turn"])
_RINGS = ("ring", "circle", "mr", "mc", "ar")
_SURELY = ("made", "total", "rem", "remain", "remaining", "left", "altogether", "all")


def is_work(tokens: list[Token], at: int, first: int, last: int, found: Stated) -> bool:
    """Whether "6 sc" behind a separator is a step rather than a count."""
    if any(part.kind == "stitch" for part in found.parts) or len(found.parts) > 1 or found.change is not None:
        return False
    if tokens[last - 1].text in _SURELY:
        return False
    before = tokens[at:first]
    if any(token.text in _WHOLE or token.text == "*" for token in before):
        return False
    if before and before[-1].text in ROUND_WORDS:  # "sc 3 for 2 rnds. 3 sc": nothing goes on behind a number of rounds
        return False
    if _adds_up(before, number_of(found)):
        return False
    # The only separator of its kind, behind more than a bare stitch, separates the count.
    commas = any(token.text == "," for token in before) and tokens[first].text != ","
    alone = sum(token.text == tokens[first].text and not _inside_name(tokens, at, index) for index, token in enumerate(before, at)) == 0
    number = found.number.value if found.number is not None else 0
    return not (alone and (commas and number > 1 or number > 3 or _same_number(before, number)) and (len(before) > 2 or any(token.kind == "number" for token in before)))


def _same_number(before: list[Token], number: int) -> bool:
    """"sc 3 - 3 sc": the only number of the instruction is the count."""
    numbers = [token.text for token in before if token.kind == "number"]
    return numbers == [str(number)]


def _adds_up(before: list[Token], number: int) -> bool:
    """"3 sc. 2 sc in next sc. 16 sc. 21 sc.": the numbers before the last one add up to it."""
    numbers = [int(t.text) for t, after in pairwise(before) if t.kind == "number" and len(t.text) < 6 and after.kind == "word" and after.text not in ("st", "nd", "rd", "th")]
    return len(numbers) > 1 and sum(numbers) == number


def _inside_name(tokens: list[Token], at: int, index: int) -> bool:
    """A full stop or hyphen that belongs to a name: "sl. st.", "sc-inc"."""
    return tokens[index].text == "-" and tokens[index].glued or tokens[index].text == "." and index > at and tokens[index - 1].text in ("sl", "st", "inv")
