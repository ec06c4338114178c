"""Papers of a bank of families: every case is asked once over the forms, and what is kept of it reads back."""

from collections import Counter
from datetime import date
from itertools import pairwise
from random import Random

import pytest

from quizzer.bank.blueprints import read_blueprint
from quizzer.bank.fields import Notes
from quizzer.bankfiles.blueprint_files import blueprint, blueprint_names
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.lint.starts import start
from quizzer.marks.answers import AnswerRow
from quizzer.paper.enemies import enemies
from quizzer.paper.record import Form, Item, to_json
from quizzer.paper.record_reading import from_json
from quizzer.paper.solving import first_forms
from quizzer.question.making import make
from quizzer.workflows.papers.alone import own_paper
from quizzer.workflows.papers.bank_capacity import pool_of, served
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.papers import Order, make_paper
from quizzer.workflows.papers.reporting import gather
from quizzer.workflows.papers.script_marking import Handed
from tests.shippedbank import SHELF
from tests.sitting import MORNING, Sitting, small_bank

DAY = date(2026, 11, 30)
PLAN = """
title = "Cases"
minutes = 20
pass_mark = 2
permitted = []
[[section]]
id = "cases"
title = "Cases"
topics = ["circuits/one", "circuits/two"]
questions = {questions}
"""
# What the bank served while a family was one question of a paper; more entries become families all the time.
AT_LEAST = {"safety": 5, "testing-and-faults": 4, "wiring-regulations": 6, "workings": 12}


def plan(questions):
    return read_blueprint("cases", Notes("cases.toml", PLAN.format(questions=questions)))


@pytest.fixture
def sitting(tmp_path):
    """A bank with two families of six cases, with other words in every case."""
    root = small_bank(tmp_path / "banks")
    for name in ("one", "two"):
        text = start("family").replace("what-to-measure-with", f"with-what-{name}")
        (root / "circuits" / f"{name}.toml").write_text(text, encoding="utf-8")
    return Sitting(root)


def made(sitting, questions, forms, seed=1, recent=(), people=()):
    order = Order(forms, questions, seed, "", signed_only=False, people=people)
    return make_paper(sitting.world.shelf, plan(questions), order, DAY, {}, recent)


def asked(shelf, paper):
    """Every question of every form."""
    return [question for form in paper.forms for question in Making(shelf, paper).of(form)]


def test_parallel_forms_ask_other_cases_and_the_record_asks_them_again(sitting):
    """Two families of six cases: three forms of two each, or six forms of two questions."""
    for questions, forms in ((4, 3), (2, 6)):
        paper = made(sitting, questions, forms).paper
        cases = [(question.id, question.case) for question in asked(sitting.world.shelf, paper)]
        assert len(cases) == len(set(cases)) == 12
        again = from_json(to_json(paper), "paper.json")
        assert asked(Shelf(sitting.root), again) == asked(sitting.world.shelf, paper)
        assert made(sitting, questions, forms).paper == paper
    with pytest.raises(Refused, match="Cases wants 14 for 7 forms, 12 are there"):
        made(sitting, 2, 7)


def test_two_cases_of_a_family_do_not_follow_each_other_where_another_question_can_stand_between(sitting):
    for seed in range(1, 6):
        paper = made(sitting, 4, 1, seed).paper
        ids = [item.entry for item in paper.forms[0].items]
        assert Counter(Counter(ids).values()) == {2: 2}
        assert all(one != other for one, other in pairwise(ids))


def test_cases_of_recent_papers_are_left_out_while_others_are_there(sitting):
    had = made(sitting, 4, 1).paper
    recent = frozenset((item.entry, item.seed) for item in had.forms[0].items)
    new = made(sitting, 4, 2, 2, recent)
    met = {(question.id, question.case) for question in asked(sitting.world.shelf, had)}
    assert not met & {(question.id, question.case) for question in asked(sitting.world.shelf, new.paper)}
    assert new.repeated == ()
    assert len(made(sitting, 4, 3, 2, recent).repeated) == 4


def test_a_second_paper_of_ones_own_asks_other_cases(sitting):
    trainee, world = sitting.trainee(), sitting.world
    first = own_paper(world, trainee, plan(4))
    sitting.clock.forward(days=1)
    second = own_paper(world, trainee, plan(4))
    cases = [(question.id, question.case) for paper in (first, second) for question in asked(world.shelf, paper)]
    assert len(set(cases)) == len(cases) == 8


def marked(sitting, paper, missed=()):
    """Mark Ada's answers to the paper, wrong at these places of it and right at all others."""
    letters = [
        item.key if at not in missed else "ABCD"[("ABCD".index(item.key) + 1) % 4]
        for at, item in enumerate(paper.forms[0].items)
    ]
    sitting.store.papers.keep(paper)
    handed = Handed("t1", "Ada", paper.forms[0], "".join(letters), "table", sitting.clock())
    mark_all(sitting.world, paper, Making(sitting.world.shelf, paper), (), [handed])
    return {standing.entry: standing.memory.repetition for standing in sitting.store.standings("t1")}


@pytest.mark.parametrize(("wrong", "repetition"), [((), 2), ((0,), 1), ((1,), 1), ((0, 1), 1)])
def test_two_cases_of_a_family_in_a_form_are_two_reviews_and_one_step_of_memory(sitting, wrong, repetition):
    """The worse of the two answers counts, whichever comes first; the other family is remembered."""
    sitting.store.add_trainee("t1", "Ada", MORNING)
    one, other = made(sitting, 4, 1).paper, made(sitting, 4, 1, 2).paper
    assert list(marked(sitting, one).values()) == [1, 1]
    sitting.clock.forward(days=9)
    first = other.forms[0].items[0].entry
    places = [at for at, item in enumerate(other.forms[0].items) if item.entry == first]
    found = marked(sitting, other, {places[at] for at in wrong})
    assert [review.entry for review in sitting.store.reviews("t1")].count(first) == 4
    assert (found.pop(first), list(found.values())) == (repetition, [2])
    assert sitting.store.check() == ()


def test_the_report_of_a_paper_tells_the_cases_of_a_family_apart(sitting):
    shelf = sitting.world.shelf
    paper = made(sitting, 4, 1).paper
    keys = "".join(item.key for item in paper.forms[0].items)
    last = paper.forms[0].items[3]
    wrong = keys[:3] + "ABCD"[("ABCD".index(last.key) + 1) % 4]
    rows = [AnswerRow(f"P{n}", "A", tuple(keys if n % 2 else wrong)) for n in range(12)]
    sat = gather(shelf, paper, rows)
    (block,) = items_report(sat).blocks
    assert [(number, figures.people, figures.right) for number, _, figures in block.items] == [
        (1, 12, 12),
        (2, 12, 12),
        (3, 12, 12),
        (4, 12, 6),
    ]
    assert (block.questions, block.reliability.marks.mean) == (4, 3.5)
    (shared,) = group_report(sat).mistakes
    assert (shared.where, shared.people) == ("form A question 4", 6)
    assert shared.question.stem == Making(shelf, paper).of(paper.forms[0])[3].stem


def test_forms_that_ask_other_cases_of_the_same_families_are_not_taken_for_the_same_questions(sitting):
    paper = made(sitting, 4, 3).paper
    assert len({frozenset(item.entry for item in form.items) for form in paper.forms}) == 1
    keys = {form.serial: tuple(item.key for item in form.items) for form in paper.forms}
    sat = gather(
        sitting.world.shelf, paper, [AnswerRow(f"P{n}", serial, keys[serial]) for n, serial in enumerate("ABC")]
    )
    assert [block.forms for block in items_report(sat).blocks] == [("A",), ("B",), ("C",)]
    assert not group_report(sat).one_form


def test_everybody_with_numbers_of_their_own_is_asked_the_same_cases(sitting):
    paper = made(sitting, 4, 1, people=("Ada", "Ben", "Cara")).paper
    cases = [[(q.id, q.case) for q in Making(sitting.world.shelf, paper).of(form)] for form in paper.forms]
    assert cases[0] == cases[1] == cases[2]


def test_a_paper_of_ones_own_from_before_cases_were_told_apart_is_reported_as_ever(sitting):
    """Then everybody had each family once, in a case of their own, and it was one question of the paper."""
    shelf, paper = sitting.world.shelf, made(sitting, 2, 1, people=("Ada", "Ben")).paper
    entries = [shelf.find(f"circuits/{name}/with-what-{name}") for name in ("one", "two")]
    forms = tuple(
        Form(
            form.letter,
            form.serial,
            form.person,
            tuple(Item(e.head.id, seed, e.head.digest, "cases", make(e, seed).key) for e in entries),
        )
        for seed, form in enumerate(paper.forms, 1)
    )
    old = from_json(to_json(paper._replace(forms=forms)), "paper.json")
    rows = [AnswerRow(form.person, form.serial, tuple(item.key for item in form.items)) for form in old.forms]
    (block,) = items_report(gather(shelf, old, rows)).blocks
    assert [figures.people for _, _, figures in block.items] == [2, 2]


def test_the_bank_serves_as_many_parallel_forms_as_before_families_were_asked_by_case():
    plans = [blueprint(SHELF, name) for name in blueprint_names(SHELF)]
    pool = pool_of(SHELF, *plans)
    assert {each.id for each in plans} == AT_LEAST.keys()
    pairs = enemies(pool)
    for each in plans:
        assert first_forms(each, pool, pairs, AT_LEAST[each.id], Random(1).random) is not None, each.id


def test_what_a_bank_can_serve_is_counted_in_cases(sitting):
    found = served(plan(2), pool_of(sitting.world.shelf, plan(2)))
    (section,) = found.sections
    assert (section.cases, section.entries, section.calculations) == (12, 2, 0)
    assert found.forms == 6
