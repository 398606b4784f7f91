"""An order made into a PDF by WeasyPrint (extra ``pdf``): tagged after PDF/UA-1 (ISO 14289-1), fonts embedded.

Nothing is fetched: a document sees the pictures of its order and no other address.
"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from .orders import Order

_BASE = "https://pictures.invalid/"  # RFC 2606: a name that leads nowhere
# Resolution in dots per inch and quality of photographs: print quality first, then smaller until the file is small enough.
_STEPS = ((300, 90), (220, 82), (150, 75), (100, 65))
MEGABYTE = 1_000_000


class PdfMissing(Exception):
    """WeasyPrint is not there; the text says how to get it."""


def weasyprint() -> Any:
    """The library. Raises PdfMissing in plain words where it, or a system library it needs, is not installed."""
    try:
        import weasyprint as library
    except ImportError:
        raise PdfMissing("PDFs need WeasyPrint: pip install 'mkdocs-stitchcheck[pdf]'") from None
    except OSError as error:
        raise PdfMissing(
            f"WeasyPrint is installed, and a library of your system that it needs is not ({str(error)[:80]}). "
            "On Debian and Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0"
        ) from None
    logging.getLogger("weasyprint").setLevel(logging.ERROR)  # it remarks on every rule that paper has no use for
    logging.getLogger("fontTools").setLevel(logging.ERROR)
    return library


def make_pdf(order: Order, limit: float = 0) -> tuple[bytes, str]:
    """The PDF of *order*, and a plain sentence where its photographs had to be made smaller or left out.

    *limit* is the largest size in megabytes, 0 for none. Raises PdfMissing.
    """
    library = weasyprint()
    pdf = b""
    for at, (dpi, quality) in enumerate(_STEPS):
        pdf = _written(library, order, order.html, dpi, quality)
        if not limit or len(pdf) <= limit * MEGABYTE:
            return pdf, f"photographs at {dpi} dpi, to stay below {limit:g} MB" if at else ""
        if not order.pictures:
            break
    bare = _without_pictures(order.html) if order.pictures else ""
    pdf = _written(library, order, bare, *_STEPS[-1]) if bare else pdf
    over = f"; it is {len(pdf) / MEGABYTE:.1f} MB all the same" if len(pdf) > limit * MEGABYTE else ""
    return pdf, f"{'without photographs, ' if bare else ''}to stay below {limit:g} MB{over}"


def _written(library: Any, order: Order, html: str, dpi: int, quality: int) -> bytes:
    document = library.HTML(string=html, base_url=_BASE, url_fetcher=_fetcher(library, order))
    pdf: bytes = document.write_pdf(
        pdf_variant="pdf/ua-1", pdf_tags=True, full_fonts=False, optimize_images=True, dpi=dpi, jpeg_quality=quality,
        presentational_hints=False, pdf_identifier=order.text_mark.encode(),
    )  # fmt: skip
    return pdf


def _fetcher(library: Any, order: Order) -> Any:
    class Fetcher(library.urls.URLFetcher):  # type: ignore[misc]
        """Gives the order's pictures and refuses everything else."""

        def fetch(self, url: str, headers: Any = None) -> Any:
            name = urlsplit(url).path.lstrip("/")
            path = order.pictures.get(name) if url.startswith(_BASE) else None
            if path is None:
                raise ValueError(f"{url[:100]} is no picture of this pattern")
            return library.urls.URLFetcherResponse(url, path.read_bytes(), {"Content-Type": _kind(path)})

    return Fetcher()


def _kind(path: Path) -> str:
    kinds = {".svg": "image/svg+xml", ".png": "image/png", ".gif": "image/gif", ".webp": "image/webp"}
    return kinds.get(path.suffix.lower(), "image/tiff" if path.suffix.lower().startswith(".tif") else "image/jpeg")


def _without_pictures(html: str) -> str:
    import re

    html = re.sub(r"<figure>.*?</figure>", "", html, flags=re.DOTALL)
    return re.sub(r'<p class="portrait">.*?</p>', "", html, flags=re.DOTALL)
