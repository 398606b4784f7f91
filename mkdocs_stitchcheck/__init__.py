"""Crochet patterns in Markdown, read as typed and checked stitch by stitch."""

__version__ = "0.1.0"
