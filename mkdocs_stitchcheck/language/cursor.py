"""A place in a list of tokens, and what the reader of instructions knows: terms, colours, declared words."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from ..source import Statement
from .phrases import Phrases, indexed
from .stitch_names import Names, stitch_endings, stitch_index
from .syntax import Number, SpecialStitch
from .tokens import NUMBER_LIMIT, Token
from .vocabulary import Stitch
from .words import NUMBER_WORDS, ORDINAL_ENDINGS, ORDINAL_WORDS


class Unreadable(Exception):
    """A word that an instruction cannot use; the round is then "unread"."""

    def __init__(self, rule: str, start: int, end: int, message: str, suggestion: str = "", replace: str = "") -> None:
        super().__init__(message)
        self.rule, self.start, self.end = rule, start, end
        self.message, self.suggestion, self.replace = message, suggestion, replace


Said = tuple[str, int, bool, str, int, bool]


@dataclass(slots=True)
class Context:
    """What holds for the instructions of a pattern. ``colors`` maps lower-case words to a colour's key."""

    system: str = "US"
    colors: dict[str, str] = field(default_factory=dict)
    special: dict[str, SpecialStitch] = field(default_factory=dict)
    special_words: dict[str, list[tuple[tuple[str, ...], Stitch]]] = field(default_factory=dict)
    pieces: set[str] = field(default_factory=set)
    sizes: int = 1
    ring_seen: bool = False
    names: frozenset[str] | None = None  # the words of all these names, once they are settled
    kept: dict[Said, Any] = field(default_factory=dict)  # instructions read before in which a name occurs


# First words after which a full stop or a hyphen may stand inside a name: "sl. st.", "inv. dec".
_OPEN_WORDS = frozenset(("sl", "inv", "ext", "rev", "s", "d", "h", "invisible", "slip", "t"))
_SHAPINGS = frozenset(("inc", "dec"))


class Cursor:
    """Reads tokens from left to right, between ``at`` and ``stop``."""

    __slots__ = ("at", "context", "depth", "statement", "stop", "tokens")

    def __init__(self, statement: Statement, tokens: list[Token], context: Context, at: int = 0, stop: int | None = None) -> None:
        self.statement = statement
        self.tokens = tokens
        self.context = context
        self.at = at
        self.stop = len(tokens) if stop is None else stop
        self.depth = 0

    @property
    def index(self) -> dict[str, Names]:
        """The ways to write a stitch in the pattern's own terms, by their first word."""
        return stitch_index(self.context.system)

    def peek(self, ahead: int = 0) -> str:
        """The text of a token ahead; "" beyond the end."""
        index = self.at + ahead
        return self.tokens[index].text if index < self.stop else ""

    def token(self, ahead: int = 0) -> Token | None:
        index = self.at + ahead
        return self.tokens[index] if index < self.stop else None

    @property
    def done(self) -> bool:
        return self.at >= self.stop

    @property
    def start(self) -> int:
        """Where the next token starts in the statement."""
        if self.at < len(self.tokens):
            return self.tokens[self.at].start
        return self.tokens[-1].end if self.tokens else 0

    @property
    def end(self) -> int:
        """Where the last token that was read ends."""
        return self.tokens[self.at - 1].end if self.at else 0

    def accept(self, *texts: str) -> bool:
        """Reads the next token if it is one of *texts*."""
        if self.at < self.stop and self.tokens[self.at].text in texts:
            self.at += 1
            return True
        return False

    def phrase(self, phrases: Phrases | tuple[str, ...]) -> str | None:
        """Reads the longest of *phrases* that stands here. A tuple is for a few; long tables are ``Phrases``."""
        if self.at >= self.stop:
            return None
        index = phrases.index if isinstance(phrases, Phrases) else indexed(phrases)
        for words, phrase in index.get(self.tokens[self.at].text, ()):
            if self.tokens_are(words):
                self.at += len(words)
                return phrase
        return None

    def tokens_are_here(self, words: tuple[str, ...]) -> bool:
        """Whether exactly these words stand here; nothing is read."""
        return self.peek() == words[0] and self.tokens_are(words)

    def tokens_are(self, words: tuple[str, ...]) -> bool:
        end = self.at + len(words)
        if end > self.stop:
            return False
        tokens = self.tokens
        for index in range(self.at + 1, end):  # the first is known
            if tokens[index].text != words[index - self.at]:
                return False
        return True

    # --- numbers ---

    def is_number(self, ahead: int = 0, *, words: bool = True) -> bool:
        token = self.token(ahead)
        if token is None:
            return False
        return token.kind == "number" or (words and token.text in NUMBER_WORDS and token.text not in ("a", "an"))

    def number(self, *, words: bool = True, article: bool = False) -> Number | None:
        """number = digits | word | "a" (only with *article*) ; an ordinal ("2nd") is not one."""
        token = self.token()
        if token is None:
            return None
        if token.kind == "number":
            after = self.token(1)
            if after is not None and after.glued and after.text in ORDINAL_ENDINGS and not _st_is_stitch(token, after, self.token(2)):
                return None
            self.at += 1
            return Number(token.start, token.end, self._values(token))
        if token.text in ("a", "an"):
            if not article:
                return None
        elif not words or token.text not in NUMBER_WORDS:
            return None
        self.at += 1
        return Number(token.start, token.end, (NUMBER_WORDS[token.text],), word=True)

    def _value(self, token: Token) -> int:
        value = int(token.text) if len(token.text) < 10 else 10**9
        if value > NUMBER_LIMIT:
            shown = token.text if len(token.text) <= 15 else token.text[:12] + "..."
            raise Unreadable(
                "number-out-of-range", token.start, token.end,
                f"{shown} is too large to be stitches: numbers go up to 1,000,000.", "Write the number that is meant.",
            )  # fmt: skip
        return value

    def _values(self, token: Token) -> tuple[int | None, ...]:
        """The number, or one a size where the token is a list: "24 (30, 36)"."""
        if token.values is None:
            return (self._value(token),)
        for value in token.values:
            if value is not None and value > NUMBER_LIMIT:
                raise Unreadable(
                    "number-out-of-range", token.start, token.end, "Numbers of stitches go up to 1,000,000.",
                    "Write the number that is meant.",
                )  # fmt: skip
        return token.values

    def ordinal(self) -> Number | None:
        """ordinal = "2nd" | "2 nd" | "second" """
        token, after = self.token(), self.token(1)
        if token is None:
            return None
        if token.kind == "number" and after is not None and after.text in ORDINAL_ENDINGS and after.glued:
            self.at += 2
            return Number(token.start, after.end, (self._value(token),))
        if token.text in ORDINAL_WORDS:
            self.at += 1
            return Number(token.start, token.end, (ORDINAL_WORDS[token.text],), word=True)
        return None

    # --- stitches ---

    def match_stitch(self, ahead: int = 0) -> tuple[Stitch, int] | None:
        """The longest stitch name here, with the tokens it takes; nothing is read."""
        at = self.at + ahead
        if at >= self.stop:
            return None
        token, context = self.tokens[at], self.context
        text = token.text
        if text in context.special_words:
            for key, stitch in context.special_words[text]:
                length = self._match_key(key, ahead)
                if length:
                    return stitch, length
        if token.kind != "word":
            return None
        # A name that only the other system has is still read (htr in a US pattern); mixed-terms tells of it.
        system = context.system
        if text not in stitch_index(system):
            system = "UK" if system == "US" else "US"
            if text not in stitch_index(system):
                return None
        if text in _SHAPINGS and (shaped := self._in_another_stitch(at, system)) is not None:
            return shaped
        endings = stitch_endings(system, text)
        following = self.tokens[at + 1].text if at + 1 < self.stop else ""
        if following in ("-", ".") and at + 2 < self.stop:
            following = self.tokens[at + 2].text
        for key, stitch in endings.get(following) or endings[""]:
            length = self._match_key(key, ahead)
            if length:
                return stitch, length
        return None

    def _in_another_stitch(self, at: int, system: str) -> tuple[Stitch, int] | None:
        """"(3 dc, dec. dc)": the decrease, its stitch behind a full stop, and nothing after it."""
        if at + 2 >= self.stop or self.tokens[at + 1].text != "." or not self.tokens[at + 1].glued:
            return None
        after = self.tokens[at + 3].text if at + 3 < len(self.tokens) else ""
        key = (self.tokens[at].text, self.tokens[at + 2].text)
        if after not in (",", ";", ")", "]", "}"):
            return None
        return next(((stitch, 3) for words, stitch in stitch_index(system)[key[0]] if words == key), None)

    def _match_key(self, key: tuple[str, ...], ahead: int) -> int:
        """How many tokens *key* takes here, 0 if it does not stand here; a hyphen or stop may join its words."""
        at = self.at + ahead + 1
        tokens, stop = self.tokens, self.stop
        for index in range(1, len(key)):
            if at < stop and tokens[at].text in "-." and at + 1 < stop and tokens[at + 1].text == key[index]:
                tight = tokens[at].glued and tokens[at + 1].glued
                if (tokens[at].text == "-" and tight) or (tokens[at].text == "." and key[0] in _OPEN_WORDS):
                    at += 1
            if at >= stop or tokens[at].text != key[index]:
                return 0
            at += 1
        return at - self.at - ahead

    def known_word(self, ahead: int = 0) -> bool:
        return self.match_stitch(ahead) is not None


def _st_is_stitch(number: Token, ending: Token, after: Token | None) -> bool:
    """"24st" is 24 stitches, "1st" is the first: only a number that has that ending is an ordinal."""
    if ending.text != "st":
        return False
    return not (number.text.endswith("1") and not number.text.endswith("11"))
