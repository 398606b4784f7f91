"""From a checked pattern to HTML: blocks of a page, the printable sheet, their style sheets. Knows no host."""

from .assets import script, sheet_stylesheet, stylesheet
from .options import CautionWords, PageOptions, Picture
from .page import render_block
from .sheet import render_sheet

__all__ = [
    "CautionWords",
    "PageOptions",
    "Picture",
    "render_block",
    "render_sheet",
    "script",
    "sheet_stylesheet",
    "stylesheet",
]
