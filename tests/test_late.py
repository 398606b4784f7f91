"""What is made later than in the standard library is the same: expressions, and data classes against ``dataclasses``."""

from __future__ import annotations

import copy
import dataclasses
import gc
import importlib
import pickle
import pkgutil

import pytest

import mkdocs_stitchcheck
from mkdocs_stitchcheck import late_dataclasses as late
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.late_re import Later
from mkdocs_stitchcheck.source import BlockLine, Span


def test_every_expression_compiles() -> None:
    """An expression that is wrong would be found out only where it is first used."""
    for module in pkgutil.walk_packages(mkdocs_stitchcheck.__path__, "mkdocs_stitchcheck."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    late_ones = [one for one in gc.get_objects() if isinstance(one, Later)]
    assert len(late_ones) > 200
    for one in late_ones:
        assert one.search("Rnd 4: (sc, inc) x 6 (18)") is None or one.match is not None


def _same(of: type) -> tuple[type, type]:
    """A class as ours and as the standard library's, from the same body."""

    def body() -> dict[str, object]:
        return {"__annotations__": {"first": "int", "names": "list[str]", "note": "str"}, "note": "", "__module__": __name__}

    ours, theirs = body(), body()
    ours["names"], theirs["names"] = late.field(default_factory=list), dataclasses.field(default_factory=list)
    return type("Made", (of,), ours), type("Made", (of,), theirs)


@pytest.mark.parametrize("frozen", [True, False])
@pytest.mark.parametrize("slots", [True, False])
@pytest.mark.parametrize("eq", [True, False])
def test_a_class_is_as_the_standard_librarys(frozen: bool, slots: bool, eq: bool) -> None:
    ours, theirs = _same(object)
    ours = late.dataclass(frozen=frozen, slots=slots, eq=eq)(ours)
    theirs = dataclasses.dataclass(frozen=frozen, slots=slots, eq=eq)(theirs)
    for cls, changed in ((ours, late.replace), (theirs, dataclasses.replace), (ours, dataclasses.replace)):
        one = cls(1)
        assert one.names == [] and one.names is not cls(2).names
        assert repr(one) == "Made(first=1, names=[], note='')"
        assert (one == cls(1)) is eq
        assert one != 1
        assert changed(one, note="x").note == "x" and one.note == ""
        assert dataclasses.asdict(one) == {"first": 1, "names": [], "note": ""}
        assert [field.name for field in late.fields(ours)] == [field.name for field in dataclasses.fields(cls)]
        assert copy.copy(one).first == 1
        if frozen:
            with pytest.raises(AttributeError):
                one.first = 2
        else:
            one.first = 2
            assert one.first == 2
        with pytest.raises(TypeError):
            cls()
        with pytest.raises(TypeError):
            cls(1, [], "", "")
        with pytest.raises(TypeError):
            cls(1, other=2)
    assert (ours.__hash__ is None) is (theirs.__hash__ is None)
    assert hasattr(ours(1), "__dict__") is hasattr(theirs(1), "__dict__")


def test_default_that_changes_is_refused() -> None:
    ours, _theirs = _same(object)
    ours.names = []  # type: ignore[attr-defined]
    with pytest.raises(ValueError, match="default_factory"):
        late.dataclass(ours)


def test_spans_are_in_order_and_travel() -> None:
    spans = [Span(2, 1, 2, 4), Span(1, 5, 1, 6), Span(1, 5, 1, 5)]
    assert sorted(spans) == [spans[2], spans[1], spans[0]]
    assert pickle.loads(pickle.dumps(spans)) == spans
    assert hash(Span(1, 2, 3, 4)) == hash(Span(1, 2, 3, 4))
    assert pickle.loads(pickle.dumps(BlockLine(1, 2, "sc"))) == BlockLine(1, 2, "sc")


def test_what_a_check_gives_travels() -> None:
    """A check in several processes sends its results from one to another."""
    page = "```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: (sc, inc) x 3 (10)\n```\n"
    result = mkdocs_stitchcheck.check_text(page)
    again = pickle.loads(pickle.dumps(result))
    assert again.findings == result.findings
    assert again.findings[0].severity in Severity
    assert [line.makes for line in again.patterns[0].rounds] == [(6,), (9,)]
