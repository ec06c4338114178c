"""A new kind of reply is named by the type checker at each place that must know it, and by nothing at run time only."""

import ast
import shutil
import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest

from quizzer.question.question import Kind

CHECKOUT = Path(__file__).parents[2]
PACKAGE = CHECKOUT / "quizzer"
# Whatever tells kinds apart, with the number of `match` statements in it.
TOLD_APART = {"question/replies.py": 6, "render/qti/items.py": 1, "pages/packed.py": 1}


def kinds_compared(tree: ast.AST) -> list[int]:
    """The lines on which a `.kind` is compared with the word of a kind of reply."""
    return [
        node.lineno
        for node in ast.walk(tree)
        if isinstance(node, ast.Compare)
        and isinstance(node.left, ast.Attribute)
        and node.left.attr == "kind"
        and {each.value for each in ast.walk(node) if isinstance(each, ast.Constant)} & {*get_args(Kind)}
    ]


def test_no_kind_is_told_apart_by_a_comparison():
    """A comparison has no case for a new kind, and no type checker asks for one."""
    found = {
        str(path.relative_to(PACKAGE)): lines
        for path in PACKAGE.rglob("*.py")
        if (lines := kinds_compared(ast.parse(path.read_text(encoding="utf-8"))))
    }
    assert found == {}


@pytest.mark.parametrize("text", ['x.kind == "choose"', 'question.kind not in ("choose", "number")'])
def test_a_comparison_would_be_found(text):
    assert kinds_compared(ast.parse(text)) == [1]


def test_the_type_checker_names_each_place_that_a_new_kind_must_fill(tmp_path):
    shutil.copytree(PACKAGE, tmp_path / "quizzer", ignore=shutil.ignore_patterns("fonts", "__pycache__"))
    question = tmp_path / "quizzer" / "question" / "question.py"
    text = question.read_text(encoding="utf-8")
    assert 'Kind = Literal["choose", ' in text
    question.write_text(
        text.replace('Kind = Literal["choose", ', 'Kind = Literal["unheard of", "choose", '), encoding="utf-8"
    )
    done = subprocess.run(
        [sys.executable, "-P", "-m", "mypy", "--strict", "--no-incremental", "--follow-imports=silent"]
        + [f"quizzer/{name}" for name in TOLD_APART],
        cwd=tmp_path,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    errors = [line for line in done.stdout.splitlines() if "error:" in line]
    assert all("assert_never" in line and "unheard of" in line for line in errors), done.stdout
    assert {name: sum(line.startswith(f"quizzer/{name}:") for line in errors) for name in TOLD_APART} == TOLD_APART
