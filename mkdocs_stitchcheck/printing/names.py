"""Names of files in one folder, each for one pattern of one page: patterns of one title don't overwrite each other."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count


class Names:
    """The names that have been given, by the folder and name as a text, with whom each is for."""

    def __init__(self) -> None:
        self._owners: dict[str, str] = {}

    def of(self, owner: str, name: Callable[[int], str], free: Callable[[str], bool] = lambda name: True) -> str:
        """The name for *owner*, always the same: that of the first, else the second ... that is called so.

        *name* gives the name of the nth; *free* says whether one that was not given here may be taken.
        """
        for nth in count(1):
            found = name(nth)
            holder = self._owners.get(found)
            if holder == owner or (holder is None and free(found)):
                self._owners[found] = owner
                return found
        raise AssertionError("there is always a next number")
