"""What a printed edition has besides the plain sheet: cover, live links, photographs, room for a tester's pen."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Photograph:
    """A photograph of the page: its address, what it shows in words, and the file line at which it stands."""

    address: str
    words: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Printed:
    """An edition for paper. ``cover`` puts a cover with contents before the sheet and makes its links live.

    ``photographs`` stand at the end of the piece in which they stand on the page. ``test`` is the number of a test:
    then each piece has lines to write on, and the last page asks what was used; 0 for readers.
    """

    cover: bool = False
    photographs: tuple[Photograph, ...] = ()
    test: int = 0


PLAIN = Printed()
