"""Numbers as they are written: rounded half up, for the eye only."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal

from quizzer.values import NamedTuple

# 13 significant digits take the noise of binary sums away (0.1 + 0.2) before a half is judged.
_CLEAN = Context(prec=13)
_WAYS = {
    way: Context(prec=40, rounding=name)
    for way, name in (("nearest", ROUND_HALF_UP), ("up", ROUND_CEILING), ("down", ROUND_FLOOR))
}
_PLACES = tuple(Decimal(1).scaleb(-n) for n in range(19))


class Rounding(NamedTuple):
    """How a quantity is written: to so many decimal places, or else to so many significant figures.

    `way` is nearest, or up or down for a limit that has to stay on its safe side.
    """

    places: int | None = None
    digits: int = 3
    way: str = "nearest"

    def write(self, x: float) -> str:
        """The text of `x`, half up or to the safe side.

        >>> Rounding(places=2).write(0.125), Rounding(digits=3).write(9.996), Rounding(places=1, way="down").write(2.58)
        ('0.13', '10.0', '2.5')
        """
        if self.places is not None:
            return decimals(x, self.places, self.way)
        return figures(x, self.digits, self.way)

    @property
    def words(self) -> str:
        """How many figures that is.

        >>> Rounding(places=2).words, Rounding(digits=3).words, Rounding(places=0, way="up").words
        ('to two decimal places', 'to three significant figures', 'rounded up to a whole number')
        """
        way = "" if self.way == "nearest" else f"rounded {self.way} "
        if self.places is None:
            return f"{way}to {_count(self.digits, 'significant figure')}"
        return f"{way}to {_count(self.places, 'decimal place') if self.places else 'a whole number'}"

    def wider(self, by: int) -> Rounding:
        """The same with so many digits more."""
        if self.places is not None:
            return self._replace(places=self.places + by)
        return self._replace(digits=self.digits + by)

    def last_place(self, x: float) -> float:
        """One unit in the last place of the text of `x`.

        >>> Rounding(places=2).last_place(41.3), Rounding(digits=3).last_place(1234.0)
        (0.01, 10.0)
        """
        if self.places is not None:
            return float(10.0**-self.places)
        return float(10.0 ** (_exponent(x) - self.digits + 1))


def decimals(x: float, places: int, way: str = "nearest") -> str:
    """`x` to `places` decimals.

    >>> decimals(2.675, 2), decimals(0.1 + 0.2, 1), decimals(-0.001, 2)
    ('2.68', '0.3', '0.00')
    """
    rounded = _CLEAN.create_decimal(repr(x)).quantize(_PLACES[places], context=_WAYS[way])
    return f"{rounded or abs(rounded):f}"  # never -0.00


def figures(x: float, digits: int, way: str = "nearest") -> str:
    """`x` to `digits` significant figures.

    >>> figures(0.098765, 3), figures(1234.5, 3), figures(9.996, 3), figures(0.0, 3)
    ('0.0988', '1230', '10.0', '0')
    """
    if x == 0:
        return "0"
    clean = _CLEAN.create_decimal(repr(x))
    exponent = clean.adjusted()
    rounded = clean.quantize(Decimal(1).scaleb(exponent - digits + 1), context=_WAYS[way])
    if rounded.adjusted() > exponent:  # 9.996 became 10.00: one decimal fewer keeps three figures
        rounded = rounded.quantize(Decimal(1).scaleb(exponent - digits + 2), context=_WAYS[way])
    return f"{rounded:f}"


def as_given(x: float) -> str:
    """`x` with no more digits than it needs: how a drawn or authored value is shown.

    >>> as_given(2.5), as_given(32.0), as_given(0.1 + 0.2), as_given(1.72e-08)
    ('2.5', '32', '0.3', '0.0000000172')
    """
    return f"{_CLEAN.create_decimal(repr(x)).normalize():f}"


def _count(n: int, noun: str) -> str:
    words = ("no", "one", "two", "three", "four", "five", "six")
    return f"{words[n] if n < len(words) else n} {noun}{'' if n == 1 else 's'}"


def _exponent(x: float) -> int:
    return _CLEAN.create_decimal(repr(x)).adjusted() if x else 0
