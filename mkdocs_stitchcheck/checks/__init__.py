"""The rules beyond counting, one module a family. Each check takes the pattern, its result and the findings to add to."""

from collections.abc import Callable

from ..findings import Findings
from ..language.syntax import Pattern
from ..results import PatternResult
from .editing import EDITING_CHECKS
from .finished_size import check_finished_size
from .flatness import check_flatness
from .materials import MATERIAL_CHECKS
from .unwritten import check_unwritten

Check = Callable[[Pattern, PatternResult, Findings], None]

ALL: tuple[Check, ...] = (check_unwritten, *MATERIAL_CHECKS, check_finished_size, check_flatness, *EDITING_CHECKS)
