"""What changed in the making between two states of a pattern, apart from mere words, and how to say so in the post."""

from .compare import Change, Compared, compare
from .paragraph import paragraph

__all__ = ["Change", "Compared", "compare", "paragraph"]
