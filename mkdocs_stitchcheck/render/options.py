"""What a site's owner can choose about pages and sheets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from ..results import PatternResult


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the finished piece: its address, seen from the sheet, and what it shows in words."""

    address: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class CautionWords:
    """The owner's own words for the cautions; an empty entry keeps the built-in wording, so none is dropped by accident.

    ``materials`` stands once beside the materials (one paragraph a line), ``step`` in one line at the step itself.
    """

    materials: str = ""
    step: str = ""
    cords: str = ""


@dataclass(frozen=True, slots=True)
class PageOptions:
    """Choices for pages and sheets.

    ``heading_level`` is the level of a piece's heading. ``sheet_address`` and ``large_print_address`` give the address
    of a pattern's sheet as seen from the page, or "" where there is none, ``other_sheet_address`` that of its sheet in the other terms; ``pdf_addresses`` what
    its PDFs for download are called, and their addresses. ``tables`` False leaves out the computed
    tables that no ``Show:`` asks for. ``pace`` is the maker's in stitches of sc a minute, slow and quick or one number;
    None for the usual. ``both_terms`` shows every line in US and UK terms. ``charts``: "auto" (where they are usual), "all" or "none"; ``save_drawing`` takes the name and the
    text of a drawing that is too large for a page and gives its address, None where there is no place for files.
    """

    heading_level: int = 3
    caution: CautionWords = field(default_factory=CautionWords)
    sheet_address: Callable[[PatternResult], str] | None = None
    large_print_address: Callable[[PatternResult], str] | None = None
    other_sheet_address: Callable[[PatternResult], str] | None = None
    pdf_addresses: Callable[[PatternResult], list[tuple[str, str]]] | None = None
    picture: Picture | None = None
    tables: bool = True
    charts: str = "auto"
    save_drawing: Callable[[str, str], str] | None = None
    pace: tuple[float, float] | float | None = None
    both_terms: bool = False
