"""The letter code of East Asian patterns: "R3: (X, V)*6 (18)". Common practice, no source.

Some writers use K, Q and others for stitches of their own: what is not in this table is declared under Abbreviations.
"""

from __future__ import annotations

from .table import OtherTerms

_LETTERS = {"x": "sc", "v": "inc", "a": "dec", "t": "hdc", "f": "dc", "e": "tr", "w": "inc3", "m": "dec3", "k": "sk"}
_TALL = {"t": "hdc", "f": "dc", "e": "tr"}

# A tall stitch's letter before V, A, W or M: TV is two half doubles in one, FM three doubles together.
_JOINED = {letter + "v": f"{stitch} inc" for letter, stitch in _TALL.items()} | {
    letter + "a": f"{stitch} dec" for letter, stitch in _TALL.items()
} | {letter + "w": f"{stitch} 3 in 1" for letter, stitch in _TALL.items()} | {
    letter + "m": f"{stitch}3tog" for letter, stitch in _TALL.items()
} | {"xv": "inc", "xa": "dec", "xw": "inc3", "xm": "dec3"}  # fmt: skip

_PHRASES = {
    # An x behind a bracket, and a small x between a letter and a number, multiplies: (X, V)x6, V x 6.
    ") x #": ") x #1", "] x #": "] x #1", ") # $": ") #1 x", "] # $": "] #1 x", "% $ #": "%1 x #1",
    "# $ (": "#1 x (", "# $ [": "#1 x [",
}  # fmt: skip

_NAMES = {
    "sc": ("X", "single crochet"), "inc": ("V", "increase: 2 sc in one stitch"), "dec": ("A", "decrease: 2 sc worked together"),
    "hdc": ("T", "half double crochet"), "dc": ("F", "double crochet"), "tr": ("E", "treble crochet"),
    "sc 3-in-1": ("W", "3 sc in one stitch"), "sc3tog": ("M", "3 sc worked together"), "sk": ("K", "skip a stitch"),
    "ch": ("CH", "chain"), "sl st": ("SL", "slip stitch"),
    "hdc inc": ("TV", "2 hdc in one stitch"), "dc inc": ("FV", "2 dc in one stitch"), "tr inc": ("EV", "2 tr in one stitch"),
    "hdc dec": ("TA", "2 hdc worked together"), "dc dec": ("FA", "2 dc worked together"), "tr dec": ("EA", "2 tr worked together"),
}  # fmt: skip

LETTERS = OtherTerms(
    "letters", "the letter code", _LETTERS | _JOINED, _PHRASES, _NAMES, cased=frozenset("atfewmk"), ring_unsaid=True,
)  # fmt: skip
