"""A question whole as plain data, and back: what a paper keeps of it, so that it outlives the bank.

A value with fields is written as the list of its fields, a node of a formula with its kind in front. Fields that came
later are missing in older data and take their defaults. Whatever is read is checked against the fields' own types.
"""

from __future__ import annotations

import types
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from quizzer.characters import held
from quizzer.expression.tree import Bin, Call, Name, Neg, Num
from quizzer.question.question import Question

NODES = {kind.__name__: kind for kind in (Num, Name, Neg, Bin, Call)}
_LONGEST, _DEEPEST = 20_000, 60


class UnreadableError(ValueError):
    """What is no question."""


def plain_of(question: Question) -> list[Any]:
    """The question as lists, mappings, texts and numbers. Its entry's own table is left out, its digest is kept."""
    head = question.head._replace(raw={}, kept_digest=question.head.digest)
    found = _plain(question._replace(head=head))
    return list(found)


def question_of_plain(data: object) -> Question:
    """The question that was written. Raises UnreadableError for anything else."""
    found = _read(Question, data, 0)
    if not isinstance(found, Question):
        raise UnreadableError("no question")
    return found


def _plain(value: Any) -> Any:
    if hasattr(value, "_fields"):
        kind = type(value).__name__
        return [*([kind] if kind in NODES else []), *map(_plain, value)]
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    return [_plain(inner) for inner in value] if isinstance(value, list | tuple) else value


@cache
def _fields(kind: type) -> dict[str, Any]:
    """The types of a value's fields, by name."""
    hints = get_type_hints(kind)
    return {name: hints[name] for name in kind._fields}  # type: ignore[attr-defined]  # every NamedTuple has them


def _read(hint: Any, data: Any, depth: int) -> Any:  # noqa: PLR0911  one case a kind of type
    if depth > _DEEPEST:
        raise UnreadableError("too deep")
    origin, inner = get_origin(hint), get_args(hint)
    if hint is Any:
        return data
    if hint in (str, int, float, bool):
        return _simple(hint, data)
    if origin is Literal:
        return data if data in inner else _fail(data)
    if origin in (Union, types.UnionType):
        return _one_of(inner, data, depth)
    if origin is tuple and inner[-1] is not Ellipsis:
        if not isinstance(data, list) or len(data) != len(inner):
            _fail(data)
        return tuple(_read(each, one, depth + 1) for each, one in zip(inner, data, strict=True))
    if origin in (tuple, Sequence):
        return tuple(_read(inner[0], one, depth + 1) for one in _listed(data))
    if origin in (Mapping, dict):
        return {str(key): _read(inner[1], one, depth + 1) for key, one in _mapped(data).items()}
    return _value(hint, data, depth)


def _value(kind: Any, data: Any, depth: int) -> Any:
    """A value with fields, the last of which may be missing where they have defaults."""
    fields = _fields(kind)
    given = _listed(data)
    left = list(fields)[len(given) :]
    if len(given) > len(fields) or not set(left) <= set(kind._field_defaults):
        _fail(data)
    return kind(*(_read(hint, one, depth + 1) for hint, one in zip(fields.values(), given, strict=False)))


def _one_of(kinds: Sequence[Any], data: Any, depth: int) -> Any:
    """A value of one of several types: nothing, a node by the name in front, else the first that is like it."""
    if data is None and type(None) in kinds:
        return None
    if set(kinds) >= set(NODES.values()):
        name, *rest = _listed(data) or [""]
        return _value(NODES[name], rest, depth) if name in NODES else _fail(data)
    likely = [kind for kind in kinds if kind is not type(None) and isinstance(data, str) == (kind is str)]
    return _read(likely[0], data, depth) if likely else _fail(data)


def _simple(kind: type, data: Any) -> Any:
    if kind is float and isinstance(data, int) and not isinstance(data, bool):
        return float(data)
    if type(data) is not kind or (isinstance(data, str) and (len(data) > _LONGEST or held(data))):
        _fail(data)
    return data


def _listed(data: Any) -> list[Any]:
    return data if isinstance(data, list) else _fail(data)


def _mapped(data: Any) -> dict[str, Any]:
    return data if isinstance(data, dict) else _fail(data)


def _fail(data: Any) -> Any:
    raise UnreadableError(f"{type(data).__name__} where something else is wanted")
