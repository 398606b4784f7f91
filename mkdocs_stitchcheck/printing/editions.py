"""The editions that a site or a designer wants: "US A4", "UK Letter", "UK large print"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ..render.addresses import slug

_WORDS = re.compile(r"large[ -]?print|[^\W_]+", re.IGNORECASE)
_PAPERS = {"a4": "A4", "letter": "Letter"}
_VERSION = re.compile(r"[^\w.]+")
_LONGEST_VERSION = 20
_LONGEST_NAME = 150  # bytes: file systems take 255 for a whole name


@dataclass(frozen=True, slots=True)
class Edition:
    """Terms ("US", "UK", or "" for those of the pattern), paper, and whether in large print; ``test`` 0 for readers."""

    terms: str = ""
    paper: str = "A4"
    large: bool = False
    test: int = 0

    @property
    def words(self) -> str:
        """"US, A4", "UK, Letter, large print"."""
        parts = (self.terms, self.paper, "large print" if self.large else "", f"test {self.test}" if self.test else "")
        return ", ".join(part for part in parts if part)

    def file_name(self, title: str, version: str, nth: int = 1) -> str:
        """"harbour-seal-pup-US-A4-v2.pdf": title, terms, paper, large print, version, test.

        The *nth* pattern of that title in a folder has its number behind the title.
        """
        version = _VERSION.sub("-", version.strip().lower().removeprefix("version").strip())[:_LONGEST_VERSION].strip("-.")
        numbered = f"v{version.removeprefix('v')}" if version else ""
        name = slug(title, "pattern").encode()[:_LONGEST_NAME].decode(errors="ignore")
        parts = (name, str(nth) if nth > 1 else "", self.terms, self.paper, "large-print" if self.large else "", numbered,
                 f"test-{self.test}" if self.test else "")  # fmt: skip
        return "-".join(part for part in parts if part) + ".pdf"


def read_editions(given: Iterable[object], paper: str = "A4") -> tuple[Edition, ...]:
    """The editions of a list such as ["US A4", "UK large print"]; *paper* where none is named.

    Raises ValueError in plain words for what is no edition, and for one that is named twice.
    """
    found: list[Edition] = []
    for entry in given:
        edition = _read(entry, paper)
        if edition in found:
            raise ValueError(f"the edition {entry!r} is listed twice.")
        found.append(edition)
    return tuple(found)


def _read(entry: object, paper: str) -> Edition:
    if not isinstance(entry, str) or not entry.strip():
        raise ValueError(f"an edition is words such as US A4 or UK large print, not {entry!r}.")
    terms, own_paper, large = "", "", False
    for word in _WORDS.findall(entry):
        low = word.lower()
        if low in ("us", "uk") and not terms:
            terms = word.upper()
        elif low in _PAPERS and not own_paper:
            own_paper = _PAPERS[low]
        elif low.startswith("large") and low not in ("large",) and not large:
            large = True
        else:
            raise ValueError(
                f"{word!r} in the edition {entry!r} is not known; an edition says US or UK, A4 or Letter, and large print."
            )
    return Edition(terms, own_paper or paper, large)
