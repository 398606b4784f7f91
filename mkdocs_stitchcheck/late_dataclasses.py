"""Data classes as in ``dataclasses``, whose methods are written when they are first called.

The standard library writes and compiles six methods for each of the package's two hundred classes when they are imported:
a quarter of the time that ``stitchcheck check`` takes for one page, and most are never called. To the type checker these
are the standard library's own; ``dataclasses.replace``, ``fields`` and ``asdict`` work with them, and so does pickling.
"""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING

__all__ = ["dataclass", "field", "fields", "replace"]

if TYPE_CHECKING:
    from dataclasses import dataclass, field, fields, replace
else:
    _NONE = object()

    class FrozenError(AttributeError):
        """A frozen object was to be changed."""

    class Field:
        """A field of a class: its default, or what makes it; whether it counts where two objects are compared."""

        __slots__ = ("compare", "default", "factory", "name", "type")

        def __init__(self, default=_NONE, factory=_NONE, compare=True):
            self.default, self.factory, self.compare = default, factory, compare
            self.name, self.type = "", ""

    def field(*, default=_NONE, default_factory=_NONE, compare=True):
        return Field(default, default_factory, compare)

    def fields(of):
        """The fields of a data class or of an object of one."""
        return tuple(_fields_of(of if isinstance(of, type) else type(of)).values())

    def replace(of, /, **changes):
        """A copy of *of* with *changes*."""
        kind = of.__class__
        for name in _fields_of(kind):
            if name not in changes:
                changes[name] = getattr(of, name)
        return kind(**changes)

    def dataclass(cls=None, /, *, frozen=False, slots=False, order=False, eq=True):
        def made(cls):
            return _made(cls, frozen, slots, order, eq)

        return made if cls is None else made(cls)

    def _fields_of(cls):
        for base in cls.__mro__:
            if "__late_fields__" in base.__dict__:
                return base.__dict__["__late_fields__"]
        raise TypeError(f"{cls.__name__} is no data class")

    def _made(cls, frozen, slots, order, eq):
        found, own = {}, []
        for base in reversed(cls.__mro__[1:]):
            found.update(base.__dict__.get("__late_fields__", ()))
        for name, kind in cls.__dict__.get("__annotations__", {}).items():  # noqa: RUF063 - inspect is what takes long
            if kind.startswith("ClassVar"):
                continue
            value = cls.__dict__.get(name, _NONE)
            one = value if isinstance(value, Field) else Field(value)
            if one.default is not _NONE and one.default.__class__.__hash__ is None:
                raise ValueError(f"{cls.__name__}.{name}: a default that changes needs a default_factory")
            one.name, one.type = name, kind
            if isinstance(value, Field):
                delattr(cls, name)
                if one.default is not _NONE and not slots:
                    setattr(cls, name, one.default)
            found[name] = one
            own.append(name)
        if slots:
            cls = _with_slots(cls, own)
        cls.__late_fields__ = found
        cls.__dataclass_fields__ = _Standard(found)
        cls.__match_args__ = tuple(found)
        _write_later(cls, frozen)
        if "__repr__" not in cls.__dict__:
            cls.__repr__ = _repr
        if eq and "__eq__" not in cls.__dict__:
            cls.__eq__, cls.__hash__ = _eq, _hash if frozen else None
        if order:
            cls.__lt__, cls.__le__, cls.__gt__, cls.__ge__ = _lt, _le, _gt, _ge
        if frozen:
            cls.__setattr__, cls.__delattr__ = _refuse, _refuse
            if slots:
                cls.__getstate__, cls.__setstate__ = _values_in_order, _set_values
        return cls

    def _with_slots(cls, own):
        """The class made anew with slots for its *own* fields, which need no place in its dictionary then."""
        names = {name: value for name, value in cls.__dict__.items() if name not in ("__dict__", "__weakref__", *own)}
        inherited = {name for base in cls.__mro__[1:-1] for name in base.__dict__.get("__slots__", ())}
        names["__slots__"] = tuple(name for name in own if name not in inherited)
        return type(cls)(cls.__name__, cls.__bases__, names)

    def _write_later(cls, frozen):
        def __init__(self, *args, **kwargs):  # the first object made of the class has it written
            cls.__init__ = _init(cls, frozen)
            cls.__init__(self, *args, **kwargs)

        cls.__init__ = __init__

    def _init(cls, frozen):
        names, arguments, body = {"_NONE": _NONE, "_set": object.__setattr__}, [], []
        for index, one in enumerate(_fields_of(cls).values()):
            value = one.name
            if one.factory is not _NONE:
                names[f"_{index}"] = one.factory
                arguments.append(f"{one.name}=_NONE")
                value = f"_{index}() if {one.name} is _NONE else {one.name}"
            elif one.default is not _NONE:
                names[f"_{index}"] = one.default
                arguments.append(f"{one.name}=_{index}")
            else:
                arguments.append(one.name)
            body.append(f" _set(self, {one.name!r}, {value})" if frozen else f" self.{one.name} = {value}")
        if hasattr(cls, "__post_init__"):
            body.append(" self.__post_init__()")
        exec(f"def __init__({', '.join(['self', *arguments])}):\n" + "\n".join(body or [" pass"]), names)  # noqa: S102
        names["__init__"].__qualname__ = f"{cls.__qualname__}.__init__"
        return names["__init__"]

    class _Standard:
        """Stands for the fields as the standard library wants them, made when it asks."""

        def __init__(self, found):
            self._found = found

        def __get__(self, of, cls):
            import dataclasses

            made = []
            for one in self._found.values():
                given = {"default": one.default} if one.default is not _NONE else {}
                given["compare"] = one.compare
                given |= {"default_factory": one.factory} if one.factory is not _NONE else {}
                made.append((one.name, one.type, dataclasses.field(**given)))
            return dataclasses.make_dataclass("Fields", made).__dataclass_fields__

    # --- methods that all have ---------------------------------------------------------------------------------------

    _GETTERS = {}

    def _compared(self):
        """The values of the fields by which two objects are compared, in order."""
        cls = self.__class__
        getter = _GETTERS.get(cls)
        if getter is None:
            names = tuple(one.name for one in _fields_of(cls).values() if one.compare)
            getter = _GETTERS[cls] = attrgetter(*names) if len(names) > 1 else lambda of: tuple(getattr(of, name) for name in names)
        return getter(self)

    def _repr(self):
        shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in _fields_of(self.__class__))
        return f"{self.__class__.__qualname__}({shown})"

    def _eq(self, other):
        return _compared(self) == _compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _hash(self):
        return hash(_compared(self))

    def _lt(self, other):
        return _compared(self) < _compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _le(self, other):
        return _compared(self) <= _compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _gt(self, other):
        return _compared(self) > _compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _ge(self, other):
        return _compared(self) >= _compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _refuse(self, name, *value):
        raise FrozenError(f"{self.__class__.__name__}.{name} can't be changed")

    def _values_in_order(self):
        return [getattr(self, name) for name in _fields_of(self.__class__)]

    def _set_values(self, values):
        for name, value in zip(_fields_of(self.__class__), values, strict=True):
            object.__setattr__(self, name, value)
