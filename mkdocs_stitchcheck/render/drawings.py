"""Drawings written out as SVG: on the page, on the sheet, and as files of their own."""

from __future__ import annotations

from ..drawing.figures import Figure, Shape, num
from .html import Html, element

MOST_INLINE = 30_000  # characters of a drawing within a page; a search index parses all of it at every build


def svg(figure: Figure, *, paper: bool = False, class_: str = "") -> Html:
    """The drawing as an element of a page; without words it is left out by screen readers."""
    size = (f"{figure.width * figure.unit_mm:.0f}mm" if paper else f"{figure.width * figure.unit_px:.0f}")
    tall = (f"{figure.height * figure.unit_mm:.0f}mm" if paper else f"{figure.height * figure.unit_px:.0f}")
    attributes = [("viewBox", _box(figure)), ("width", size), ("height", tall)]
    attributes += [("role", "img"), ("aria-label", figure.words)] if figure.words else [("aria-hidden", "true")]
    if class_:
        attributes.append(("class", class_))
    return element("svg", attributes, *map(_element, figure.shapes))


def svg_document(figure: Figure) -> str:
    """The drawing as a file: black on white, since it does not know the page's colours."""
    ground = element("rect", [("x", num(figure.left)), ("y", num(figure.top)), ("width", num(figure.width)),
                              ("height", num(figure.height)), ("fill", "#fff")])
    attributes = [("xmlns", "http://www.w3.org/2000/svg"), ("viewBox", _box(figure)), ("color", "#111"),
                  ("font-family", "sans-serif"), ("width", num(figure.width)), ("height", num(figure.height))]
    title = element("title", [], figure.words)
    return element("svg", attributes, title, ground, *map(_element, figure.shapes)).text + "\n"


def _box(figure: Figure) -> str:
    return " ".join(num(value) for value in (figure.left, figure.top, figure.width, figure.height))


def _element(shape: Shape) -> Html:
    return element(shape.tag, shape.attributes, shape.text or None, *map(_element, shape.children))
