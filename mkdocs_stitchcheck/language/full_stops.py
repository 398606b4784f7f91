"""Full stops that only shorten a word, as old patterns have them: "rep. from *", "in 3rd ch. of ch-3", "1 d. c. in next sp."."""

from __future__ import annotations

from .tokens import Token

_SHORT = frozenset(("ch", "chs", "st", "sts", "sp", "sps", "lp", "lps", "rep", "rpt", "beg", "rnd", "rem", "foll", "sk", "prev", "dc", "sc", "tr", "hdc"))
_LETTERS = frozenset(("s", "d", "h", "t", "tr"))  # "s. c.", "d. c.", "tr. c."
# A word that goes on with the one before it: no sentence begins so.
_GOES_ON = frozenset(("of", "from", "in", "into", "to", "as", "around", "across", "over", "between", "tog", "together", "apart"))


def without_stops(tokens: list[Token]) -> list[Token]:
    """*tokens* without the full stops of shortened words that the next word goes on from; the same list where there are none."""
    shortening = {index for index in range(1, len(tokens) - 1) if tokens[index].text == "." and tokens[index].glued and _shortens(tokens, index)}
    return [token for index, token in enumerate(tokens) if index not in shortening] if shortening else tokens


def _shortens(tokens: list[Token], index: int) -> bool:
    before, after = tokens[index - 1], tokens[index + 1]
    if before.text in _LETTERS and after.text == "c" or before.kind == "word" and after.text in (",", ";", ")", "]"):
        return True
    if before.text == "ch" and after.kind == "number":
        return index > 2 and tokens[index - 2].text == "of" and tokens[index - 3].text != "side"  # "in 3rd ch of ch. 3"
    return before.text in _SHORT and after.text in _GOES_ON
