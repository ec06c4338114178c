"""Named tuples that are quick to define, for the values that are defined at every start.

`typing.NamedTuple` compiles the annotation of every field to check it, which is more than half of what defining a class
costs: a session defines 150 before its first question. mypy checks the same annotations, before anybody starts.
"""

from __future__ import annotations

from collections import namedtuple
from typing import TYPE_CHECKING, Any

__all__ = ["NamedTuple"]

if TYPE_CHECKING:
    from typing import NamedTuple  # to a checker they are one and the same
else:
    _TAKEN = frozenset({"__module__", "__qualname__", "__classcell__", "__annotations__"})

    class _Defining(type):
        """What turns the body of a class into the named tuple of its annotated fields, with its methods."""

        def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> type:
            if not bases:
                return super().__new__(cls, name, bases, body)
            fields = body.get("__annotations__", {})
            defaults = [body[field] for field in fields if field in body]
            made = namedtuple(name, fields, defaults=defaults, module=body["__module__"])  # noqa: PYI024  typing's is made of it
            made.__annotations__ = fields
            for key, value in body.items():
                if key not in fields and key not in _TAKEN:
                    setattr(made, key, value)
            return made

    class NamedTuple(metaclass=_Defining):
        """The base to name: `class Place(NamedTuple)`."""
