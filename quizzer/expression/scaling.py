"""The conversion factors that a formula needs once its names stand for figures in their own units.

Inside, values are in SI and no author writes a factor of 1000. On paper the same line is keyed in with the figures as
they are printed, so the factor has to be printed too: it follows from the units alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import isclose, pi, sqrt
from typing import TYPE_CHECKING, assert_never

from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num

if TYPE_CHECKING:
    from fractions import Fraction

DEGREE = pi / 180
_LARGEST = 10_000  # of a factor written out; what is larger is a power of ten, or thousands one after the other
_FORWARD, _BACK = ("sin", "cos", "tan"), ("asin", "acos", "atan")

Label = Callable[[int], str]
LookUps = Mapping[str, tuple[float, float]]  # by name: the factor of what it takes and of what it gives


class Unprintable(ArithmeticError):
    """A factor between two units that no short line of whole numbers can show."""


def scaled(node: Node, factors: Mapping[str, float], want: float, label: Label = str, lookups: LookUps = {}) -> Node:  # noqa: B006  never changed
    """The tree with factors put in, so that figures in units of `factors` give the result in the unit `want`.

    `label` writes a factor (60 as "60 s/min"). Raises Unprintable where there is no such factor.

    >>> from quizzer.expression.reading import read
    >>> from quizzer.expression.showing import PLAIN, show
    >>> show(scaled(read("Z_e + r * L * F"), {"Z_e": 1, "r": 1e-3, "L": 1, "F": 1}, 1), PLAIN)
    'Z_e + r * L * F / 1000'
    """
    return _Scaling(factors, label, lookups).to(node, want)


class _Scaling:
    def __init__(self, factors: Mapping[str, float], label: Label, lookups: LookUps) -> None:
        self.factors, self.label, self.lookups = factors, label, lookups

    def to(self, node: Node, want: float) -> Node:
        """The node in the unit wanted."""
        found, scale = self.of(node, want)
        return self._times(found, scale / want)

    def of(self, node: Node, want: float | None = None) -> tuple[Node, float]:  # noqa: PLR0911  one case a kind of node
        """The node and the factor its figures still lack; `want` is heeded where terms have to agree anyway."""
        match node:
            case Num():
                return node, 1.0
            case Name(name=name):
                return node, self.factors.get(name, 1.0)
            case Neg(arg=arg):
                found, scale = self.of(arg, want)
                return Neg(found), scale
            case Bin(op="**", left=left, right=right):
                return self._power(left, right)
            case Bin(op="*" | "/" as op, left=left, right=right):
                (first, one), (second, other) = self.of(left), self.of(right)
                return Bin(op, first, second), one * other if op == "*" else one / other
            case Bin(op=op, left=left, right=right):
                (first, second), scale = self._agreed((left, right), want)
                return Bin(op, first, second), scale
            case Call(fn=fn, args=args):
                return self._call(fn, args, want)
        assert_never(node)

    def _agreed(self, nodes: tuple[Node, ...], want: float | None) -> tuple[tuple[Node, ...], float]:
        """Terms brought to one unit: their own if they have one, else the one wanted, else SI."""
        found = [self.of(each, want) for each in nodes]
        scales = [scale for _, scale in found]
        if all(isclose(scale, scales[0], rel_tol=1e-9) for scale in scales):
            return tuple(each for each, _ in found), scales[0]
        common = want if want is not None else 1.0 if 1.0 in scales else scales[0]
        return tuple(self._times(each, scale / common) for each, scale in found), common

    def _power(self, left: Node, right: Node) -> tuple[Node, float]:
        base, scale = self.of(left)
        if isinstance(right, Num) and _ratio(scale**right.value) is not None:
            return Bin("**", base, right), float(scale**right.value)
        return Bin("**", self.to(left, 1.0), self.to(right, 1.0)), 1.0

    def _call(self, fn: str, args: tuple[Node, ...], want: float | None) -> tuple[Node, float]:
        if fn in self.lookups:
            by, give = self.lookups[fn]
            return Call(fn, tuple(self.to(arg, by) for arg in args)), give
        if fn in ("min", "max", "abs"):
            same, scale = self._agreed(args, want)
            return Call(fn, same), scale
        if fn == "sqrt":
            found, scale = self.of(args[0], want and want**2)
            if _ratio(sqrt(scale)) is not None:
                return Call(fn, (found,)), sqrt(scale)
        inside = DEGREE if fn in _FORWARD else 1.0
        return Call(fn, tuple(self.to(arg, inside) for arg in args)), DEGREE if fn in _BACK else 1.0

    def _times(self, node: Node, ratio: float) -> Node:
        if ratio == 1:
            return node
        found = _ratio(ratio)
        if found is None:
            raise Unprintable(f"no factor can be printed for {ratio:g}")
        for op, number in (("*", found.numerator), ("/", found.denominator)):
            for factor in _written(number):
                node = Bin(op, node, self._factor(factor))
        return node

    def _factor(self, number: int) -> Node:
        zeros = len(str(number)) - 1
        if number > _LARGEST and number == 10**zeros:
            return Bin("**", Num("10"), Num(str(zeros)))
        return Num(self.label(number))


def _ratio(ratio: float) -> Fraction | None:
    """The ratio as a fraction of whole numbers with a small one below or above; None where there is none."""
    from fractions import Fraction  # here, not above: most lines need no factor

    small = ratio < 1
    found = Fraction(1 / ratio if small else ratio).limit_denominator(_LARGEST)
    if not isclose(float(found), 1 / ratio if small else ratio, rel_tol=1e-9):
        return None
    return 1 / found if small else found


def _written(number: int) -> list[int]:
    """A factor as the numbers that are printed: none for 1, thousands apart where it is long and no power of ten."""
    factors = []
    while number > _LARGEST and number % 1000 == 0 and number != 10 ** (len(str(number)) - 1):
        factors.append(1000)
        number //= 1000
    return [*factors, number] if number > 1 else factors
