"""The closed list of functions of the language.

Each works on bare floats in SI. Sources: the functions of any calculator; `round` goes half up, as taught in the
trade, where Python's own rounds half to even.
"""

from __future__ import annotations

import math
from collections.abc import Callable

Function = Callable[..., float]


def _half_up(x: float) -> float:
    """The nearest whole number, a half going up."""
    return float(math.floor(x + 0.5))


def _ceil(x: float) -> float:
    """The next whole number up. A sum that is a whole number but for binary noise stays where it is."""
    return float(math.ceil(x - 1e-9 * max(1.0, abs(x))))


def _floor(x: float) -> float:
    """The next whole number down, with the same care for binary noise."""
    return float(math.floor(x + 1e-9 * max(1.0, abs(x))))


FUNCTIONS: dict[str, Function] = {
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "abs": abs,
    "ceil": _ceil,
    "floor": _floor,
    "round": _half_up,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "acos": math.acos,
    "atan": math.atan,
    "log": math.log,
    "exp": math.exp,
}

_MANY = 12
ARITY: dict[str, tuple[int, int]] = {name: (2, _MANY) if name in ("min", "max") else (1, 1) for name in FUNCTIONS}
