"""Rounds of old posts that stand in prose or plain lists, put into pattern blocks."""

from .adopt import Adopted, adopt

__all__ = ["Adopted", "adopt"]
