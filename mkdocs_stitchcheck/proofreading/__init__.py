"""The report that a technical editor would send: what was found, what is right, what is trusted, what is the writer's."""

from .letter import Entry, Letter, Section, letters

__all__ = ["Entry", "Letter", "Section", "letters"]
