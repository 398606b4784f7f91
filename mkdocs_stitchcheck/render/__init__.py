"""From a checked pattern to HTML: blocks of a page, the printable sheet, their style sheets. Knows no host."""

from .options import CautionWords, PageOptions, Picture
from .page import render_block
from .sheet import render_sheet, sheet_stylesheet, stylesheet

__all__ = [
    "CautionWords",
    "PageOptions",
    "Picture",
    "render_block",
    "render_sheet",
    "sheet_stylesheet",
    "stylesheet",
]
