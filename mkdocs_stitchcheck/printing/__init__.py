"""Printed editions of a pattern as PDF: which there are, what they are called, and how they are made and kept."""

from .editions import Edition, read_editions
from .make import PdfMissing, make_pdf
from .orders import Order, orders

__all__ = ["Edition", "Order", "PdfMissing", "make_pdf", "orders", "read_editions"]
