"""``python -m tests.bench editor``: how long an editor waits for each answer while a pattern of 60 rounds is typed.

A real client types four rounds key by key in the middle of the pattern and behind its last round, and takes one of them
back. After each key it waits for the findings and asks what editors ask then. The yardstick is a request on an empty
page of the same server, asked in the same run: what the way there and back costs by itself.
"""

from __future__ import annotations

import asyncio
import gc
import os
import statistics
import sys
import time
from collections import defaultdict
from collections.abc import Awaitable, Callable, Iterator

from lsprotocol import types

from .corpus import pattern

sys.path.insert(0, os.path.dirname(os.path.dirname(__file__)))
from editor_client import URI, Client, editing

ROUNDS, FIRST, LAST = 60, 30, 33
EMPTY = "file:///blog/empty.md"
BUDGET = 50  # milliseconds
_Times = dict[str, list[float]]


def keys(whole: str, before: str, after: str) -> Iterator[tuple[str, int]]:
    """Each state of the page, with the length up to the caret, while *whole* is typed and its last line taken back."""
    ends = [*range(1, len(whole) + 1), *range(len(whole) - 1, whole.rindex("\n"), -1)]
    for end in ends:
        yield f"{before}{whole[:end]}\n{after}", len(before) + end


def places() -> dict[str, tuple[str, str, str]]:
    """Where is typed: (what is typed, the page before it, the page after it)."""
    page = pattern(ROUNDS)
    start, end = page.index(f"Rnd {FIRST}:"), page.index(f"Rnd {LAST + 1}:") - 1
    middle = page[start:end], page[:start], page[end + 1 :]
    return {"in the middle": middle, "at the end": (middle[0], middle[1], "")}


async def _timed(times: _Times, name: str, work: Callable[[], Awaitable[object]]) -> None:
    began = time.perf_counter()
    await work()
    times[name].append((time.perf_counter() - began) * 1000)


async def _key(own: Client, times: _Times, text: str, caret: int) -> None:
    """One key: the page is *text* now."""
    server = own.client
    before = text[:caret]
    line = before.count("\n")
    here = types.Position(line, caret - before.rfind("\n") - 1)
    page = types.TextDocumentIdentifier(URI)
    seen = types.Range(types.Position(max(line - 25, 0), 0), types.Position(line + 25, 0))
    above = types.Position(line - 2, 9)
    empty = types.HoverParams(types.TextDocumentIdentifier(EMPTY), types.Position(0, 0))
    await _timed(times, "findings after a key", lambda: own.type(text))
    await _timed(times, "counts", lambda: server.text_document_inlay_hint_async(types.InlayHintParams(page, seen)))
    await _timed(times, "completion", lambda: server.text_document_completion_async(types.CompletionParams(page, here)))
    await _timed(times, "meaning", lambda: server.text_document_hover_async(types.HoverParams(page, above)))
    await _timed(times, "outline", lambda: server.text_document_document_symbol_async(types.DocumentSymbolParams(page)))
    await _timed(times, "nothing (the yardstick)", lambda: server.text_document_hover_async(empty))


async def _session(typed: str, before: str, after: str) -> tuple[_Times, float]:
    """The milliseconds of each answer, and the processor time of the server a key."""
    times: _Times = defaultdict(list)
    async with editing() as own:
        item = types.TextDocumentItem(EMPTY, "markdown", 1, "")
        own.client.text_document_did_open(types.DidOpenTextDocumentParams(item))
        await own.type(before + after)
        await _key(own, defaultdict(list), before + after, len(before))  # what both sides make once is made
        spent, number = own.processor_time(), 0
        for text, caret in keys(typed, before, after):
            await _key(own, times, text, caret)
            number += 1
        assert own.logged == [], own.logged
        return times, (own.processor_time() - spent) * 1000 / number


def main() -> None:
    """Print the table of each place."""
    gc.disable()  # the client's own pauses are not the server's
    for name, place in places().items():
        times, a_key = asyncio.run(_session(*place))
        yardstick = statistics.median(times["nothing (the yardstick)"])
        print(f"typed {name}, {len(times['counts'])} keys, {a_key:.1f} ms of the server's processor time a key with all answers")
        print(f"  {'':24}  median ms   95 % ms   longest   median as a ratio   over {BUDGET} ms")
        for what, took in times.items():
            q = sorted(took)
            median, most = statistics.median(q), q[int(len(q) * 0.95)]
            over = sum(one > BUDGET for one in took)
            print(f"  {what:24}  {median:9.1f} {most:9.1f} {q[-1]:9.1f}   {median / yardstick:17.1f}   {over:10}")
