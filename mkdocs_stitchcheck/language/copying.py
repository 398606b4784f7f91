"""Copies of what was read: reading and counting change nodes, and one written number is one node wherever it stands."""

from __future__ import annotations

from dataclasses import fields
from operator import attrgetter
from typing import Any, TypeVar, cast

from .syntax import Node

_N = TypeVar("_N", bound=Node)
_VALUES: dict[type[Node], attrgetter[tuple[Any, ...]]] = {}


def copied(node: _N, copies: dict[int, Any]) -> _N:
    """*node* and all that hangs on it, new; what *copies* holds already, by identity, stays one."""
    known = copies.get(id(node))
    if known is not None:
        return cast(_N, known)
    kind = node.__class__
    values = _VALUES.get(kind) or _values(kind)
    copies[id(node)] = made = kind(*[_value(value, copies) if isinstance(value, (Node, tuple)) else value for value in values(node)])
    return made


def copied_all(nodes: tuple[_N, ...], copies: dict[int, Any]) -> tuple[_N, ...]:
    """All *nodes* as new ones."""
    return tuple([copied(node, copies) for node in nodes])


def _value(value: Any, copies: dict[int, Any]) -> Any:
    if isinstance(value, Node):
        return copied(value, copies)
    return tuple([_value(one, copies) if isinstance(one, (Node, tuple)) else one for one in value])


def _values(kind: type[Node]) -> attrgetter[tuple[Any, ...]]:
    """Fetches the fields of a kind of node in the order in which it is made of them."""
    getter = _VALUES[kind] = attrgetter(*(field.name for field in fields(kind)))
    return getter
