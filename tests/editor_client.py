"""An editor as a test or benchmark drives it: pygls's own client, talking to ``stitchcheck editor`` in a process of its own.

The client is a general library for the Language Server Protocol 3.17, so positions, capabilities and messages are judged
by something other than our code.
"""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from lsprotocol import types
from pygls.lsp.client import LanguageClient

URI = "file:///blog/cap.md"


class Client:
    """An editor with one page. ``found`` are the findings last sent, ``logged`` the faults told."""

    def __init__(self) -> None:
        self.client = LanguageClient("test", "1")
        self.found: list[types.Diagnostic] = []
        self.logged: list[str] = []
        self.version = 0
        self.sent = asyncio.Event()
        self.client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)(lambda params: self._publish(params))
        self.client.feature(types.WINDOW_LOG_MESSAGE)(lambda params: self.logged.append(params.message))
        self.client.feature(types.WINDOW_SHOW_MESSAGE)(lambda params: self.logged.append(params.message))

    def _publish(self, params: types.PublishDiagnosticsParams) -> None:
        self.found = list(params.diagnostics)
        if params.version in (self.version, None):
            self.sent.set()

    def processor_time(self) -> float:
        """Seconds of processor time that the server's process has taken so far; 0 where the system doesn't tell."""
        server = self.client._server
        try:
            with open(f"/proc/{server.pid}/stat", encoding="ascii") as stat:
                user, system = stat.read().rpartition(")")[2].split()[11:13]
        except (OSError, AttributeError):
            return 0.0
        return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")

    async def type(self, text: str, uri: str = URI) -> list[types.Diagnostic]:
        """The page is *text* now; its findings."""
        self.version += 1
        self.sent.clear()
        if self.version == 1:
            item = types.TextDocumentItem(uri, "markdown", 1, text)
            self.client.text_document_did_open(types.DidOpenTextDocumentParams(item))
        else:
            whole = types.TextDocumentContentChangeWholeDocument(text)
            page = types.VersionedTextDocumentIdentifier(self.version, uri)
            self.client.text_document_did_change(types.DidChangeTextDocumentParams(page, [whole]))
        await asyncio.wait_for(self.sent.wait(), 60)
        return self.found


@asynccontextmanager
async def editing(*options: str) -> AsyncIterator[Client]:
    own = Client()
    await own.client.start_io(sys.executable, "-m", "mkdocs_stitchcheck", "editor", *options)
    await own.client.initialize_async(types.InitializeParams(capabilities=types.ClientCapabilities(), root_uri=None))
    own.client.initialized(types.InitializedParams())
    yield own
    await own.client.shutdown_async(None)
    own.client.exit(None)
    await own.client.stop()
