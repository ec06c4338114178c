"""A formula as it is keyed into a calculator: its figures in the units they are printed in, the factors written out.

That depends on the entry alone, so it is made once with it and not with every draw.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.bank.tables import LookUp
from quizzer.bank.wording import Wording, wording
from quizzer.expression.evaluation import Compiled, compiled
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.scaling import DEGREE, scaled
from quizzer.expression.showing import FIGURES, show
from quizzer.expression.tree import Bin, Node, Num, called, names, walk
from quizzer.units import Unit
from quizzer.values import NamedTuple

_Key = Callable[[float], float]

PERCENT = 0.01
_UNPRINTABLE = (ArithmeticError, ValueError)  # no factor that can be printed, or none at all
_HOURS = {60: ("min/h", {"h", "min"}), 3600: ("s/h", {"h"}), 24: ("h/day", {"day"}), 1440: ("min/day", {"day", "min"})}


class Keyed(NamedTuple):
    """The formula of a step with the factors between its units in it.

    `uses` are its quantities, each with what a figure of it is multiplied by when it is read (.01 of a percentage);
    `run` works it on such figures and gives the result times `scale`; `line` has holes for the figures, and is None
    where brackets depend on them.
    """

    tree: Node
    uses: tuple[tuple[str, float], ...]
    run: Compiled
    scale: float
    line: Wording | None


def keyed(tree: Node, unit: Unit, units: Mapping[str, Unit], lookups: Mapping[str, LookUp], *, plain: bool) -> Keyed:
    """The formula `tree` of a quantity in `unit` as it is keyed in; a `plain` one is, as it stands."""
    used = {name: units[name] for name in sorted(names(tree))}
    whole = tree if plain else _with_factors(tree, unit, used, lookups)
    read = tuple((name, 1.0 if plain else _read_as(each)) for name, each in used.items())
    scale = 1.0 if plain else _read_as(unit)
    return Keyed(
        whole,
        read,
        compiled(whole, _KEYS | {name: _cell(found) for name, found in lookups.items()}),
        scale,
        _line(whole),
    )


def _with_factors(tree: Node, unit: Unit, used: Mapping[str, Unit], lookups: Mapping[str, LookUp]) -> Node:
    """The tree with the factors between its units; as it is where no line of whole numbers shows them."""
    # A figure with % behind it is read as hundredths, so only the rest of its unit is left to convert.
    factors = {name: each.factor / _read_as(each) for name, each in used.items()}
    columns = {name: (found.by.factor, found.give.factor) for name, found in lookups.items()}
    # 5 % of a voltage stays as it is; a ratio that is wanted in % is multiplied by 100 %.
    ratio = unit.word == "percent" and not any(each.word.startswith("percent") for each in used.values())
    words = {word for each in (*used.values(), unit) for word in each.word.split("/")}
    try:
        found = scaled(tree, factors, unit.factor / _read_as(unit), lambda number: _labelled(number, words), columns)
    except _UNPRINTABLE:
        return tree
    return Bin("*", found, Num("100 %")) if ratio else found


def _read_as(unit: Unit) -> float:
    return PERCENT if unit.word.startswith("percent") else 1.0


def _labelled(number: int, words: set[str]) -> str:
    """A factor between units of time with its unit, any other one bare."""
    for factor, (label, needs) in _HOURS.items():
        if number == factor and needs <= words:
            return f"{number} {label}"
    return f"{number} s/min" if number == 60 and "min" in words else str(number)


def _cell(found: LookUp) -> _Key:
    return lambda x: found.find(x * found.by.factor) / found.give.factor


def _of_degrees(of: _Key) -> _Key:
    return lambda x: of(x * DEGREE)


def _to_degrees(of: _Key) -> _Key:
    return lambda x: of(x) / DEGREE


# A calculator takes and gives degrees.
_KEYS: dict[str, _Key] = {
    **{fn: _of_degrees(FUNCTIONS[fn]) for fn in ("sin", "cos", "tan")},
    **{fn: _to_degrees(FUNCTIONS[fn]) for fn in ("asin", "acos", "atan")},
}


def _line(tree: Node) -> Wording | None:
    # Under a power and a root a figure has brackets or not, by whether it has a unit.
    bent = "sqrt" in called(tree) or any(isinstance(part, Bin) and part.op == "**" for part in walk(tree))
    return None if bent else wording(show(tree, FIGURES))
