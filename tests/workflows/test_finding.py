import pytest

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.workflows.bank.finding import find


@pytest.fixture(scope="module")
def shelf() -> Shelf:
    """The shipped bank, parsed once for all that is looked for in it."""
    found = Shelf(shipped())
    everything = list(found.everything())
    found.everything = lambda: iter(everything)
    return found


def test_a_word_finds_its_sub_topic_entries_terms_and_mistakes(shelf):
    found = find(shelf, "ring")
    ring = sum(one.entry.startswith("testing/ring/") for one in found.entries)
    assert ("testing/ring", ring) in found.topics
    assert found.entries[0].rank == 0
    assert "testing/ring/cross-line-and-protective" in {one.entry for one in found.entries}
    assert not any("earthing/" in one.entry and "ring" not in one.entry.split("/") for one in found.entries[:5])


def test_a_part_inside_a_word_is_not_found(shelf):
    assert not any(topic == "containment/measuring" for topic, _ in find(shelf, "ring").topics)


def test_a_regulation_is_found_by_its_number(shelf):
    found = find(shelf, "411.4.4")
    assert found.entries
    assert all("411.4.4" in one.source for one in found.entries if one.rank == 2)


def test_all_words_must_be_there_and_capitals_do_not_matter(shelf):
    few, many = find(shelf, "ring Insulation"), find(shelf, "RING")
    assert {one.entry for one in few.entries} < {one.entry for one in many.entries}


def test_a_term_and_a_mistake_are_found(shelf):
    assert "AFDD" in dict(find(shelf, "afdd").terms)
    assert "no-root-three" in dict(find(shelf, "square root three").mistakes)


@pytest.mark.parametrize("words", ["", "   ", "qqqzzz", "(*"])
def test_what_is_not_there_finds_nothing(shelf, words):
    found = find(shelf, words)
    assert (found.topics, found.entries, found.terms, found.mistakes) == ((), (), (), ())
