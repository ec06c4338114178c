"""The template that the guide for authors shows whole."""

import re
from pathlib import Path

import pytest

from quizzer.bank.entries import Template
from quizzer.bankfiles.shelf import Shelf
from quizzer.editions import Currency
from tests.lint.startbank import checked, write
from tests.sitting import SHARED

GUIDE = Path(__file__).parents[2] / "quizzer" / "guide" / "author.md"


@pytest.fixture
def bank(tmp_path):
    """A bank with the shipped lists, and the example as a file of a topic."""
    root = tmp_path / "banks"
    for name in ("topics.toml", "slips.toml", "cautions.toml", "glossary.toml"):
        write(root / name, (SHARED / name).read_text(encoding="utf-8"))
    (example,) = re.findall(r"```toml\n(edition = .*?)```", GUIDE.read_text(encoding="utf-8"), re.DOTALL)
    write(root / "testing/example.toml", example)
    return root


def test_it_checks_clean(bank):
    assert checked(bank, "testing/example.toml").issues == ()


def test_it_has_the_keys_that_the_guide_explains(bank):
    entry = Shelf(bank).find("testing/example/cold-loop-against-its-limit")
    assert isinstance(entry, Template)
    assert entry.head.currency[:2] == Currency("unaffected", "2018")[:2]
    assert entry.head.currency.source.startswith("rests on the warming of copper")
    assert entry.steps[entry.answer].rounding.way == "down"
    assert [given.name for given in entry.given if given.read] == ["Z"]
    assert all(any(outcome.so.pieces) for outcome in entry.verdict)
