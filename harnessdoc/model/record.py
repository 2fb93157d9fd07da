"""Frozen data classes that are made fast: the same fields and constructor, with one compiled function a class.

`dataclasses` compiles six functions for each class, about 1 ms; the model's fifty classes were a tenth of a start.
For a type checker it is `dataclasses.dataclass` itself, and `dataclasses.fields` and `replace` work as on any."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

__all__ = ["record"]

if TYPE_CHECKING:
    from dataclasses import dataclass as record
else:

    def record(*, frozen, eq=True):
        """Return a decorator that makes a frozen data class; `frozen` is there for the reader and the type checker.

        Raises TypeError for a class that is not frozen."""
        if frozen is not True:
            raise TypeError("a record is frozen")

        def made(plain):
            own = vars(plain)
            new = dataclasses.dataclass(init=False, repr=False, eq=False)(plain)
            fields = dataclasses.fields(new)
            new.__init__ = _constructor(new, fields)
            new._compared = tuple(field.name for field in fields if field.compare)
            new.__repr__ = own.get("__repr__", _repr)
            new.__setattr__ = new.__delattr__ = _refuse
            if eq:
                new.__eq__, new.__hash__ = own.get("__eq__", _eq), own.get("__hash__") or _hash
            return new

        return made


def _constructor(target: Any, fields: tuple[dataclasses.Field[Any], ...]) -> Any:
    """The one function that is compiled: it sets each field, by a default or its maker where nothing is handed in."""
    names: dict[str, Any] = {"_MISSING": dataclasses.MISSING}
    takes, body = ["self"], ["own = self.__dict__"]
    for field in sorted(fields, key=lambda field: field.kw_only is True):
        name = field.name
        if field.kw_only and "*" not in takes:
            takes.append("*")
        taken, value = name, name
        if field.default is not dataclasses.MISSING:
            names[f"_default_{name}"] = field.default
            taken = f"{name}=_default_{name}"
        elif field.default_factory is not dataclasses.MISSING:
            names[f"_make_{name}"] = field.default_factory
            taken, value = f"{name}=_MISSING", f"_make_{name}() if {name} is _MISSING else {name}"
        takes.append(taken)
        body.append(f"own[{name!r}] = {value}")
    if hasattr(target, "__post_init__"):
        body.append("self.__post_init__()")
    exec(f"def __init__({', '.join(takes)}):\n " + "\n ".join(body), names)  # names come from class bodies only
    return names["__init__"]


def _compare(one: Any) -> tuple[Any, ...]:
    return tuple(getattr(one, name) for name in one._compared)


def _eq(self: Any, other: object) -> bool:
    return _compare(self) == _compare(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(_compare(self))


def _repr(self: Any) -> str:
    shown = (field.name for field in dataclasses.fields(self) if field.repr)
    return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in shown)})"


def _refuse(self: Any, name: str, *_: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to or delete field {name!r}")
