"""Symbols in running text: `Z_s` as a letter with its subscript, or as the trade types it."""

from __future__ import annotations

import re
from collections.abc import Callable

# What stands between backticks is typed as it stands, and names of people and files keep their underscores: a symbol is
# one letter with a short subscript. `cos_φ` is a function of an angle, no letter with a subscript.
_SYMBOL = re.compile(
    r"`[^`]*`|(?<![\w./-])(?:cos_(?P<angle>φ)"
    r"|(?P<base>[A-ZΑ-Ωk](?=_\w{1,5}(?![A-Za-z_]))|[a-zα-ω](?=_\w{1,4}(?![A-Za-z_]))|pf|drop)_(?P<sub>[A-Za-z0-9φΔ]+))"
    r"(?![\w/]*[_/]|\.\w)"
)


def subscripted(text: str, write: Callable[[str, str], str]) -> str:
    """The text with every symbol written by `write` from its letter and its subscript.

    >>> subscripted("take Z_s and R_1", lambda base, sub: f"{base}[{sub}]")
    'take Z[s] and R[1]'
    """

    def symbol(found: re.Match[str]) -> str:
        if found["angle"]:
            return f"cos {found['angle']}"
        return write(found["base"], found["sub"]) if found["base"] else found[0]

    return _SYMBOL.sub(symbol, text) if "_" in text else text


def attached(text: str) -> str:
    """The text with subscripts set close, as the trade types them.

    >>> attached("Z_s = Z_e + R_1, cos_φ; `show --given I_n=32`")
    'Zs = Ze + R1, cos φ; `show --given I_n=32`'
    """
    return subscripted(text, lambda base, sub: base + sub)
