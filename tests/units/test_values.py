"""Named tuples of our own behave as typing's do: the same class body under either base."""

from __future__ import annotations

import typing
from typing import Any, get_type_hints

import pytest

from quizzer.values import NamedTuple

BODY = '''
class Reading({base}):
    """What was read."""

    ohms: float
    unit: str = "Ω"

    @property
    def text(self) -> str:
        """The reading with its unit."""
        return f"{{self.ohms}} {{self.unit}}"

    @classmethod
    def zero(cls) -> Reading:
        """Nothing read."""
        return cls(0.0)


class Nothing({base}):
    """No field at all."""
'''


def defined(base: type) -> Any:
    """The classes of the body, on this base."""
    space: dict[str, Any] = {"Base": base, "__name__": __name__}
    exec(compile("from __future__ import annotations\n" + BODY.format(base="Base"), "<body>", "exec"), space)  # noqa: S102
    return space


@pytest.mark.parametrize("base", [typing.NamedTuple, NamedTuple])
def test_a_value_is_a_tuple_with_names_defaults_and_methods(base: type) -> None:
    space = defined(base)
    kind, nothing = space["Reading"], space["Nothing"]
    one = kind(0.4)
    assert one == (0.4, "Ω")
    assert repr(one._replace(ohms=2.0)) == "Reading(ohms=2.0, unit='Ω')"
    assert (one.text, kind.zero().text) == ("0.4 Ω", "0.0 Ω")
    assert (kind._fields, kind._field_defaults, kind.__match_args__) == (
        ("ohms", "unit"),
        {"unit": "Ω"},
        ("ohms", "unit"),
    )
    assert (kind.__doc__, kind.__module__) == ("What was read.", __name__)
    assert get_type_hints(kind) == {"ohms": float, "unit": str}
    assert (nothing(), nothing._fields) == ((), ())
    with pytest.raises(AttributeError):
        one.ohms = 1.0
    with pytest.raises(AttributeError):
        one.other = 1.0
