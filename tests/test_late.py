"""Expressions that are compiled when they are first used all compile; results travel between processes."""

from __future__ import annotations

import gc
import importlib
import pickle
import pkgutil

import mkdocs_stitchcheck
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.late_re import Later


def test_every_expression_compiles() -> None:
    """An expression that is wrong would be found out only where it is first used."""
    for module in pkgutil.walk_packages(mkdocs_stitchcheck.__path__, "mkdocs_stitchcheck."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    late_ones = [one for one in gc.get_objects() if isinstance(one, Later)]
    assert len(late_ones) > 200
    for one in late_ones:
        assert one.search("Rnd 4: (sc, inc) x 6 (18)") is None or one.match is not None


def test_what_a_check_gives_travels() -> None:
    """A check in several processes sends its results from one to another."""
    page = "```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: (sc, inc) x 3 (10)\n```\n"
    result = mkdocs_stitchcheck.check_text(page)
    again = pickle.loads(pickle.dumps(result))
    assert again.findings == result.findings
    assert again.findings[0].severity in Severity
    assert [line.makes for line in again.patterns[0].rounds] == [(6,), (9,)]
