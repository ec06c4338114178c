"""Text to tree. Everything but plain arithmetic is refused, by kind, with a caret under it.

Characters are checked before anything is parsed, because a parser would silently drop what follows `#`.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Mapping
from math import inf

from quizzer.expression.functions import ARITY
from quizzer.expression.tree import Bin, Call, Comparison, Name, Neg, Node, Num

Span = tuple[int, int]

LONGEST = 200
DEEPEST = 24

_ALLOWED = re.compile(r"[A-Za-z0-9_ +\-*/().,<>=]*")
_NUMBER = re.compile(r"(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?")
_OPERATORS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**"}
_COMPARISONS: dict[type[ast.cmpop], str] = {ast.LtE: "<=", ast.GtE: ">=", ast.Lt: "<", ast.Gt: ">"}
_SENTENCES = {
    "^": "^ is not power here: write ** for power",
    "=": "one = is not allowed: a step has its own name key",
    "%": "% is not allowed: give the value the unit percent",
    "#": "# is not allowed: notes go into the file, not into an expression",
}
_KINDS = {
    ast.Attribute: "a dot after a name is not allowed",
    ast.Subscript: "square brackets are not allowed",
    ast.Compare: "a comparison belongs in `when` or `require`, not in a value",
    ast.BoolOp: "and / or are not allowed: write one comparison a line",
    ast.IfExp: "if / else is not allowed: use min, max or a verdict",
    ast.Lambda: "lambda is not allowed",
    ast.Tuple: "a comma outside a function call is not allowed",
    ast.Starred: "a star before a name is not allowed",
    ast.NamedExpr: ":= is not allowed",
    ast.GeneratorExp: "a loop is not allowed",
}


class ExpressionError(ValueError):
    """The text is not in the language. `str()` is one sentence; `pointer` shows the place under the text."""

    def __init__(self, text: str, sentence: str, span: Span) -> None:
        super().__init__(sentence)
        self.text, self.span = text, span

    @property
    def pointer(self) -> str:
        """The text with a caret line under the place.

        >>> print(ExpressionError("a ^ b", "…", (2, 3)).pointer)
        a ^ b
          ^
        """
        start, end = self.span
        return f"{self.text[:LONGEST]}\n{' ' * start}{'^' * max(1, min(end, LONGEST) - start)}"


def read(text: str, lookups: Mapping[str, int] | None = None) -> Node:
    """The tree of an arithmetic expression.

    `lookups` names the template's own functions and how many arguments each takes.
    Raises ExpressionError for anything outside the language.
    """
    text = text.strip()
    return _Lowering(text, lookups or {}).node(_parse(text), 1)


def read_comparison(text: str, lookups: Mapping[str, int] | None = None) -> Comparison:
    """The tree of one comparison such as `Z_s <= Z_max`. Raises ExpressionError."""
    text = text.strip()
    body = _parse(text)
    if not isinstance(body, ast.Compare) or len(body.ops) != 1 or type(body.ops[0]) not in _COMPARISONS:
        raise ExpressionError(text, "one comparison is wanted here, with <= >= < or >", (0, len(text)))
    lower = _Lowering(text, lookups or {})
    return Comparison(_COMPARISONS[type(body.ops[0])], lower.node(body.left, 1), lower.node(body.comparators[0], 1))


def _parse(text: str) -> ast.expr:
    good = _ALLOWED.match(text)
    end = good.end() if good else 0
    if end < len(text):
        bad = text[end]
        raise ExpressionError(text, _SENTENCES.get(bad, f"the character {bad!r} is not allowed"), (end, end + 1))
    if len(text) > LONGEST:
        raise ExpressionError(text, f"longer than {LONGEST} characters: split it into steps", (0, LONGEST))
    if not text:
        raise ExpressionError(text, "empty", (0, 1))
    try:
        return ast.parse(text, mode="eval").body
    except SyntaxError as error:
        at = min(max((error.offset or 1) - 1, 0), len(text))
        sentence = _SENTENCES["="] if re.search(r"(?<![<>=])=(?!=)", text) else "this cannot be read as arithmetic"
        raise ExpressionError(text, sentence, (at, at + 1)) from None
    except (RecursionError, MemoryError):
        raise ExpressionError(text, "nested too deeply: split it into steps", (0, len(text))) from None


class _Lowering:
    """Turns Python's tree into ours, refusing every other kind of node."""

    def __init__(self, text: str, lookups: Mapping[str, int]) -> None:
        self.text, self.arity = text, {**ARITY, **{name: (n, n) for name, n in lookups.items()}}

    def node(self, part: ast.expr, depth: int) -> Node:
        if depth > DEEPEST:
            raise self.refusal(part, "nested too deeply: split it into steps")
        match part:
            case ast.Constant():
                return self.number(part)
            case ast.Name(id=name):
                return self.name(part, name)
            case ast.UnaryOp(op=ast.USub(), operand=arg):
                return Neg(self.node(arg, depth + 1))
            case ast.BinOp(op=op, left=left, right=right) if type(op) in _OPERATORS:
                return Bin(_OPERATORS[type(op)], self.node(left, depth + 1), self.node(right, depth + 1))
            case ast.Call():
                return self.call(part, depth)
        raise self.refusal(part, _KINDS.get(type(part), "only numbers, names, + - * / ** and functions are allowed"))

    def refusal(self, part: ast.expr, sentence: str) -> ExpressionError:
        return ExpressionError(self.text, sentence, (part.col_offset, part.end_col_offset or part.col_offset + 1))

    def number(self, part: ast.Constant) -> Num:
        text = self.text[part.col_offset : part.end_col_offset]
        if not _NUMBER.fullmatch(text):
            raise self.refusal(part, "only plain numbers such as 0.95 or 1.7e-8 are allowed")
        if float(text) == inf:
            raise self.refusal(part, "this number is too large")
        return Num(text)

    def name(self, part: ast.Name, name: str) -> Name:
        if "__" in name or name.startswith("_"):
            raise self.refusal(part, "a name starts with a letter and has no double underscore")
        if name in self.arity:
            raise self.refusal(part, f"{name} is a function: write {name}(...)")
        return Name(name)

    def call(self, part: ast.Call, depth: int) -> Call:
        if not isinstance(part.func, ast.Name) or part.func.id not in self.arity:
            raise self.refusal(part.func, "no such function: " + ", ".join(sorted(self.arity)) + " are known")
        if part.keywords:
            raise self.refusal(part, "named arguments are not allowed")
        fewest, most = self.arity[part.func.id]
        if not fewest <= len(part.args) <= most:
            raise self.refusal(part, f"{part.func.id} takes {fewest if fewest == most else 'two or more'} value(s)")
        return Call(part.func.id, tuple(self.node(arg, depth + 1) for arg in part.args))
