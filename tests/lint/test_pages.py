"""Every code has a page, and every page is a test: its bad in place of its good gives its code and no other."""

import ast
import re
from pathlib import Path

import pytest

from quizzer.errors import Place
from quizzer.lint import cue_rules
from quizzer.lint.catalogue import CATALOGUE, page_of
from quizzer.lint.page import CodeDoc
from quizzer.lint.starts import KINDS, start
from tests.lint.startbank import checked, place_of, start_bank, write

PACKAGE = Path(__file__).parents[2] / "quizzer"


@pytest.fixture
def bank(tmp_path):
    return start_bank(tmp_path / "banks")


def test_the_small_bank_of_starting_files_is_clean(bank):
    assert checked(bank).issues == ()


# What the figures of `--cues` flag is no finding of the check; tests/lint/test_guessing.py holds its page.
CHECKED = {code: page for code, page in CATALOGUE.items() if page not in cue_rules.PAGES}


@pytest.mark.parametrize("page", CHECKED.values(), ids=CHECKED)
def test_the_bad_of_a_page_gives_its_code_at_its_line(page: CodeDoc, bank):
    sound = start(page.start)
    assert sound.count(page.good) == 1, "its good is not just once in the starting file"
    file = place_of(page.start)
    write(bank / file, sound.replace(page.good, page.bad))
    issues = checked(bank).issues if page.place else checked(bank, file).issues
    assert {issue.code for issue in issues} == {page.code}
    assert all(issue.warning is page.warning for issue in issues)
    assert any(_is_told_of(page, issue.place, bank) for issue in issues), issues


def _is_told_of(page: CodeDoc, place: Place, bank: Path) -> bool:
    """Whether the place is the one the page speaks of: its file, and a line with its words."""
    wanted = (bank / (page.place or place_of(page.start))).resolve()
    path = bank.parent / place.path
    if path != wanted or page.at == "." or path.is_dir():
        return path == wanted and place.line == 0
    line = path.read_text(encoding="utf-8").split("\n")[place.line - 1]
    return (page.at or page.bad.split("\n")[0]) in line


def test_every_code_that_can_be_raised_has_a_page_and_every_page_a_code():
    assert raised() == set(CATALOGUE)


def raised() -> set[str]:
    """Every code in the source, where it is not the name of a page."""
    return {code for path in PACKAGE.rglob("*.py") for code in _codes_in(ast.parse(path.read_text(encoding="utf-8")))}


def _codes_in(tree: ast.AST) -> set[str]:
    of_pages = {
        id(node.args[0])
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Page"
        if node.args
    }
    constants = (node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in of_pages)
    return {node.value for node in constants if isinstance(node.value, str) and re.fullmatch(r"Q\d{3}", node.value)}


def test_no_code_has_two_pages():
    source = "".join(path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py"))
    pages = re.findall(r'Page\(\s*"(Q\d{3})"', source)
    assert len(pages) == len(set(pages))


def test_pages_are_whole():
    for page in CATALOGUE.values():
        assert page.start in KINDS
        assert page.bad != page.good
        assert all(text.strip() for text in (page.title, page.why, page.mend)), page.code
        assert len(page.title) < 60
        assert not page.title.endswith(".")
        assert page.why.endswith((".", "?"))
        assert page.mend.endswith((".", "?"))


def test_a_code_is_found_in_any_case():
    assert page_of(" q502 ").code == "Q502"
