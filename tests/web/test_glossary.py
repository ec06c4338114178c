"""Words of the trade are marked where they are told, once, and nowhere else."""

import pytest

from quizzer.web.glossary import Glossary

TERMS = {
    "RCD": "it trips",
    "bonding": "joined metal",
    "earth fault loop": "out & back",
    "earth": "the mass",
    "A&B": "two",
    "N": "neutral",
}


@pytest.mark.parametrize(
    ("html", "words"),
    [
        ("<p>RCDs here, and an RCD there</p>", ["RCDs"]),
        ("<p>The earth fault loop, then earth</p>", ["earth fault loop", "earth"]),
        ("<p>Bonding.</p><ul><li>A&amp;B</li></ul>", ["Bonding", "A&amp;B"]),
        ("<p>rcd, BONDING, earthed, R-CD, non-RCD, RCD-like</p>", []),
        ("<h2>RCD</h2><form><p>RCD</p></form><p><a>RCD</a><svg><text>RCD</text></svg></p>", []),
        ("<p><a>RCD</a> RCD, 5 N</p>", ["RCD"]),
    ],
)
def test_a_word_is_marked_where_it_is_told(html, words):
    glossary = Glossary(TERMS)
    found = glossary.marked(html)
    for word in words:
        assert f'popovertarget="term-{glossary_place(word)}">{word}</button>' in found
    assert found.count("<button") == len(words) == len(glossary.used)
    assert glossary.meanings().count("<div popover") == len(words)


def glossary_place(word: str) -> int:
    return [*TERMS].index(
        next(term for term in TERMS if term.lower() == word.lower().removesuffix("s").replace("&amp;", "&"))
    )


def test_a_meaning_is_escaped_and_told_once():
    glossary = Glossary(TERMS)
    glossary.marked("<p>RCD</p>")
    glossary.marked("<p>an earth fault loop and an RCD</p>")
    said = glossary.meanings()
    assert said.count("it trips") == 1
    assert glossary.meanings() == ""
    assert "out &amp; back" in said


def test_what_is_folded_away_does_not_take_the_mark_from_what_is_seen():
    found = Glossary(TERMS).marked("<details><p>RCD RCD</p></details><p>RCD RCD</p>")
    assert found.count("<button") == 2
    assert "</details><p><button" in found


def test_no_terms_mark_nothing():
    assert Glossary({}).marked("<p>RCD</p>") == "<p>RCD</p>"
