"""Changes of a sound file that keep most of its structure: a token, a line, a value of JSON, some bytes."""

import json
import re
from collections.abc import Iterator
from random import Random
from typing import Any

TOKEN = re.compile(r'"(?:[^"\\\n]|\\.)*"|[+-]?\d+(?:\.\d+)?|[A-Za-z_]\w*|[\[\]{}=,#]')
ODD = (
    *("", "0", "-1", "1e999999", "1e-999999999", "-0.0", "inf", "nan", "9" * 400, "9" * 5000, "1e99999999999999999999"),
    *(
        "0xfff",
        "0b1",
        "1979-05-27T07:32:00Z",
        "07:32:00",
        "true",
        "[]",
        "{}",
        "[[]]",
        '""',
        '" "',
        '"x"',
        "'x'",
        "null",
    ),
    *(
        '"\\u001b[31m"',
        '"\\u202e"',
        '"\\ud800"',
        '"\\u0000"',
        '"../../x"',
        '"/dev/zero"',
        '"CON"',
        '"-"',
        '"=1+1"',
        '"é"',
    ),
    *(
        '"' + "x" * 300 + '"',
        '"' + "long words " * 3000 + '"',
        "[" * 300,
        "{" * 300,
        '"1 / 0"',
        '"exp(1e308)"',
        '"9**9**9"',
    ),
    *('"{I_n}"', '"{"', '"(((((((((("', '"x = y"', "= =", '"""', "\0", "\ufeff", "\r", "a.b.c", "\u2028"),
)
JSON_ODD = (
    None,
    True,
    -1,
    0,
    10**30,
    1.5,
    "",
    "x",
    "\x1b[31m",
    "\u202e",
    "../../x",
    "/x",
    "\ud800",
    "x" * 50_000,
    [],
    {},
    [[[]]],
    {"a": {}},
    1e308,
    "2026-45-45",
    "\0",
    ["x"] * 3,
)


def text_of(content: bytes, dice: Random) -> bytes:
    """A text with a few tokens or lines changed."""
    text = content.decode("utf-8", "replace")
    for _ in range(1 + int(dice.random() * dice.random() * 4)):
        text = _token(text, dice) if dice.random() < 0.7 else _line(text, dice)
    return text.encode("utf-8", "surrogatepass")


def json_of(content: bytes, dice: Random) -> bytes:
    """JSON with a value or two replaced, taken out or doubled."""
    value = json.loads(content)
    for _ in range(1 + int(dice.random() * 2)):
        holders = list(_holders(value))
        if holders:
            _change(holders[int(dice.random() * len(holders))], dice)
    return json.dumps(value).encode()


def bytes_of(content: bytes, dice: Random) -> bytes:
    """Bytes flipped in one page, cut off, or with something after them."""
    changed = bytearray(content)
    if not changed or dice.random() < 0.1:
        return bytes(changed[: int(dice.random() * len(changed))])
    pages = len(changed) / 4096
    page = int(dice.random() * (min(3, pages) if dice.random() < 0.5 else pages)) * 4096
    for _ in range(1 + int(dice.random() * 24)):
        at = min(page + int(dice.random() * 4096), len(changed) - 1)
        changed[at] ^= 1 + int(dice.random() * 255)
    return bytes(changed) + (b"\0junk" if dice.random() < 0.05 else b"")


def _token(text: str, dice: Random) -> str:
    found = list(TOKEN.finditer(text))
    if not found:
        return text + ODD[int(dice.random() * len(ODD))]
    one, other = (found[int(dice.random() * len(found))] for _ in range(2))
    new = other.group() if dice.random() < 0.2 else ODD[int(dice.random() * len(ODD))]
    return text[: one.start()] + new + text[one.end() :]


def _line(text: str, dice: Random) -> str:
    lines = text.splitlines(keepends=True) or [""]
    at, to = (int(dice.random() * len(lines)) for _ in range(2))
    what = dice.random()
    if what < 0.4:
        del lines[at]
    elif what < 0.7:
        lines.insert(to, lines[at])
    else:
        lines[at], lines[to] = lines[to], lines[at]
    return "".join(lines)


def _holders(value: Any) -> Iterator[Any]:
    """Every list and every object that has something in it."""
    if isinstance(value, (dict, list)) and value:
        yield value
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _holders(inner)


def _change(holder: Any, dice: Random) -> None:
    keys = list(holder) if isinstance(holder, dict) else range(len(holder))
    key = keys[int(dice.random() * len(keys))]
    what = dice.random()
    if what < 0.15:
        del holder[key]
    elif what < 0.3 and isinstance(holder, list):
        holder.append(holder[key])
    else:
        holder[key] = JSON_ODD[int(dice.random() * len(JSON_ODD))]
