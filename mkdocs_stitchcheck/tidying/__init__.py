"""Rewrites the rounds of a pattern in one house style, by small edits that never change what is made."""

from .tidy import Tidied, tidy

__all__ = ["Tidied", "tidy"]
