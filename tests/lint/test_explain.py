"""The pages of codes as they are printed."""

import pytest

from quizzer.lint.catalogue import CATALOGUE
from tests.cli.running import ran


@pytest.mark.parametrize("code", CATALOGUE)
def test_a_page_fits_the_screen_and_says_all(code, monkeypatch):
    found = ran(monkeypatch, "explain", code)
    page = CATALOGUE[code]
    assert found.code == 0, found.err
    lines = found.out.split("\n")
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 60
    words = " ".join(found.out.split())
    assert all(" ".join(text.split()) in words for text in (page.title, page.why, page.mend))
    assert "Bad:" in lines
    assert any(line.startswith("Good") for line in lines)
    assert ("accept it in the entry" in words) is page.acceptable


def test_a_code_may_be_written_small(monkeypatch):
    assert ran(monkeypatch, "explain", "q502").out == ran(monkeypatch, "explain", "Q502").out


@pytest.mark.parametrize(("code", "near"), [("Q5022", "Q502"), ("Q599", "Q5"), ("502", "Q502")])
def test_an_unknown_code_is_refused_with_the_nearest(code, near, monkeypatch):
    found = ran(monkeypatch, "explain", code)
    assert found.code == 1
    assert f"did you mean {near}" in found.err
    assert len(found.err.strip().split("\n")) == 1


@pytest.mark.parametrize("code", ["foo", ""])
def test_a_word_that_is_like_no_code_is_told_where_the_codes_are(code, monkeypatch):
    found = ran(monkeypatch, "explain", code)
    assert (found.code, "did you mean" in found.err) == (1, False)
    assert "lists the codes" in found.err


def test_a_screen_without_signs_gets_words(monkeypatch):
    found = ran(monkeypatch, "explain", "Q651", encoding="ascii")
    assert found.code == 0
    assert "?" not in found.out.replace("next?", "")
