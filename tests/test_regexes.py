"""No expression of the package takes longer a character the longer a text is. ``python -m tests.regexes`` prints the slow ones."""

from __future__ import annotations

import signal

import pytest
from regexes import Expression, attacks, expressions, seconds, work_of

ALL = expressions()
LONG, FACTOR = 4_000, 8
ODD = 0.04  # CPU seconds for 4,000 characters: a straight expression takes a hundredth of it
HANGS = 3.0


class Hangs(Exception):
    """An expression that would not end."""


def _raise(*_: object) -> None:
    raise Hangs


def _took(one: Expression, use: str, text: str, times: int) -> float:
    before = signal.signal(signal.SIGPROF, _raise)
    signal.setitimer(signal.ITIMER_PROF, HANGS)
    try:
        return seconds(work_of(one, use), text, times)
    except Hangs:
        return HANGS
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def test_they_are_all_found() -> None:
    assert len(ALL) > 300 and len({one.where.split(".")[0] for one in ALL}) >= 10


def test_the_attacks_find_what_is_crooked() -> None:
    import re

    crooked = Expression("fences.x", re.compile(r"(?:a|b|ab)*c"), ("fullmatch",))
    assert any(_took(crooked, "fullmatch", text[:40], 1) > ODD for text in attacks(crooked, 60))


@pytest.mark.parametrize("room", sorted({one.where.split(".")[0] for one in ALL}))
def test_time_a_character_is_flat(room: str) -> None:
    """An eighth of a text takes about an eighth of the time. Only what takes long at all is measured twice."""
    crooked = []
    for one in ALL:
        if one.where.split(".")[0] != room:
            continue
        for use in one.uses:
            for short, long in zip(attacks(one, LONG // FACTOR), attacks(one, LONG), strict=True):
                if _took(one, use, long, 1) < ODD:
                    continue
                took = _took(one, use, long, 3)
                if took > ODD and took > 3 * FACTOR * _took(one, use, short, 5):
                    crooked.append(f"{one.where} {use} {long[:50]!r}...{long[-3:]!r}: {one.pattern.pattern}")
                    break
    assert not crooked, "\n".join(crooked)
