"""A printed line of figures keyed into a calculator: numbers, operators, functions and per cent, nothing else.

It knows nothing of templates, formulas or factors between units: a unit is a word, and words are left out.
"""

import math
import re
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal

from quizzer.units import UNITS

_FACTORS = ("s/min", "min/h", "s/h", "h/day", "min/day")
_UNITS = sorted({unit.shown for unit in UNITS.values()} - {"", "%", "%/K"} | set(_FACTORS), key=len, reverse=True)
_UNIT = re.compile(r"(?<=[\d)]) ?(?:" + "|".join(map(re.escape, _UNITS)) + r")(?![\w/²Ω])")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+(?:\.\d+)?)|(?P<raised>[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)|(?P<sign>[-+×÷^(),|√π%])"
    r"|(?P<name>(?:sin|cos|tan)(?:⁻¹)?|ln|e(?=\^)|round(?: up| down)?|the (?:smaller|smallest|greater|greatest) of))"
)
_FUNCTIONS = {
    "sin": lambda x: math.sin(math.radians(x)),
    "cos": lambda x: math.cos(math.radians(x)),
    "tan": lambda x: math.tan(math.radians(x)),
    "sin⁻¹": lambda x: math.degrees(math.asin(x)),
    "cos⁻¹": lambda x: math.degrees(math.acos(x)),
    "tan⁻¹": lambda x: math.degrees(math.atan(x)),
    "ln": math.log,
    "round": lambda x: float(math.floor(x + 0.5)),
    "round up": lambda x: float(math.ceil(x - 1e-9 * max(1.0, abs(x)))),
    "round down": lambda x: float(math.floor(x + 1e-9 * max(1.0, abs(x)))),
    "the smaller of": min,
    "the smallest of": min,
    "the greater of": max,
    "the greatest of": max,
}
_CONSTANTS = {"e": math.e, "π": math.pi}


def keyed(line):
    """The value of a printed line. Raises ValueError where a sign is no key of a calculator."""
    reading = _Reading(_UNIT.sub("", line.replace("%/K", "%")))
    value = reading.sum()
    if reading.tokens:
        raise ValueError(f"{line!r}: {reading.tokens[0]} cannot be keyed in")
    return value


_WAYS = {"nearest": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}


def gives(line, result, way="nearest"):
    """Whether the line gives the result as it is printed, to its last digit; a limit goes to its safe side."""
    digits = re.match(r"-?[\d.]+", result)[0]
    value = keyed(line) * (100 if "%" in result else 1)
    shown, found = Decimal(digits), Context(prec=13).create_decimal(repr(float(value)))
    # Zeros at the end of a whole number may stand for figures that are not shown: 15700 of 15696.
    zeros = 0 if "." in digits else len(digits) - len(digits.rstrip("0"))
    lasts = [Decimal(1).scaleb(shown.as_tuple().exponent + more) for more in range(zeros + 1)]
    return any(found.quantize(last, rounding=_WAYS[way]) == shown for last in lasts)


class _Reading:
    def __init__(self, text):
        self.tokens, at = [], 0
        text = text.strip()
        while at < len(text):
            found = _TOKEN.match(text, at)
            if not found:
                raise ValueError(f"{text!r}: {text[at:]!r} cannot be keyed in")
            self.tokens.append((found.lastgroup, found[found.lastgroup]))
            at = found.end()

    def take(self, *signs):
        """The next token where it is one of these signs."""
        if self.tokens and self.tokens[0][1] in signs:
            return self.tokens.pop(0)[1]
        return None

    def sum(self):
        value = self.product()
        while sign := self.take("+", "-"):
            value = value + self.product() if sign == "+" else value - self.product()
        return value

    def product(self):
        value = self.signed()
        while sign := self.take("×", "÷"):
            value = value * self.signed() if sign == "×" else value / self.signed()
        return value

    def signed(self):
        return -self.signed() if self.take("-") else self.power()

    def power(self):
        value = self.atom()
        while self.take("%"):
            value /= 100
        if self.tokens and self.tokens[0][0] == "raised":
            return value ** int(self.tokens.pop(0)[1].translate(_RAISED))
        return value ** self.signed() if self.take("^") else value

    def atom(self):
        kind, text = self.tokens.pop(0) if self.tokens else ("end", "")
        if kind == "number":
            return float(text)
        if kind == "name" and text != "e":
            return _FUNCTIONS[text](*self.bracket())
        if text in _CONSTANTS:
            return _CONSTANTS[text]
        if text == "√":
            return math.sqrt(self.atom())
        if text not in ("(", "|"):
            raise ValueError(f"{text!r} stands where a number is wanted")
        value = self.sum()
        assert self.take(")" if text == "(" else "|")
        return abs(value) if text == "|" else value

    def bracket(self):
        assert self.take("(")
        values = [self.sum()]
        while self.take(","):
            values.append(self.sum())
        assert self.take(")")
        return values
