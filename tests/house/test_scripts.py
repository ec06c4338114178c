"""The modules that the scripts share import each other one way."""

import ast
from pathlib import Path

from tests.house.rooms import cycles_in

SCRIPTS = Path(__file__).parents[2] / "scripts"


def imported(path: Path, names: set[str]) -> set[str]:
    """The modules beside it that a script's module imports, inside functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
    return found & names


def graph() -> dict[str, set[str]]:
    """Every module below scripts with those that it imports, by the names they are imported under."""
    paths = {path.stem: path for path in SCRIPTS.glob("*.py")}
    inside = SCRIPTS.parent
    paths |= {".".join(path.relative_to(inside).with_suffix("").parts): path for path in SCRIPTS.glob("*/*.py")}
    return {name: imported(path, set(paths)) - {name} for name, path in paths.items()}


def test_no_module_of_the_scripts_reaches_itself() -> None:
    found = graph()
    assert found["setting_up"] >= {"environment"}
    assert cycles_in(found) == []
