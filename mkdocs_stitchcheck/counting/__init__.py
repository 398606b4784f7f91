"""Stitch arithmetic: what every round uses and makes, and which number is wrong."""

from .walk import count_pattern

__all__ = ["count_pattern"]
