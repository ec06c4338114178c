"""Every entry of the shipped bank, over many seeds."""

import math
import os
import subprocess
import sys
from itertools import pairwise

import pytest

from quizzer.bank.entries import Card, Diagnose, Template
from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.head import OPTIONS
from quizzer.question.making import make
from quizzer.question.options import apart
from quizzer.question.question import AskAgain
from quizzer.question.replies import mark, read_reply
from tests.shippedbank import FILES, SHELF, loaded, templates
from tests.shippedbank import entries as all_entries
from tests.shippedbank import question as asked

# `bank check` tries each template on 150 draws and counts what a circuit gives; here the questions are answered too.
SEEDS = {Template: range(50), Card: range(25), Diagnose: range(6), Family: range(48), OrderFamily: range(24)}


@pytest.mark.parametrize("path", FILES, ids=SHELF.folder_of)
def test_every_entry_draws_computes_and_keeps_its_options_apart(path):
    found = loaded(path)
    assert not found.issues
    assert found.entries
    for entry in found.entries:
        for seed in SEEDS[type(entry)]:
            question = asked(entry, seed)
            assert "{" not in question.stem
            _options_are_apart(question)
            _key_gets_the_mark_and_each_slip_its_why(question)


def _options_are_apart(question):
    texts = [option.text for option in question.options]
    assert len(set(texts)) == len(texts), question.name
    if question.answer:
        assert math.isfinite(question.answer.value)
        values = [option.value for option in question.options]
        assert all(apart(one, other) for one, other in pairwise(values)), question.name
        assert values == sorted(values)


def _key_gets_the_mark_and_each_slip_its_why(question):
    if question.kind == "number":
        typed = f"{question.answer.value:.8g}"
        assert marked(question, typed).right, question.name
        for each in question.diagnoses:
            found = marked(question, f"{each.value:.12g}")
            assert not found.right, (question.name, each)
            assert (found.slip, found.why) == (each.slip, each.why), (question.name, each)
        return
    if question.kind == "order":
        assert marked(question, question.key).right
        return
    assert len(question.options) == OPTIONS, "by which the chance of a guess is reckoned"
    for option in question.options:
        found = marked(question, option.label)
        assert found.right == (option.slip is None)
        assert found.why == option.why
    assert sum(option.slip is None for option in question.options) == 1


def marked(question, text):
    reply = read_reply(question, text)
    assert not isinstance(reply, AskAgain), (question.name, text, reply)
    return mark(question, reply)


def test_the_shown_answer_typed_as_it_stands_is_right():
    for entry in templates():
        question = asked(entry, 0)
        if question.kind == "number":
            found = marked(question, question.answer.text)
            assert found.right, question.name


def test_what_is_listed_by_its_look_is_what_is_read():
    read = {entry.head.id: entry for entry in all_entries()}
    listed = {entry.id: entry for entry in SHELF.listed()}
    assert set(listed) == set(read)
    for id, entry in read.items():
        assert listed[id].safety_critical == entry.head.safety_critical
        assert listed[id].topic == entry.head.topic


def test_an_entry_found_alone_is_the_entry_of_its_file():
    for path in FILES[:: max(1, len(FILES) // 12)]:
        for entry in loaded(path).entries:
            alone = SHELF.find(entry.head.id)
            assert alone.head.place == entry.head.place
            assert make(alone, 5) == make(entry, 5)


def test_the_bank_is_as_large_as_it_says():
    entries = all_entries()
    cards = [entry for entry in entries if isinstance(entry, Card)]
    families = [entry for entry in entries if isinstance(entry, Family)]
    assert len(templates()) >= 150
    assert len(families) >= 60
    assert len(cards) + sum(len(entry.stems) for entry in families) >= 1200
    topics = {entry.head.topic for entry in entries}
    assert topics == set(SHELF.topics())
    assert all(len(entry.slips) >= 3 and entry.proofs for entry in templates())
    assert sum(entry.head.safety_critical for entry in entries) >= 24


def test_the_same_seed_gives_the_same_question_in_a_fresh_process():
    names = ["testing/ring/cross-line-and-protective#5", "design/load/shower-design-current#9"]
    ids = {entry.id for entry in SHELF.listed()}
    names = [name for name in names if name.partition("#")[0] in ids] or [f"{min(ids)}#5"]
    for name in names:
        runs = {
            subprocess.run(
                [sys.executable, "-m", "quizzer", "show", name, "--json"],
                capture_output=True,
                text=True,
                check=True,
                env={**os.environ, "PYTHONHASHSEED": str(n)},
            ).stdout
            for n in (1, 2)
        }
        assert len(runs) == 1
