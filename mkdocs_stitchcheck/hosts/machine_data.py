"""What machines read of a page's patterns: a HowTo a pattern, as schema.org has it, for the page's head."""

from __future__ import annotations

from ..findings import Severity
from ..render.addresses import Addresses
from ..render.context import Context
from ..render.howto_data import howto, script_element
from ..render.options import PageOptions
from ..results import FileResult, PatternResult


def machine_data(result: FileResult, address: str = "", options: PageOptions | None = None) -> str:
    """The data as HTML; "" where no pattern is fit to be told on: a draft, or one with an error, is not."""
    ctx = Context(result, options or PageOptions(), Addresses(result), print=True)
    found = [howto(pattern, ctx, address) for pattern in result.patterns if _right(pattern)]
    return "\n".join(script_element(data).text for data in found if data is not None)


def _right(pattern: PatternResult) -> bool:
    return not any(finding.severity is Severity.ERROR and finding.excused is None for finding in pattern.findings)
