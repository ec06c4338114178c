"""A sentence is said in one room: what stands as a literal in two of them drifts apart."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "quizzer"
LONG = 4  # words; shorter ones are names and units


def sentences_in(path: Path) -> Iterator[str]:
    """The sentences of more than four words in the literals of a file, without its docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings:
            for part in re.split(r"[.!?:;](?:\s+|$)", node.value):
                words = " ".join(part.split()).strip(" ,").casefold()
                if len(re.findall(r"\w+", words)) > LONG:
                    yield words


def said_twice(package: Path) -> dict[str, list[str]]:
    """The sentences that stand in two rooms, each with the rooms."""
    rooms: defaultdict[str, set[str]] = defaultdict(set)
    for path in sorted(package.rglob("*.py")):
        for sentence in sentences_in(path):
            rooms[sentence].add(path.relative_to(package).parts[0])
    return {sentence: sorted(where) for sentence, where in rooms.items() if len(where) > 1}


def test_no_sentence_stands_in_two_rooms() -> None:
    assert said_twice(PACKAGE) == {}


def test_a_sentence_in_two_rooms_is_found(tmp_path: Path) -> None:
    documented = 'def f():\n    "A docstring of more than four words."\n    x = f"{y}: look at it once more. Go"'
    rooms = {"a": documented, "b": "x = 'Look at it once more'", "c": "x = 'look at it'"}
    for room, text in rooms.items():
        (tmp_path / room).mkdir()
        (tmp_path / room / "f.py").write_text(text, encoding="utf-8")
    assert said_twice(tmp_path) == {"look at it once more": ["a", "b"]}
