"""``stitchcheck explain``: what a rule says, why, an example, and what to write instead."""

from __future__ import annotations

import argparse
import sys
import textwrap
from collections.abc import Iterator

from ...rules import DEFAULT_SEVERITIES, Rule, catalogue
from ...settings import near

_WIDTH = 88


def command(arguments: argparse.Namespace) -> int:
    """Explain the rule, or list all; 2 for a rule that isn't there."""
    name = arguments.rule
    if name is None:
        print(overview())
        return 0
    if name not in DEFAULT_SEVERITIES:
        print(f"stitchcheck: There is no rule {name!r}{near(name, DEFAULT_SEVERITIES)}", file=sys.stderr)
        return 2
    print("\n".join(explained(catalogue()[name])))
    return 0


def overview() -> str:
    """All rules with their severity and what they say, the weightiest first."""
    lines = []
    for severity in dict.fromkeys(DEFAULT_SEVERITIES.values()):
        lines.append(f"{severity}: {_WEIGHT[severity]}")
        for rule in catalogue().values():
            if rule.severity is severity:
                first = textwrap.shorten(rule.what, _WIDTH - 26, placeholder=" ...")
                lines.append(f"  {rule.name:<23} {first}")
        lines.append("")
    lines.append("`stitchcheck explain RULE` says more, with an example.")
    return "\n".join(lines)


_WEIGHT = {
    "error": "fails",
    "warning": "fails with --strict",
    "advice": "is shown and never fails",
    "info": "is said and never fails",
    "caution": "is for the safety of readers, and never fails",
}


def explained(rule: Rule) -> Iterator[str]:
    """The whole explanation of *rule*, line by line."""
    yield f"{rule.name} ({rule.severity}: {_WEIGHT[rule.severity]})"
    yield ""
    yield from textwrap.wrap(rule.what, _WIDTH)
    yield ""
    yield from textwrap.wrap(f"Why: {rule.why}", _WIDTH)
    for heading, block in (("For example:", rule.example), ("Write instead:", rule.instead)):
        if block:
            yield from ("", heading, "", textwrap.indent(block, "    "))
    yield ""
    yield from textwrap.wrap(f"To switch it off: {rule.off}", _WIDTH)
