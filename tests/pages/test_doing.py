"""Pages know no medium; what they say to do next is a command that there is, with options that it takes."""

import ast
import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer

from quizzer.blocks.text import Do, do
from quizzer.cli.app import app_for
from quizzer.render.terminal.doing import command

PAGES = Path(__file__).parents[2] / "quizzer" / "pages"


def written(path: Path) -> Iterator[ast.AST]:
    return ast.walk(ast.parse(path.read_text(encoding="utf-8")))


def worded(value: ast.expr) -> Any:
    """What a wish is written as: a number in place of figures that are worked out, yes in place of a question."""
    match value:
        case ast.Constant():
            return value.value
        case ast.JoinedStr() if "MINUTES" in ast.unparse(value):
            return "5"
        case ast.Call(func=ast.Name(id="bool")):
            return True
        case _:
            return "word"


def calls() -> list[Do]:
    """What the pages say to do next, with a word in place of what is worked out."""
    found = []
    for path in sorted(PAGES.glob("*.py")):
        for node in written(path):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "do":
                verb, *to = (each.value if isinstance(each, ast.Constant) else "word" for each in node.args)
                wishes = {each.arg: worded(each.value) for each in node.keywords if each.arg}
                found.append(do(verb, *to, **wishes))
    return found


def parsed(words: list[str]) -> Any:
    """The command of the words, with its options read and nothing run."""
    found: Any = typer.main.get_command(app_for(""))
    while hasattr(found, "commands"):
        found, words = found.commands[words[0]], words[1:]
    return found.make_context("quizzer", words)


def test_what_to_do_next_can_be_done():
    found = calls()
    assert len(found) > 15
    for each in found:
        parsed(shlex.split(command(each, "quizzer"))[1:])


@pytest.mark.parametrize("wrong", [do("studdy"), do("study", weekly=True), do("show")])
def test_what_cannot_be_done_would_be_found(wrong):
    with pytest.raises(Exception, match=r"studdy|No such option|Missing parameter"):
        parsed(shlex.split(command(wrong, "quizzer"))[1:])


def test_pages_know_no_medium():
    for path in sorted(PAGES.glob("*.py")):
        modules = [node.module or "" for node in written(path) if isinstance(node, ast.ImportFrom)]
        assert [each for each in modules if re.match(r"quizzer\.(render|cli)\b|sys$|textwrap$|html$", each)] == [], path
        texts = [node.value for node in written(path) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
        assert [text for text in texts if re.search(r"`?quizzer [a-z]+ |(^|\s)--[a-z]", text)] == [], path


def test_every_page_is_read_back():
    """Whoever writes a page collects it: in `collected.py`, or in a test of its own beside it."""
    made = {
        node.name
        for path in PAGES.glob("*.py")
        for node in written(path)
        if isinstance(node, ast.FunctionDef) and re.fullmatch(r"[a-z]\w*_page", node.name)
    }
    read = " ".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.glob("*.py"))
    assert len(made) > 25
    assert {name for name in made if not re.search(rf"\b{name}\(|\b{name} as\b", read)} == set()
