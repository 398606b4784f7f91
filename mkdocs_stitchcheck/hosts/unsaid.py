"""Output that can't be written: whoever read it has gone, or the disk is full."""

from __future__ import annotations

import errno
import os
import sys

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO)


class CannotTell(Exception):
    """What there is to say can't be written any more; ``reason`` is why. No file that is worked on is concerned."""

    def __init__(self, reason: OSError) -> None:
        super().__init__(str(reason))
        self.reason = reason


def ended_by(reason: OSError) -> int:
    """The exit code for output that failed: 1 where its reader has seen enough, 2, with a word, for a full disk.

    Anything else is raised again: it is no matter of the output.
    """
    if not isinstance(reason, BrokenPipeError) and reason.errno not in _FULL:
        raise reason
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # else Python tries once more at its end
    if isinstance(reason, BrokenPipeError):
        return 1
    print(f"stitchcheck: What there is to say can't be written: {reason.strerror or reason}.", file=sys.stderr)
    return 2
