"""What belongs under a film of the making: materials, abbreviations, chapters, the post's address; and its shots."""

from .chapters import Chapter, chapter_warnings, chapters, clock
from .shots import Shot, shots
from .under import under_the_film

__all__ = ["Chapter", "Shot", "chapter_warnings", "chapters", "clock", "shots", "under_the_film"]
