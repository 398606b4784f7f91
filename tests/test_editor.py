"""The editor room: what a page answers, and a real client that talks to ``stitchcheck editor`` key by key.

The client is pygls's own, in ``editor_client.py``.
"""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable
from typing import Any

import pytest
from editor_client import URI, Client, editing
from lsprotocol import types
from pygls.exceptions import JsonRpcException
from pygls.workspace import PositionCodec

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.editor import completing, counts, fixes, formatting, hovering, outline, problems, renaming
from mkdocs_stitchcheck.editor.page import Page
from mkdocs_stitchcheck.settings import HouseStyle

TEXT = """\
# A cap 🧶

```crochet
Title: Pebble cap
Terms: US
Yarn: light (3), 50 g = 125 m
Color A: grey, 20 g
Color B: cream, 5 g
Hook: 3 mm

# Crown (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (19)
Rnd 4: (2 sc, inc) x 6
Rnd 5: with B, sc around (24)
Fasten off.

# Bobble (make 2, color B)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: sc around (6)
Fasten off.

# Making up
Sew the bobbles to the crown.
```
"""


def page_of(text: str, path: str = "cap.md", encoding: str = "utf-16") -> Page:
    def check(other: str) -> Any:
        return check_text(other, path)

    return Page(URI, text, check(text), check, PositionCodec(encoding))


def at(text: str, words: str, inside: int = 0) -> types.Position:
    """The editor's place of the first *words* in *text*, *inside* characters further; the text is plain ASCII there."""
    before = text[: text.index(words)]
    line = before.count("\n")
    return types.Position(line, len(before) - before.rfind("\n") - 1 + inside)


def applied(text: str, edits: list[types.TextEdit]) -> str:
    """*text* as an editor has it after *edits*, for texts whose edited lines are plain ASCII."""
    lines = text.split("\n")

    def offset(position: types.Position) -> int:
        return sum(len(line) + 1 for line in lines[: position.line]) + position.character

    for edit in sorted(edits, key=lambda edit: -offset(edit.range.start)):
        text = text[: offset(edit.range.start)] + edit.new_text + text[offset(edit.range.end) :]
    return text


# --- findings -----------------------------------------------------------------------------------------------------


def test_a_wrong_count_is_marked_at_its_place() -> None:
    (found,) = [one for one in problems.problems(page_of(TEXT)) if one.code == "count-mismatch"]
    assert found.range == types.Range(at(TEXT, "(19)"), at(TEXT, "(19)", 4))
    assert found.severity == types.DiagnosticSeverity.Error
    assert "Rnd 3 makes 18 stitches; you wrote 19." in found.message and "(18)" in found.message


@pytest.mark.parametrize(("encoding", "units"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_positions_are_in_the_units_of_the_editor(encoding: str, units: int) -> None:
    text = "```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: 🧶 inc x 6 (13)\n```\n"
    page = page_of(text, encoding=encoding)
    (found,) = [one for one in problems.problems(page) if one.code == "count-mismatch"]
    assert found.range == types.Range(types.Position(2, 16 + units), types.Position(2, 20 + units))
    assert page.column_of(types.Position(2, 16 + units)) == 18


def test_an_excused_slip_is_not_marked() -> None:
    text = TEXT.replace("x 6 (19)", "x 6 (19)\n>> right as written: the pom hides it")
    assert not [one for one in problems.problems(page_of(text)) if one.code == "count-mismatch"]


def test_a_draft_has_no_errors() -> None:
    found = problems.problems(page_of(TEXT.replace("Terms: US", "Terms: US\nDraft: yes")))
    (one,) = [one for one in found if one.code == "count-mismatch"]
    assert one.severity == types.DiagnosticSeverity.Warning and "draft" in one.message


# --- counts, outline, meanings -------------------------------------------------------------------------------------


def test_each_round_shows_its_count_so_far() -> None:
    shown = {hint.position.line: hint.label for hint in counts.hints(page_of(TEXT), 1, 99)}
    lines = TEXT.split("\n")
    assert shown[lines.index("Rnd 2: inc x 6 (12)")] == "✓"
    assert shown[lines.index("Rnd 3: (sc, inc) x 6 (19)")] == "makes 18"
    assert shown[lines.index("Rnd 4: (2 sc, inc) x 6")] == "= 24"


def test_hints_of_a_stretch_only() -> None:
    assert {hint.position.line for hint in counts.hints(page_of(TEXT), 13, 13)} == {12}


def test_the_outline_has_pieces_and_rounds() -> None:
    (pattern,) = outline.outline(page_of(TEXT))
    assert pattern.name == "Pebble cap"
    pieces = pattern.children or []
    assert [piece.name for piece in pieces] == ["Crown", "Bobble", "Making up"]
    assert [line.name for line in pieces[0].children or []] == ["Rnd 1", "Rnd 2", "Rnd 3", "Rnd 4", "Rnd 5"]
    for outer, inner in [(pattern, piece) for piece in pieces] + [(p, c) for p in pieces for c in p.children or []]:
        assert outer.range.start.line <= inner.range.start.line and inner.range.end.line <= outer.range.end.line


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("inc x 6", "increase"),
        ("sc around", "sc: single crochet (US terms; dc in UK terms)"),
        ("Rnd 2: inc", "Rnd 2: works into 6 and makes 12 stitches."),
        ("B, sc around", "Color B: cream"),
        ("# Bobble", "Bobble, make 2: 2 rounds, 12 stitches each"),
    ],
)
def test_what_stands_under_the_pointer(words: str, said: str) -> None:
    found = hovering.hover(page_of(TEXT), at(TEXT, words, 1 if not words.startswith(("B", "#")) else 0))
    assert found is not None and isinstance(found.contents, types.MarkupContent)
    assert said in found.contents.value


def test_a_declared_stitch_is_explained_in_the_designers_words() -> None:
    text = TEXT.replace("Hook: 3 mm", "Hook: 3 mm\nSpecial stitch: nub = 3 dc in next st").replace("inc x 6 (12)", "nub x 6 (18)")
    found = hovering.hover(page_of(text), at(text, "nub x 6", 1))
    assert found is not None and "3 dc in next st" in found.contents.value  # type: ignore[union-attr]


def test_prose_outside_blocks_is_left_alone() -> None:
    page = page_of("Work sc around.\n\n" + TEXT)
    assert hovering.hover(page, types.Position(0, 6)) is None
    assert completing.complete(page, types.Position(0, 6)) == []


# --- completion ---------------------------------------------------------------------------------------------------


def labels(text: str, mark: str = "|") -> list[str]:
    """What is offered at the *mark* in *text*, which is taken out."""
    place = at(text, mark)
    return [item.label for item in completing.complete(page_of(text.replace(mark, "", 1)), place)]


def test_the_count_of_the_round_is_offered() -> None:
    assert labels(TEXT.replace("(2 sc, inc) x 6\n", "(2 sc, inc) x 6 (|\n").replace("(19)", "(18)"))[0] == "24)"
    assert labels(TEXT.replace("(2 sc, inc) x 6\n", "(2 sc, inc) x 6 =|\n").replace("(19)", "(18)"))[0] == " 24"


def test_the_next_label_is_offered_as_the_others_are_written() -> None:
    assert labels(TEXT.replace("sc around (24)\nFasten", "sc around (24)\n|\nFasten"))[0] == "Rnd 6: "


def test_stitches_colours_and_header_keys_are_offered() -> None:
    offered = labels(TEXT.replace("Rnd 5: with B, sc", "Rnd 5: |"))
    assert {"sc", "hdc", "dec", "color A"} <= set(offered)
    assert "Gauge: " in labels(TEXT.replace("Hook: 3 mm", "|"))
    assert "htr" in labels(TEXT.replace("Terms: US", "Terms: UK").replace("sc", "dc").replace("Rnd 5: with B, dc", "Rnd 5: |"))


def test_the_word_that_opens_a_block_is_offered() -> None:
    assert labels("Some prose.\n\n```|\n") == ["crochet"]


# --- edits --------------------------------------------------------------------------------------------------------


def test_a_quick_fix_mends_the_slip() -> None:
    page = page_of(TEXT)
    number = at(TEXT, "(19)").line + 1
    mending = next(action for action in fixes.fixes(page, number, number) if action.title.startswith("Write 18"))
    assert mending.edit is not None and mending.edit.changes is not None
    text = applied(TEXT, list(mending.edit.changes[URI]))
    assert text == TEXT.replace("(19)", "(18)")


def test_an_excuse_is_a_quick_fix_too() -> None:
    page = page_of(TEXT)
    number = at(TEXT, "(19)").line + 1
    excuse = next(action for action in fixes.fixes(page, number, number) if action.title.startswith("It is right"))
    text = applied(TEXT, list(excuse.edit.changes[URI]))  # type: ignore[union-attr,index]
    assert "x 6 (19)\n>> right as written: \nRnd 4" in text


def test_every_sure_slip_at_once() -> None:
    action = fixes.all_sure(page_of(TEXT))
    assert action is not None and action.edit is not None and action.edit.changes is not None
    (edit,) = action.edit.changes[URI]
    assert "(sc, inc) x 6 (18)" in edit.new_text
    assert fixes.all_sure(page_of(edit.new_text)) is None


@pytest.mark.parametrize(
    ("words", "new", "then"),
    [
        ("Crown (color", "Top", ["# Top (color A)", "Sew the bobbles to the top."]),
        ("Bobble (make", "Nub", ["# Nub (make 2, color B)", "Sew the nubs to the crown."]),
        ("B: cream", "C", ["Color C: cream, 5 g", "with C, sc around", "(make 2, color C)"]),
        ("cream", "ivory", ["Color B: ivory, 5 g"]),
    ],
)
def test_a_name_is_changed_wherever_it_stands(words: str, new: str, then: list[str]) -> None:
    text = applied(TEXT, renaming.rename(page_of(TEXT), at(TEXT, words), new))
    assert all(line in text for line in then)
    before, after = (check_text(one, "cap.md") for one in (TEXT, text))
    assert [r.makes for p in before.patterns for r in p.rounds] == [r.makes for p in after.patterns for r in p.rounds]


@pytest.mark.parametrize(
    ("words", "new", "said"),
    [
        ("Crown (color", "Bobble", "another Bobble"),
        ("B: cream", "A", "another A"),
        ("B: cream", "b!", "can't be a name"),
        ("B: cream", "IN", "read in another way"),
        ("inc x 6", "plus", "no colour and no piece"),
    ],
)
def test_a_name_that_does_not_do_is_refused(words: str, new: str, said: str) -> None:
    with pytest.raises(renaming.CannotRename, match=said):
        renaming.rename(page_of(TEXT), at(TEXT, words), new)


def test_formatting_is_the_house_style_and_then_nothing() -> None:
    untidy = TEXT.replace("(19)", "(18)").replace("Rnd 2: inc x 6 (12)", "R2:  inc  x6 =12")
    text = applied(untidy, formatting.formatted(page_of(untidy), HouseStyle()))
    assert "Rnd 2: inc x 6 (12)" in text
    assert formatting.formatted(page_of(text), HouseStyle()) == []


# --- a client -----------------------------------------------------------------------------------------------------


def run(work: Callable[[Client], Any], *options: str) -> None:
    async def session() -> None:
        async with editing(*options) as own:
            await work(own)
            assert own.logged == []

    asyncio.run(asyncio.wait_for(session(), 300))


def test_a_pattern_is_typed_key_by_key() -> None:
    """Every half-typed state is survived; what is found comes and goes, and the whole right page is clean."""
    right = TEXT.replace("(19)", "(18)")
    begun = right.index("Rnd 2")

    async def work(own: Client) -> None:
        for end in range(begun, right.index("# Bobble")):
            await own.type(right[:end])
        assert not [one for one in await own.type(right) if one.severity == types.DiagnosticSeverity.Error]
        wrong = await own.type(right.replace("(18)", "(19)"))
        assert [one.code for one in wrong if one.severity == types.DiagnosticSeverity.Error] == ["count-mismatch"]
        assert not [one for one in await own.type(right) if one.severity == types.DiagnosticSeverity.Error]

    run(work)


def test_a_client_gets_every_answer() -> None:
    async def work(own: Client) -> None:
        page = types.TextDocumentIdentifier(URI)
        await own.type(TEXT)
        whole = types.Range(types.Position(0, 0), types.Position(99, 0))
        hints = await own.client.text_document_inlay_hint_async(types.InlayHintParams(page, whole))
        assert "= 24" in [hint.label for hint in hints or []]
        under = await own.client.text_document_hover_async(types.HoverParams(page, at(TEXT, "inc x 6", 1)))
        assert under is not None
        symbols = await own.client.text_document_document_symbol_async(types.DocumentSymbolParams(page))
        assert symbols and symbols[0].name == "Pebble cap"
        items = await own.client.text_document_completion_async(types.CompletionParams(page, at(TEXT, "sc around")))
        assert items
        here = types.Range(at(TEXT, "(19)"), at(TEXT, "(19)"))
        asked = types.CodeActionParams(page, here, types.CodeActionContext([]))
        actions = await own.client.text_document_code_action_async(asked)
        assert any(action.title == "Write 18 instead of 19" for action in actions or [])
        new = types.RenameParams(page, at(TEXT, "Crown (color"), "Top")
        edit = await own.client.text_document_rename_async(new)
        assert edit is not None and edit.changes is not None and len(edit.changes[URI]) == 2
        style = types.DocumentFormattingParams(page, types.FormattingOptions(4, True))
        await own.client.text_document_formatting_async(style)
        with pytest.raises(JsonRpcException, match="another Bobble"):
            await own.client.text_document_rename_async(types.RenameParams(page, at(TEXT, "Crown (color"), "Bobble"))

    run(work)


@pytest.mark.parametrize(
    "text",
    ["", "\ufeff```crochet\r\nRnd 1: 6 sc in MR (6)\r\n", "```crochet\nRnd 1: 6 sc\x0c in magic ring (6)\u2028\nRnd 2: 9 sc (9)\n",
     "```crochet\n" + "(" * 5000 + "\n```", "```crochet\nRnd 1: " + "9" * 400 + " sc\n", "```crochet\n```\n```crochet"],
    ids=["empty", "mark and CRLF", "form feed", "nesting", "huge number", "two openings"],
)  # fmt: skip
def test_strange_texts_get_answers(text: str) -> None:
    async def work(own: Client) -> None:
        page = types.TextDocumentIdentifier(URI)
        await own.type(text)
        for line in range(min(text.count("\n") + 2, 5)):
            for character in (0, 3, 10_000):
                place = types.Position(line, character)
                await own.client.text_document_hover_async(types.HoverParams(page, place))
                await own.client.text_document_completion_async(types.CompletionParams(page, place))
                await own.client.text_document_prepare_rename_async(types.PrepareRenameParams(page, place))
        whole = types.Range(types.Position(0, 0), types.Position(99, 0))
        await own.client.text_document_inlay_hint_async(types.InlayHintParams(page, whole))
        await own.client.text_document_code_action_async(types.CodeActionParams(page, whole, types.CodeActionContext([])))
        await own.client.text_document_document_symbol_async(types.DocumentSymbolParams(page))

    run(work)


def test_without_the_extra_there_is_a_plain_message(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from mkdocs_stitchcheck.hosts.commandline import main

    monkeypatch.setitem(sys.modules, "pygls.lsp.server", None)
    monkeypatch.delitem(sys.modules, "mkdocs_stitchcheck.hosts.language_server", raising=False)
    assert main(["editor"]) == 2
    assert "pip install 'mkdocs-stitchcheck[editor]'" in capsys.readouterr().err
