"""A blueprint that names a topic the bank does not have is refused, with the nearest that it has."""

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.errors import BankError
from tests.cli.running import ran
from tests.shippedbank import SHELF

PLAN = """title = "Circuits"
minutes = 10
pass_mark = 2

[[section]]
id = "one"
title = "One"
questions = 2
topics = {topics}
"""


@pytest.fixture
def plan(tmp_path):
    def written(topics):
        path = tmp_path / "mine.toml"
        path.write_text(PLAN.format(topics=topics), encoding="utf-8")
        return str(path)

    return written


@pytest.mark.parametrize(
    ("topics", "wrong", "near"),
    [
        ('["circuits", "design/voltage-dropp"]', "design/voltage-dropp", "design/voltage-drop"),
        ('["curcuits"]', "curcuits", "circuits"),
        ('["testing/rnig", "circuits"]', "testing/rnig", "testing/ring"),
    ],
)
def test_an_unknown_topic_is_named_with_its_line_and_the_nearest(plan, topics, wrong, near):
    with pytest.raises(BankError) as refused:
        blueprint(SHELF, plan(topics))
    (issue,) = refused.value.issues
    assert (issue.code, issue.place.line, issue.what) == ("Q911", 9, f"no topic {wrong!r}")
    assert issue.mend == f"did you mean {near!r}?"


@pytest.mark.parametrize("topics", ['["circuits", "design/voltage-drop"]', '["testing/ring/"]', '["safety"]'])
def test_topics_and_sub_topics_of_the_bank_are_taken(plan, topics):
    assert blueprint(SHELF, plan(topics)).sections[0].topics


@pytest.mark.parametrize("topic", ["../circuits", "blueprints", "tables/sizes", "design/voltage-drop/x", "Circuits"])
def test_what_is_no_topic_of_a_bank_is_none_here(plan, topic):
    with pytest.raises(BankError):
        blueprint(SHELF, plan(f'["{topic}"]'))


def test_paper_make_and_the_count_of_forms_refuse_it_in_one_sentence(plan, monkeypatch, tmp_path):
    store = ("--store", str(tmp_path / "s.db"))
    for command in (
        ("paper", "make", plan('["curcuits"]'), *store),
        ("paper", "blueprint", "check", plan('["curcuits"]')),
    ):
        found = ran(monkeypatch, *command)
        assert found.code == 1
        assert "no topic 'curcuits': did you mean 'circuits'?" in " ".join((found.out + found.err).split())
