"""Pattern blocks in Markdown, found as the hosts show them, each line with its place in the file.

The hosts are Python-Markdown's ``fenced_code`` and pymdown-extensions' ``superfences``; neither is imported here.
"""

from .block import Block, has_pattern, match_block, whole_text
from .find import find_blocks, prose_lines

__all__ = ["Block", "find_blocks", "has_pattern", "match_block", "prose_lines", "whole_text"]
