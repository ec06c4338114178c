"""Symbols spelled out, for screen readers and for terminals that cannot draw them."""

from __future__ import annotations

import re

from quizzer.expression.showing import GREEK
from quizzer.units import UNITS

_BEFORE_A_LETTER = r"(?=[^\W\d_])"
# Only units with a sign outside ASCII need spelling; longest first, so that mΩ/m is not read as m and Ω/m.
_UNITS = sorted(
    ((unit.shown, unit.spoken) for unit in UNITS.values() if not unit.shown.isascii()),
    key=lambda pair: -len(pair[0]),
)
_SIGNS = {
    "⁻¹": " inverse",
    "×": " times ",
    "÷": " divided by ",
    "√": "square root of ",
    "²": " squared",
    "³": " cubed",
    "⁴": " to the fourth",
    "π": "pi",
    "–": "-",
    "—": "-",
    "“": '"',
    "”": '"',
    "’": "'",
    "‘": "'",
    "…": "...",
    "≤": " at most ",
    "≥": " at least ",
    "→": " to ",
    "±": " plus or minus ",
    "−": "-",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "·": ",",
    "Ω": " ohms",
    "µ": "micro",
    "°": " degrees",
    "Δ": "delta ",
    "δ": "delta",
    "∥": " parallel to ",
    "∞": "infinity",
    "₂": "2",
    "₁": "1",
}
_SIGNS |= {letter: name for name, letter in GREEK.items() if letter not in _SIGNS}


def spelled(text: str) -> str:
    """The text in ASCII words.

    >>> spelled("0.94 Ω at 2.5 mm²"), spelled("19.51 mΩ/m × 25 m")
    ('0.94 ohms at 2.5 square millimetres', '19.51 milliohms per metre times 25 m')
    >>> spelled("0.94 Ω more"), spelled("I²R")
    ('0.94 ohms more', 'I squared R')
    """
    if text.isascii():
        return text
    for shown, spoken in _UNITS:
        if shown in text:  # "Ω m" does not end where a letter follows, as in "2 Ω more"
            text = re.sub(f"{re.escape(shown)}(?!{_BEFORE_A_LETTER})", f" {spoken}", text)
    text = re.sub(f"([²³⁴]){_BEFORE_A_LETTER}", r"\1 ", text)
    for sign, word in _SIGNS.items():
        text = text.replace(sign, word)
    # What is left (a name with an accent, say) keeps its letters: only unknown signs are dropped.
    return re.sub(r"(?<=\S) {2,}", " ", text).replace(" ,", ",")
