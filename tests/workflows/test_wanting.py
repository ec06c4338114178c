import pytest

from quizzer.bankfiles.topic_names import nearest
from quizzer.errors import NotFound
from quizzer.workflows.bank.entries_under import wanted
from tests.shippedbank import SHELF


@pytest.fixture(scope="module")
def listed():
    return SHELF.listed()


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("ring", "circuits/ring testing/ring"),
        ("testing/rnig", "testing/ring"),
        ("testng", "testing"),
        ("Design", "design"),
        ("rcds", "testing/rcd"),
        ("bath", "locations/bath-and-shower"),
        ("xyzzy", ""),
        ("", ""),
    ],
)
def test_a_mistyped_topic_is_guessed(listed, typed, meant):
    assert nearest(typed, listed) == meant.split()


def test_the_guess_is_told():
    with pytest.raises(NotFound) as refusal:
        wanted(SHELF, ["ring"])
    assert refusal.value.mend.startswith("did you mean 'circuits/ring' or 'testing/ring'?")
