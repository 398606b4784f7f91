"""``python -m mkdocs_stitchcheck``."""

import sys

from .hosts.commandline import main

sys.exit(main())
