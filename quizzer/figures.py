"""Numbers as they are written: rounded half up, for the eye only."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Context, Decimal
from typing import NamedTuple

# 13 significant digits take the noise of binary sums away (0.1 + 0.2) before a half is judged.
_CLEAN = Context(prec=13)
_WIDE = Context(prec=40, rounding=ROUND_HALF_UP)
_PLACES = tuple(Decimal(1).scaleb(-n) for n in range(19))


class Rounding(NamedTuple):
    """How a quantity is written: to so many decimal places, or else to so many significant figures."""

    places: int | None = None
    digits: int = 3

    def write(self, x: float) -> str:
        """The text of `x`, half up.

        >>> Rounding(places=2).write(0.125), Rounding(digits=3).write(9.996)
        ('0.13', '10.0')
        """
        return decimals(x, self.places) if self.places is not None else figures(x, self.digits)

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


def decimals(x: float, places: int) -> str:
    """`x` to `places` decimals.

    >>> decimals(2.675, 2), decimals(0.1 + 0.2, 1), decimals(-0.001, 2)
    ('2.68', '0.3', '0.00')
    """
    rounded = _CLEAN.create_decimal(repr(x)).quantize(_PLACES[places], context=_WIDE)
    return f"{rounded or abs(rounded):f}"  # never -0.00


def figures(x: float, digits: int) -> str:
    """`x` to `digits` significant figures.

    >>> figures(0.098765, 3), figures(1234.5, 3), figures(9.996, 3), figures(0.0, 3)
    ('0.0988', '1230', '10.0', '0')
    """
    if x == 0:
        return "0"
    exponent = _exponent(x)
    rounded = _CLEAN.create_decimal(repr(x)).quantize(Decimal(1).scaleb(exponent - digits + 1), context=_WIDE)
    if rounded.adjusted() > exponent:  # 9.996 became 10.00: one decimal fewer keeps three figures
        rounded = rounded.quantize(Decimal(1).scaleb(exponent - digits + 2), context=_WIDE)
    return f"{rounded:f}"


def as_given(x: float) -> str:
    """`x` with no more digits than it needs: how a drawn or authored value is shown.

    >>> as_given(2.5), as_given(32.0), as_given(0.1 + 0.2), as_given(1.72e-08)
    ('2.5', '32', '0.3', '0.0000000172')
    """
    return f"{_CLEAN.create_decimal(repr(x)).normalize():f}"


def _exponent(x: float) -> int:
    return _CLEAN.create_decimal(repr(x)).adjusted() if x else 0
