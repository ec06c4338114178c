"""The few distributions that intervals and chances are read from, written out so that no heavy library is opened."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import asin, comb, cos, erf, exp, inf, lgamma, log, log1p, pi, sin, sqrt

_TINY = 1e-300
_ROUNDS = 400
_HALVINGS = 200
_NEAR = 1e-8  # of the last step; what is left after it is its square
_PANELS = 400  # of Simpson's rule; the integrands are smooth


def normal_below(z: float) -> float:
    """The chance that a standard normal value is below `z`.

    >>> round(normal_below(1.96), 4)
    0.975
    """
    return 0.5 * (1 + erf(z / sqrt(2)))


def both_below(h: float, k: float, r: float) -> float:
    """The chance that two standard normal values of correlation `r` are below `h` and `k`.

    Source: Drezner and Wesolowsky, J. Statist. Comput. Simul. 35 (1990) 101, from memory.

    >>> round(both_below(0, 0, 0.5), 4)
    0.3333
    """

    def slope(angle: float) -> float:
        return exp(-(h * h - 2 * h * k * sin(angle) + k * k) / (2 * cos(angle) ** 2))

    return normal_below(h) * normal_below(k) + _simpson(slope, asin(r)) / (2 * pi)


def beta_below(x: float, a: float, b: float) -> float:
    """The chance that a beta(a, b) share is below `x`: the regularised incomplete beta function.

    By its continued fraction (Numerical Recipes, 3rd edition, 6.4; method only).

    >>> round(beta_below(0.5, 2, 2), 6)
    0.5
    """
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    if x > (a + 1) / (a + b + 2):  # the fraction converges quickly on the other side only
        return 1 - beta_below(1 - x, b, a)
    return exp(a * log(x) + b * log1p(-x) - log_beta(a, b)) * _fraction(x, a, b) / a


def beta_value(share: float, a: float, b: float) -> float:
    """The value that a beta(a, b) share stays below with the chance `share`, by Newton's steps kept between bounds.

    >>> round(beta_value(0.95, 8, 2), 4)
    0.959
    """
    low, high, mean = 0.0, 1.0, a / (a + b)
    # As if it were normal, whose inverse the logistic curve comes near to.
    near = mean + sqrt(mean * (1 - mean) / (a + b + 1)) * log(share / (1 - share)) / 1.7
    x = near if low < near < high else mean
    for _ in range(_HALVINGS):
        over = beta_below(x, a, b) - share
        low, high = (low, x) if over > 0 else (x, high)
        slope = exp((a - 1) * log(x) + (b - 1) * log1p(-x) - log_beta(a, b))
        step = over / slope if slope > _TINY else inf
        before, x = x, x - step if low < x - step < high else (low + high) / 2
        if abs(x - before) < _NEAR:
            break
    return x


def log_beta(a: float, b: float) -> float:
    """The logarithm of the beta function."""
    return lgamma(a) + lgamma(b) - lgamma(a + b)


@lru_cache(maxsize=4096)
def log_ways(n: int, k: int) -> float:
    """The logarithm of the number of ways to take `k` of `n`."""
    return lgamma(n + 1) - lgamma(k + 1) - lgamma(n - k + 1)


def f_value(share: float, over: float, under: float) -> float:
    """The value that an F ratio with these degrees of freedom stays below with chance `share`.

    >>> round(f_value(0.95, 3, 10), 4)
    3.7083
    """
    x = _solved(lambda x: beta_below(x, over / 2, under / 2), share)
    return inf if x >= 1 else under * x / (over * (1 - x))


def t_value(share: float, freedom: float) -> float:
    """The value that Student's t stays below with chance `share` (at least a half).

    >>> round(t_value(0.975, 10), 4)
    2.2281
    """
    return sqrt(f_value(2 * share - 1, 1, freedom))


def binomial_at_least(k: int, n: int, p: float) -> float:
    """The chance of `k` or more right of `n`, each with chance `p`."""
    return 1.0 if k <= 0 else beta_below(p, k, n - k + 1) if k <= n else 0.0


def drawn_at_most(k: int, n: int, right: int, whole: int) -> float:
    """The chance that `n` questions drawn from `whole`, of which `right` are right, hold at most `k` right ones.

    >>> round(drawn_at_most(0, 2, 3, 6), 2)
    0.2
    """
    ways = sum(comb(right, j) * comb(whole - right, n - j) for j in range(min(k, n) + 1))
    return ways / comb(whole, n)


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction of the incomplete beta function, by Lentz's method."""
    c, d = 1.0, 1 / _kept(1 - (a + b) * x / (a + 1))
    found = d
    for m in range(1, _ROUNDS):
        at = a + 2 * m
        for term in (m * (b - m) * x / ((at - 1) * at), -(a + m) * (a + b + m) * x / (at * (at + 1))):
            d, c = 1 + term * d, 1 + term / c
            if not (abs(d) > _TINY < abs(c)):  # as seldom as never
                d, c = _kept(d), _kept(c)
            d = 1 / d
            found *= d * c
        if abs(d * c - 1) < 1e-15:
            break
    return found


def _kept(value: float) -> float:
    return value if abs(value) > _TINY else _TINY


def _solved(below: Callable[[float], float], share: float) -> float:
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if below(middle) < share else (low, middle)
        if high - low <= 1e-16:
            break
    return (low + high) / 2


def _simpson(slope: Callable[[float], float], end: float) -> float:
    step = end / _PANELS
    inside = sum((4 if at % 2 else 2) * slope(at * step) for at in range(1, _PANELS))
    return step / 3 * (slope(0.0) + inside + slope(end))
