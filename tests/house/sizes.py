"""How large files and functions may grow, and which names say nothing."""

import ast
from pathlib import Path
from statistics import median

FILE_CAP = 250
FILE_MEDIAN = 130
BODY_CAP = 40
BODY_USUAL = 20
LONG_IN = 10  # at most one body in ten may be longer than usual
EMPTY_NAMES = {"utils", "util", "helpers", "helper", "common", "core", "manager", "managers", "misc"}


def lines_of(path: Path) -> int:
    """How many lines a file has."""
    return len(path.read_text(encoding="utf-8").splitlines())


def bodies_of(path: Path) -> dict[str, int]:
    """The lines of every function's body, without signature and docstring, by `file:line name`."""
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    return {f"{path}:{node.lineno} {node.name}": _body_lines(node) for node in functions}


def _body_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    body = node.body[1:] if ast.get_docstring(node) is not None else node.body
    return body[-1].end_lineno - body[0].lineno + 1 if body else 0


def faults_in(package: Path) -> list[str]:
    """Everything in the package's folder that has outgrown its size or is named for nothing."""
    files = sorted(package.rglob("*.py"))
    return [*_file_faults(files), *_body_faults(files), *_name_faults(package)]


def _file_faults(files: list[Path]) -> list[str]:
    sizes = {path: lines_of(path) for path in files}
    found = [f"{path}: {size} lines, cap {FILE_CAP}" for path, size in sizes.items() if size > FILE_CAP]
    middle = median(sizes.values()) if sizes else 0
    if middle > FILE_MEDIAN:
        found.append(f"the median file has {middle:.0f} lines, not about {FILE_MEDIAN}")
    return found


def _body_faults(files: list[Path]) -> list[str]:
    bodies = {name: size for path in files for name, size in bodies_of(path).items()}
    by_size = sorted(bodies, key=lambda name: -bodies[name])
    found = [f"{name}: a body of {bodies[name]} lines, cap {BODY_CAP}" for name in by_size if bodies[name] > BODY_CAP]
    long = [name for name in by_size if bodies[name] >= BODY_USUAL]
    if LONG_IN * len(long) > len(bodies):
        worst = ", ".join(long[:9])
        found.append(f"{len(long)} of {len(bodies)} bodies have {BODY_USUAL} lines or more: {worst}")
    return found


def _name_faults(package: Path) -> list[str]:
    paths = [path for path in sorted(package.rglob("*")) if path.is_dir() or path.suffix == ".py"]
    return [f"{path}: a name that says nothing" for path in paths if path.stem in EMPTY_NAMES]
