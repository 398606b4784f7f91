"""Pieces by their names: in the singular or plural, with or without "second", "2", "the"."""

from __future__ import annotations

from ..language import syntax


def _plain(name: str) -> list[str]:
    words = name.lower().replace("’", "'").split()
    return [word for word in words if word not in ("the", "a", "an", "both", "piece", "of")]


_COPIES = frozenset(("first", "second", "third", "fourth", "1st", "2nd", "3rd", "4th", "other", "left", "right", "each", "one"))


def find_piece(pattern: syntax.Pattern, name: str, here: syntax.Piece | None) -> syntax.Piece | None:
    """The piece called *name*, in the singular or plural; "second leg", "leg 2" are copies of Leg."""
    if not name:
        return here
    wanted = _plain(name)
    for exact in (True, False):
        for piece in pattern.pieces:
            if _same_name(_plain(piece.name), wanted, exact):
                return piece
    return None


def same_name(one: str, other: str) -> bool:
    """Whether two names are one piece's, copies and plurals aside."""
    return _same_name(_plain(one), _plain(other), False)


def _same_name(own: list[str], wanted: list[str], exact: bool) -> bool:
    if own == wanted:
        return True
    if exact:
        return False
    bare = [word for word in wanted if word not in _COPIES and not word.isdigit()] or wanted
    mine = [word for word in own if word not in _COPIES and not word.isdigit()] or own
    return [_singular(word) for word in mine] == [_singular(word) for word in bare]


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("shes", "ches", "xes", "sses")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 2 else word
