"""Every regular expression of the package, and texts made to be slow for it.

``python -m tests.regexes`` tries all of them and prints those whose time a byte grows with the text.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import pkgutil
import re
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from re import _constants as sre  # type: ignore[attr-defined]
from re import _parser  # type: ignore[attr-defined]
from typing import Any

import mkdocs_stitchcheck
from mkdocs_stitchcheck.language.lines import _RUN
from mkdocs_stitchcheck.late_re import Later

PACKAGE = Path(mkdocs_stitchcheck.__file__).parent
RUN = 198  # of one sign: lines of a pattern with more are not read
_OF_PAGES = ("adopting", "checks.outside", "checks.readers", "fences", "files", "hosts", "printing.photographs", "source", "editor", "report")
ENDS = ("", "\x00", "!", " x", "\n")
_USES = ("search", "match", "fullmatch", "finditer", "findall", "sub", "subn", "split")
_MANY = 20  # a repeat that may go on longer than this is pumped


@dataclass(frozen=True)
class Expression:
    """A compiled expression, where it stands, and the methods by which it is used (all, where that is not known)."""

    where: str
    pattern: re.Pattern[str]
    uses: tuple[str, ...]

    @property
    def of_lines(self) -> bool:
        """Whether it reads lines of patterns, of which overlong ones are refused before."""
        return not self.where.startswith(_OF_PAGES)


def modules() -> Iterator[Any]:
    """Every module of the package."""
    for found in pkgutil.walk_packages([str(PACKAGE)], "mkdocs_stitchcheck."):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


def expressions() -> list[Expression]:
    """Every expression that a module holds, in whatever it holds it, and those written within functions."""
    found: dict[tuple[str, int], Expression] = {}
    for module in modules():
        used = _used_by_name(module)
        for name, value in list(vars(module).items()):
            for one in _within(value):
                uses = tuple(sorted(used.get(name, ()))) if isinstance(value, (re.Pattern, Later)) else ()
                key = one.pattern, one.flags
                if key not in found or not uses:
                    found[key] = Expression(f"{module.__name__.partition('.')[2]}.{name}", one, uses or ("search", "match", "fullmatch"))
        for one, line, use in _in_functions(module):
            found.setdefault((one.pattern, one.flags), Expression(f"{module.__name__.partition('.')[2]}:{line}", one, (use,)))
    return list(found.values())


def _within(value: object, depth: int = 3) -> Iterator[re.Pattern[str]]:
    if isinstance(value, Later):
        value = re.compile(value._source, value._flags)
    if isinstance(value, re.Pattern):
        if isinstance(value.pattern, str):
            yield value
    elif depth and isinstance(value, dict):
        for one in (*value, *value.values()):
            yield from _within(one, depth - 1)
    elif depth and isinstance(value, (tuple, list, set, frozenset)):
        for one in value:
            yield from _within(one, depth - 1)


@cache
def _whole() -> str:
    """All modules of the package in one text, without their imports: a name without an underscore may be used in any of them."""
    texts = (path.read_text(encoding="utf-8") for path in sorted(PACKAGE.rglob("*.py")))
    return "\n".join(re.sub(r"^from [^\n(]* import (?:\([^)]*\)|[^\n]*)", "", text, flags=re.MULTILINE) for text in texts)


def _used_by_name(module: Any) -> dict[str, set[str]]:
    """The methods called on each name of *module*; nothing is known of one that is handed on."""
    used: dict[str, set[str]] = {}
    own = Path(module.__file__).read_text(encoding="utf-8")
    defined = set(re.findall(r"^(_[A-Z][A-Z0-9_]*)\b.*? = ", own, re.MULTILINE))
    public = {name for name, value in vars(module).items() if name.isupper() and name[0] != "_" and isinstance(value, (re.Pattern, Later))}
    for name in defined | public:
        text = own if name.startswith("_") else _whole()
        if re.search(rf"\bfor \w+ in \([^()]*\b{name}\b[^()]*\):\n\s+if match := \w+\.fullmatch\(", text):
            used[name] = {"fullmatch"}
            continue
        uses = re.findall(rf"\b{name}\b(?:\.({'|'.join(_USES)})\b)?(?! *(?::.*)?=)", text)
        if all(uses):
            used[name] = set(uses)
    return used


def _in_functions(module: Any) -> Iterator[tuple[re.Pattern[str], int, str]]:
    """Calls as ``re.sub("...", ...)`` with their text; what is put together first, with the module's own names."""
    tree = ast.parse(Path(module.__file__).read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and isinstance(node.func.value, ast.Name)):
            continue
        if node.func.value.id != "re" or node.func.attr not in (*_USES, "compile") or not node.args:
            continue
        try:
            text = eval(compile(ast.Expression(node.args[0]), "", "eval"), dict(vars(module)))
            flags = [word.value for word in node.keywords if word.arg == "flags"] or node.args[1:2] * (node.func.attr == "compile")
            value = eval(compile(ast.Expression(flags[0]), "", "eval"), dict(vars(module))) if flags else 0
        except NameError:  # made of what a function was given
            continue
        if isinstance(text, str):
            yield re.compile(text, value), node.lineno, node.func.attr if node.func.attr != "compile" else "search"


# --- texts that are made to be slow -------------------------------------------------------------------------------


def attacks(one: Expression, length: int) -> Iterator[str]:
    """Texts of about *length* characters: each repeat of the expression pumped, after what leads up to it.

    Those for lines of a pattern are such as are read at all.
    """
    for before, pump, end in _parts(one.pattern):
        if one.of_lines:
            unit = before + pump * max(1, RUN // len(pump)) + ("" if before.strip() else ",")
            yield unit * max(1, length // len(unit)) + end
            if _RUN.search(pump * 400 + "x"):
                continue
        yield before + pump * max(1, (length - len(before)) // len(pump)) + end


def _parts(pattern: re.Pattern[str]) -> Iterator[tuple[str, str, str]]:
    """(what leads up to a repeat, what it repeats, an end that may make it fail)"""
    tree = _parser.parse(pattern.pattern, pattern.flags)
    pumps = dict.fromkeys(_pumps(list(tree), ""))
    whole = _sample(list(tree), 0)
    pumps[("", whole)] = None
    for before, pump in list(pumps):
        pumps[("", before + pump)] = None
    for before, pump in pumps:
        if pump:
            for end in ENDS:
                yield before, pump, end


def _pumps(items: Sequence[Any], before: str) -> Iterator[tuple[str, str]]:
    """(what leads up to a repeat, what it repeats)"""
    for at, (kind, value) in enumerate(items):
        if kind in (sre.MAX_REPEAT, sre.MIN_REPEAT, sre.POSSESSIVE_REPEAT):
            _low, high, body = value
            if high is sre.MAXREPEAT or high > _MANY:
                for choice in range(3):
                    yield before, _sample(list(body), choice)
            yield from _pumps(list(body), before)
        elif kind is sre.SUBPATTERN:
            yield from _pumps(list(value[3]), before)
        elif kind is sre.BRANCH:
            for branch in value[1]:
                yield from _pumps(list(branch), before)
        elif kind in (sre.ASSERT, sre.ASSERT_NOT):
            yield from _pumps(list(value[1]), before)
        elif kind is sre.ATOMIC_GROUP:
            yield from _pumps(list(value), before)
        before += _sample(items[at : at + 1], 0)


def _sample(items: Sequence[Any], choice: int) -> str:
    """A text that the items match, more or less; *choice* takes another branch or sign of a set."""
    found = ""
    for kind, value in items:
        if kind is sre.LITERAL:
            found += chr(value)
        elif kind is sre.NOT_LITERAL:
            found += "b" if value != ord("b") else "c"
        elif kind is sre.ANY:
            found += "x"
        elif kind is sre.IN:
            found += _of_set(value, choice)
        elif kind in (sre.MAX_REPEAT, sre.MIN_REPEAT, sre.POSSESSIVE_REPEAT):
            found += _sample(list(value[2]), choice) * max(value[0], 1)
        elif kind is sre.SUBPATTERN:
            found += _sample(list(value[3]), choice)
        elif kind is sre.ATOMIC_GROUP:
            found += _sample(list(value), choice)
        elif kind is sre.BRANCH:
            branches = value[1]
            found += _sample(list(branches[choice % len(branches)]), choice)
    return found


_CATEGORIES = {sre.CATEGORY_DIGIT: "9", sre.CATEGORY_SPACE: " ", sre.CATEGORY_WORD: "a", sre.CATEGORY_NOT_DIGIT: "a",
               sre.CATEGORY_NOT_SPACE: "a", sre.CATEGORY_NOT_WORD: " "}  # fmt: skip


def _of_set(items: Sequence[Any], choice: int) -> str:
    if items and items[0][0] is sre.NEGATE:
        barred = re.compile("[" + "".join(map(_as_written, items[1:])) + "]")
        left = [sign for sign in "x 9,(-\u00e9\n" if not barred.match(sign)]
        return left[choice % len(left)] if left else "\u00e9"
    kind, value = items[choice % len(items)]
    if kind is sre.LITERAL:
        return chr(value)
    if kind is sre.RANGE:
        return chr(value[0])
    return _CATEGORIES.get(value, "a")


def _as_written(item: Any) -> str:
    kind, value = item
    if kind is sre.LITERAL:
        return re.escape(chr(value))
    if kind is sre.RANGE:
        return f"{re.escape(chr(value[0]))}-{re.escape(chr(value[1]))}"
    return {sre.CATEGORY_DIGIT: r"\d", sre.CATEGORY_SPACE: r"\s", sre.CATEGORY_WORD: r"\w", sre.CATEGORY_NOT_DIGIT: r"\D",
            sre.CATEGORY_NOT_SPACE: r"\S", sre.CATEGORY_NOT_WORD: r"\W"}[value]  # fmt: skip


# --- how long they take -------------------------------------------------------------------------------------------


def work_of(one: Expression, use: str) -> Callable[[str], object]:
    """What is done with a text by the method *use*."""
    if use in ("sub", "subn"):
        return lambda text: one.pattern.sub("", text)
    if use == "finditer":
        return lambda text: sum(1 for _ in one.pattern.finditer(text))
    return getattr(one.pattern, use)  # type: ignore[no-any-return]


def seconds(work: Callable[[str], object], text: str, times: int = 3) -> float:
    """The least CPU time of a few tries."""
    best = float("inf")
    for _ in range(times):
        start = time.process_time()
        work(text)
        best = min(best, time.process_time() - start)
    return best


def slowest(one: Expression, length: int = 1000, most: float = 0.004) -> tuple[float, str, str]:
    """(CPU seconds, method, text) of the attack of *length* characters that takes longest."""
    worst = (0.0, "", "")
    for use in one.uses:
        work = work_of(one, use)
        for text in attacks(one, length):
            took = seconds(work, text, 1)
            if took > worst[0]:
                took = seconds(work, text) if took > most / 10 else took
                worst = max(worst, (took, use, text))
    return worst


def growth(one: Expression, short: int, factor: int = 4) -> tuple[float, float, str, str]:
    """(how many times as long a text *factor* times as long takes, CPU seconds for it, method, text)."""
    worst = (0.0, 0.0, "", "")
    for use in one.uses:
        work = work_of(one, use)
        for small, large in zip(attacks(one, short), attacks(one, short * factor), strict=True):
            before = seconds(work, small, 2)
            after = seconds(work, large, 1)
            if after > 0.001 and after > 2 * factor * before:
                before, after = seconds(work, small, 5), seconds(work, large, 3)
            if after > 0.001:
                worst = max(worst, (after / max(before, 1e-6), after, use, small))
    return worst


def main() -> int:
    """Print what grows faster than the text."""
    options = argparse.ArgumentParser(prog="python -m tests.regexes", description=__doc__)
    options.add_argument("--short", type=int, default=2000)
    chosen = options.parse_args()
    found = expressions()
    bad = []
    for one in found:
        times, took, use, text = growth(one, chosen.short)
        if times > 8:
            bad.append((took, times, one.where, use, text, one.pattern.pattern))
    for took, times, where, use, text, pattern in sorted(bad, reverse=True):
        print(f"{took * 1000:8.1f} ms  x{times:5.1f}  {where} {use} {text[:40]!r}...{text[-3:]!r}\n    {pattern[:200]}")
    print(f"{len(found)} expressions, {len(bad)} grow faster than the text")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
