"""The rows of quizzer/units.py, made and checked with the library of units."""

from __future__ import annotations

import re
import sys
from itertools import combinations

from quizzer.lint.dimensions import registry
from quizzer.units import UNITS, Unit, alike

AGREE = 1e-12
_ATOM = re.compile(r"(?P<name>[A-Za-z]+)(?P<power>\d+(?:\.\d+)?)?")
_PREFIX = {"n": "nano", "u": "micro", "m": "milli", "c": "centi", "k": "kilo", "M": "mega", "G": "giga"}
_SHOWN_PREFIX = {"u": "µ"}
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_SPOKEN_POWER = {"2": "square ", "3": "cubic "}


class NoRowError(ValueError):
    """The word cannot be taken apart; `str()` says why and what to write."""


def row_of(word: str, peer: str = "") -> Unit:
    """The row of a unit word such as kW/m2; `peer` is the library's spelling where it cannot be made from the table.

    Raises NoRowError for a word whose parts are not known.
    """
    if peer:
        return Unit(word, factor_of(peer), word, word, peer)
    if word in UNITS:
        return UNITS[word]._replace(factor=factor_of(UNITS[word].peer))
    above, *below = word.split("/")
    over = [_part(atom) for atom in above.split("*") if atom != "1"]
    under = [_part(atom) for group in below for atom in group.split("*")]
    spelled = (" * ".join(part.peer for part in over) or "1") + "".join(f" / {_bracketed(part.peer)}" for part in under)
    shown = " ".join(part.shown for part in over) + "".join(f"/{part.shown}" for part in under)
    names = [*(_singular(part.spoken) for part in over[:-1]), *(part.spoken for part in over[-1:])]
    spoken = " ".join([*names, *(f"per {_singular(part.spoken)}" for part in under)])
    return Unit(word, factor_of(spelled), shown, spoken, spelled)


def _bracketed(peer: str) -> str:
    return f"({peer})" if " * " in peer or " / " in peer else peer


def _part(atom: str) -> Unit:
    """One word of a compound: of the table, or of the table with a power or a prefix."""
    if atom in UNITS:
        return UNITS[atom]
    found = _ATOM.fullmatch(atom)
    if found and found["power"]:
        return _raised(_part(found["name"]), found["power"])
    base = UNITS.get(atom[1:])
    # Only a word that the library spells as one, without a prefix of its own, can take a prefix.
    if base and atom[0] in _PREFIX and base.peer.isalpha() and not base.peer.startswith(tuple(_PREFIX.values())):
        name, sign = _PREFIX[atom[0]], _SHOWN_PREFIX.get(atom[0], atom[0])
        return base._replace(peer=name + base.peer, shown=sign + base.shown, spoken=name + base.spoken)
    raise NoRowError(f"{atom!r} is no word of the table: write WORD=SPELLING, with the library's spelling of the whole")


def _raised(base: Unit, power: str) -> Unit:
    named = _SPOKEN_POWER.get(power, "") + base.spoken
    spoken = named if power in _SPOKEN_POWER else f"{base.spoken} to the power {power}"
    return base._replace(peer=f"{base.peer} ** {power}", shown=base.shown + power.translate(_RAISED), spoken=spoken)


def _singular(spoken: str) -> str:
    if spoken.endswith("ies"):
        return spoken.removesuffix("ies") + "y"
    return spoken if spoken in ("lux", "hertz", "degrees Celsius") else spoken.removesuffix("s")


def factor_of(peer: str) -> float:
    """The factor to SI of a unit in the library's spelling."""
    library = registry()
    return float(library.Quantity(1.0, library.parse_units(peer)).to_base_units().magnitude)


def written(row: Unit) -> str:
    """The row as it stands in the table."""
    return f'("{row.word}", {row.factor:g}, "{row.shown}", "{row.spoken}", "{row.peer}"),'


def faults() -> list[str]:
    """Every disagreement of the table with the library."""
    library = registry()
    found = [
        f"{row.word}: {row.factor:g} in the table, {factor:.12g} by the library"
        for row in UNITS.values()
        if abs((factor := factor_of(row.peer)) - row.factor) > AGREE * abs(row.factor)
    ]
    kinds = {row.word: library.parse_units(row.peer).dimensionality for row in UNITS.values()}
    unlike = [
        f"{one.word} and {other.word} are not alike"
        for one, other in combinations(UNITS.values(), 2)
        if alike(one, other) and kinds[one.word] != kinds[other.word]
    ]
    return found + unlike


def main(arguments: list[str]) -> int:
    """Print the rows asked for and every disagreement; 1 when there is one, 2 for a word that cannot be read."""
    try:
        for argument in arguments:
            word, _, peer = argument.partition("=")
            print(written(row_of(word, peer)))
    except (NoRowError, AttributeError) as error:  # the library's error for an unknown unit is an AttributeError
        print(f"{argument}: {error}", file=sys.stderr)
        return 2
    found = faults()
    print("\n".join(found) if found else f"{len(UNITS)} unit words agree with the library of units")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
