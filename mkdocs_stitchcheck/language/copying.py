"""Copies of what was read: reading and counting change nodes, and one written number is one node wherever it stands."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import fields
from operator import attrgetter
from typing import Any, TypeVar, cast

from . import syntax
from .syntax import Node

_N = TypeVar("_N", bound=Node)
_Kind = tuple[Callable[[Any], tuple[Any, ...]], tuple[str, ...]]
_KINDS: dict[type[Node], _Kind] = {}


def copied(node: _N, copies: dict[int, Any]) -> _N:
    """*node* and all that hangs on it, new; what *copies* holds already, by identity, stays one."""
    known = copies.get(id(node))
    if known is not None:
        return cast(_N, known)
    kind = node.__class__
    values, deep = _KINDS.get(kind) or _kind(kind)
    made = copies[id(node)] = kind(*values(node))
    for name in deep:
        value = getattr(made, name)
        if value:
            setattr(made, name, _copied_all(value, copies) if value.__class__ is tuple else copied(value, copies))
    return made


def copied_all(nodes: tuple[_N, ...], copies: dict[int, Any]) -> tuple[_N, ...]:
    """All *nodes* as new ones."""
    return tuple([copied(node, copies) for node in nodes])


def _copied_all(values: tuple[Any, ...], copies: dict[int, Any]) -> tuple[Any, ...]:
    return tuple([
        copied(value, copies) if isinstance(value, Node) else _copied_all(value, copies) if isinstance(value, tuple) else value
        for value in values
    ])  # fmt: skip


def _kind(kind: type[Node]) -> _Kind:
    """What fetches the fields of a kind of node in the order in which it is made of them, and those that hold nodes."""
    names = [field.name for field in fields(kind)]
    deep = tuple(field.name for field in fields(kind) if any(_is_node(word) for word in re.findall(r"\w+", str(field.type))))
    _KINDS[kind] = attrgetter(*names), deep
    return _KINDS[kind]


def _is_node(name: str) -> bool:
    of = getattr(syntax, name, None)
    return isinstance(of, type) and issubclass(of, Node)
