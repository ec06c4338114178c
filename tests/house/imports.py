"""What a package's modules import, and which outside names they mention, read from the text by `ast`."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Import:
    """One imported name: where, what (`pint.Unit`, `quizzer.bank.entries`), and if in a function."""

    line: int
    target: str
    late: bool


@dataclass(frozen=True, slots=True)
class Mention:
    """A dotted name that is read, written out in full after the file's imports: `datetime.datetime.now`."""

    line: int
    name: str
    called_with: int | None  # the number of arguments, or None where it is not called


@dataclass(frozen=True, slots=True)
class Module:
    """One file of a package."""

    name: str  # quizzer.bank.entries; a folder's __init__ has the folder's name
    path: Path
    tree: ast.Module

    @property
    def room(self) -> str:
        """The name below the package (`bank`), or "" for the package's own __init__."""
        return [*self.name.split("."), ""][1]

    @property
    def folder(self) -> str:
        """The package that a relative import starts from."""
        return self.name if self.path.name == "__init__.py" else self.name.rpartition(".")[0]


def modules_of(package: Path) -> list[Module]:
    """Every module of the package in that folder, sorted by path."""
    return [
        Module(_name(path, package), path, ast.parse(path.read_text(encoding="utf-8"), str(path)))
        for path in sorted(package.rglob("*.py"))
    ]


def _name(path: Path, package: Path) -> str:
    parts = path.relative_to(package.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imports_of(module: Module) -> Iterator[Import]:
    """Every import, those inside functions and under TYPE_CHECKING too."""
    for node, late in _nodes(module.tree, late=False):
        match node:
            case ast.Import(names=names):
                yield from (Import(node.lineno, alias.name, late) for alias in names)
            case ast.ImportFrom(names=names):
                source = _source(node, module)
                yield from (Import(node.lineno, f"{source}.{alias.name}", late) for alias in names)


def _nodes(tree: ast.AST, *, late: bool) -> Iterator[tuple[ast.AST, bool]]:
    """Every node, with True where it stands inside a function."""
    for node in ast.iter_child_nodes(tree):
        yield node, late
        inside = late or isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        yield from _nodes(node, late=inside)


def _source(node: ast.ImportFrom, module: Module) -> str:
    """The module after `from`, with leading dots resolved."""
    if not node.level:
        return node.module or ""
    parts = module.folder.split(".")
    above = parts[: len(parts) - node.level + 1]
    return ".".join([*above, node.module] if node.module else above)


def mentions_of(module: Module) -> Iterator[Mention]:
    """Every dotted name that is read, in full after the file's own imports; builtins as they are.

    What begins with a name that the file binds itself (a parameter called `now`, a function called `open`),
    or with no name at all, begins here with a question mark: `?.read_text`.
    """
    known = _known_names(module)
    own = _bound_names(module.tree)
    calls = {
        id(node.func): len(node.args) + len(node.keywords)
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call)
    }
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Name | ast.Attribute) and isinstance(node.ctx, ast.Load):
            yield Mention(node.lineno, _full(_dotted(node), known, own), calls.get(id(node)))


def _known_names(module: Module) -> dict[str, str]:
    """What each imported name stands for."""
    known: dict[str, str] = {}
    for node in ast.walk(module.tree):
        match node:
            case ast.Import(names=names):
                for alias in names:
                    first = alias.name.partition(".")[0]
                    known[alias.asname or first] = alias.name if alias.asname else first
            case ast.ImportFrom(names=names):
                for alias in names:
                    known[alias.asname or alias.name] = f"{_source(node, module)}.{alias.name}"
    return known


def _bound_names(tree: ast.AST) -> set[str]:
    """Every name that the file gives a meaning of its own."""
    bound: set[str] = set()
    for node in ast.walk(tree):
        match node:
            case ast.arg(arg=name) | ast.FunctionDef(name=name) | ast.Name(id=name, ctx=ast.Store()):
                bound.add(name)
    return bound


def _dotted(node: ast.AST) -> str:
    """`a.b.c` for a chain of attributes, on a name or on anything else (`?.b.c`)."""
    match node:
        case ast.Name(id=name):
            return name
        case ast.Attribute(value=value, attr=attr):
            return f"{_dotted(value)}.{attr}"
    return "?"


def _full(name: str, known: dict[str, str], own: set[str]) -> str:
    """The name after the file's imports; ? for a beginning that the file itself gives a meaning."""
    first, dot, rest = name.partition(".")
    return known.get(first, "?" if first in own else first) + dot + rest
