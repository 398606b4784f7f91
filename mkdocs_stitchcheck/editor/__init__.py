"""What an editor shows of a page while it is typed: findings, counts, meanings, an outline, and edits.

Each module answers one question of the Language Server Protocol (3.17) from a :class:`~.page.Page` and speaks in the
types of ``lsprotocol``, which the extra ``[editor]`` brings; no server is needed to call them.
"""
