"""The language server: the modules of ``editor`` over pygls, with the last check of each open page kept.

A page is checked when it is typed in, at once while that is quick; on a long page the check waits until the fingers rest.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from lsprotocol import types
from pygls.exceptions import JsonRpcInvalidParams
from pygls.lsp.server import LanguageServer
from pygls.uris import to_fs_path

from .. import __version__
from ..checker import check_written
from ..editor import completing, counts, fixes, formatting, hovering, outline, problems, renaming
from ..editor.pace import Pace, warm_up
from ..editor.page import Page
from ..files import Written
from ..results import FileResult
from ..settings import Settings, SettingsError
from .checking import Configuration

_T = TypeVar("_T")


class Server(LanguageServer):
    """A server with its pages. *config_file* is the settings file that was named; none: the nearest project's."""

    def __init__(self, config_file: str | None = None) -> None:
        # Whole texts only: pygls cuts lines where an editor does not (at a form feed), and would apply parts wrongly.
        super().__init__("stitchcheck", __version__, text_document_sync_kind=types.TextDocumentSyncKind.Full)
        self._config_file = config_file
        self._configuration: Configuration | None = None
        self._pages: dict[str, tuple[int | None, Page]] = {}
        self._waiting: dict[str, asyncio.TimerHandle] = {}
        self._pace = Pace()

    # --- pages ------------------------------------------------------------------------------------------------

    def page(self, uri: str) -> Page:
        """The page *uri* as it stands now, checked."""
        document = self.workspace.get_text_document(uri)
        kept = self._pages.get(uri)
        if kept is not None and kept[0] == document.version and kept[1].text == document.source:
            return kept[1]
        path, settings = self._path(uri, document.language_id), self.settings(uri)

        def check(text: str) -> FileResult:
            return check_written(Written(text), path, settings)

        began = time.perf_counter()
        text = document.source
        page = Page(uri, text, check(text), check, self.workspace.position_codec)
        self._pace.took(uri, time.perf_counter() - began)
        self._pages[uri] = (document.version, page)
        return page

    def settings(self, uri: str) -> Settings:
        """The settings for *uri*; the usual ones where the file of settings has a slip, which is said once."""
        try:
            if self._configuration is None:
                self._configuration = Configuration(self._config_file)
            return self._configuration.of(to_fs_path(uri) or "")
        except SettingsError as error:
            self._say("\n".join(error.problems))
            return Settings()

    def forget_settings(self) -> None:
        """Read the settings again, and check every open page with them."""
        self._configuration = None
        for uri in list(self._pages):
            del self._pages[uri]
            self.publish(uri)

    @staticmethod
    def _path(uri: str, language: str | None) -> str:
        path = to_fs_path(uri) or uri
        plain = language == "plaintext" and "." not in path.rsplit("/", 1)[-1]
        return path + ".txt" if plain else path  # a new, unsaved text

    def _say(self, words: str) -> None:
        self.window_show_message(types.ShowMessageParams(types.MessageType.Warning, words))

    # --- findings ---------------------------------------------------------------------------------------------

    def typed(self, uri: str) -> None:
        """Something was typed: check now, or once the fingers rest."""
        self._stop_waiting(uri)
        rest = self._pace.rest(uri)
        if not rest:
            self.publish(uri)
            return
        self._waiting[uri] = asyncio.get_running_loop().call_later(rest, self.publish, uri)

    def publish(self, uri: str) -> None:
        """Send the findings of *uri* as it stands now."""
        self._stop_waiting(uri)
        version = self.workspace.get_text_document(uri).version
        found = problems.problems(self.page(uri))
        self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, found, version))

    def closed(self, uri: str) -> None:
        """Forget a page, and take its findings off."""
        self._stop_waiting(uri)
        self._pages.pop(uri, None)
        self._pace.forget(uri)
        self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))

    def _stop_waiting(self, uri: str) -> None:
        waiting = self._waiting.pop(uri, None)
        if waiting is not None:
            waiting.cancel()


def _guarded(answer: Callable[[Server, Any], _T]) -> Callable[[Server, Any], _T | None]:
    """A fault of ours is one line in the editor's log; the editor goes on without that answer."""

    @wraps(answer)
    def guarded(server: Server, params: Any) -> _T | None:
        try:
            return answer(server, params)
        except JsonRpcInvalidParams:
            raise
        except Exception as fault:  # noqa: BLE001 - typing must go on whatever happens here
            said = f"stitchcheck failed at {answer.__name__} ({type(fault).__name__}: {fault}). Please report it."
            server.window_log_message(types.LogMessageParams(types.MessageType.Error, said))
            return None

    return guarded


def make_server(config_file: str | None = None) -> Server:
    """A server that answers every request of the editor room."""
    server = Server(config_file)
    for method, answer, *options in _ANSWERS:
        server.feature(method, *options)(_guarded(answer))
    return server


# --- what an editor tells -------------------------------------------------------------------------------------------


def begun(server: Server, params: types.InitializedParams) -> None:
    warm_up()


def opened(server: Server, params: types.DidOpenTextDocumentParams) -> None:
    server.publish(params.text_document.uri)


def changed(server: Server, params: types.DidChangeTextDocumentParams) -> None:
    server.typed(params.text_document.uri)


def saved(server: Server, params: types.DidSaveTextDocumentParams) -> None:
    server.forget_settings()


def closed(server: Server, params: types.DidCloseTextDocumentParams) -> None:
    server.closed(params.text_document.uri)


# --- what an editor asks --------------------------------------------------------------------------------------------


def hover(server: Server, params: types.HoverParams) -> types.Hover | None:
    return hovering.hover(server.page(params.text_document.uri), params.position)


def inlay_hints(server: Server, params: types.InlayHintParams) -> list[types.InlayHint]:
    return counts.hints(server.page(params.text_document.uri), params.range.start.line + 1, params.range.end.line + 1)


def symbols(server: Server, params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
    return outline.outline(server.page(params.text_document.uri))


def completion(server: Server, params: types.CompletionParams) -> list[types.CompletionItem]:
    return completing.complete(server.page(params.text_document.uri), params.position)


def actions(server: Server, params: types.CodeActionParams) -> list[types.CodeAction]:
    page, only = server.page(params.text_document.uri), params.context.only or ()
    found: list[types.CodeAction] = []
    if not only or any(_within("quickfix", kind) for kind in only):
        found += fixes.fixes(page, params.range.start.line + 1, params.range.end.line + 1)
    # Trying all edits takes several checks, so it is done only where it was asked for by name.
    if any(_within("source.fixAll", kind) for kind in only) and (action := fixes.all_sure(page)):
        found.append(action)
    return found


def _within(kind: str, asked: str) -> bool:
    return kind == asked or kind.startswith(asked + ".")


def may_rename(server: Server, params: types.PrepareRenameParams) -> types.PrepareRenamePlaceholder | None:
    page = server.page(params.text_document.uri)
    found = renaming.name_at(page, params.position)
    return types.PrepareRenamePlaceholder(page.range_of(found.span), found.words) if found else None


def rename(server: Server, params: types.RenameParams) -> types.WorkspaceEdit:
    page = server.page(params.text_document.uri)
    try:
        return page.workspace_edit(renaming.rename(page, params.position, params.new_name))
    except renaming.CannotRename as reason:
        raise JsonRpcInvalidParams(message=str(reason)) from reason


def tidied(server: Server, params: types.DocumentFormattingParams) -> list[types.TextEdit]:
    uri = params.text_document.uri
    return formatting.formatted(server.page(uri), server.settings(uri).house_style)


_ANSWERS: tuple[tuple[Any, ...], ...] = (
    (types.INITIALIZED, begun),
    (types.TEXT_DOCUMENT_DID_OPEN, opened),
    (types.TEXT_DOCUMENT_DID_CHANGE, changed),
    (types.TEXT_DOCUMENT_DID_SAVE, saved),
    (types.TEXT_DOCUMENT_DID_CLOSE, closed),
    (types.TEXT_DOCUMENT_HOVER, hover),
    (types.TEXT_DOCUMENT_INLAY_HINT, inlay_hints),
    (types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, symbols),
    (types.TEXT_DOCUMENT_COMPLETION, completion, types.CompletionOptions(trigger_characters=list(completing.TRIGGERS))),
    (
        types.TEXT_DOCUMENT_CODE_ACTION,
        actions,
        types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix, types.CodeActionKind.SourceFixAll]),
    ),
    (types.TEXT_DOCUMENT_PREPARE_RENAME, may_rename),
    (types.TEXT_DOCUMENT_RENAME, rename, types.RenameOptions(prepare_provider=True)),
    (types.TEXT_DOCUMENT_FORMATTING, tidied),
)
