"""A family in study, in weak topics and in a paper: asked by its cases, counted as one entry, mistakes by name."""

import io
import zipfile

import pytest

from quizzer.bank.blueprints import read_blueprint
from quizzer.bank.fields import Notes
from quizzer.bankfiles.shelf import Shelf
from quizzer.lint.starts import start
from quizzer.marks.answers import AnswerRow
from quizzer.paper.pool import candidates
from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.question.making import make
from quizzer.question.replies import Reply
from quizzer.render.qti.checks import faults_in
from quizzer.render.qti.dialects import DIALECTS as VERSIONS
from quizzer.render.typst.papers import SCHEMES, paper_pdfs
from quizzer.schedule import Confidence
from quizzer.workflows.bank.overview import overview
from quizzer.workflows.bank.signing import unsigned
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.forecast.weakness import weak_for
from quizzer.workflows.papers.exporting import exported
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.papers import questions_of
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.reporting import gather
from quizzer.workflows.study.summary import summary
from tests.render.forms import words
from tests.sitting import Sitting, small_bank

ID = "circuits/family/what-to-measure-with"


@pytest.fixture
def sitting(tmp_path):
    root = small_bank(tmp_path / "banks")
    (root / "circuits" / "family.toml").write_text(start("family"), encoding="utf-8")
    (root / "safety" / "steps.toml").write_text(start("order-family"), encoding="utf-8")
    return Sitting(root)


def answer(session, pick):
    asked = session.next_question()
    return session.answer(asked, Reply(pick(asked.question)), Confidence.FAIRLY_SURE)


def test_a_wrong_thing_is_counted_as_that_mistake_in_the_summary_and_in_weak(sitting):
    session = sitting.session("circuits/family")
    wrong = answer(session, lambda question: next(each.label for each in question.options if each.slip))
    assert wrong.mark.slip.startswith("took ")
    words = f"what to measure with: {wrong.mark.slip.replace('-', ' ')}"
    assert summary(session).mistakes == ((words, 1),)
    found = weak_for(sitting.world, sitting.trainee(), blueprint())
    assert found.mistakes == ((words, 1, 1),)
    assert progress(sitting.world, sitting.trainee()).mistakes.still_made == (
        (f"what-to-measure-with: {wrong.mark.slip}", 1),
    )


def test_a_family_is_one_entry_of_the_schedule_whatever_case_is_asked(sitting):
    keys = []
    for _ in range(3):
        session = sitting.session("circuits/family")
        answer(session, lambda question: keys.append(question.stem) or question.key)
        sitting.clock.forward(days=30)
    (standing,) = sitting.store.standings(sitting.trainee().id)
    assert (standing.entry, standing.memory.repetition) == (ID, 3)
    assert len(set(keys)) == 3


def test_topics_count_families_and_their_cases(sitting):
    lines = {line.topic: line for line in overview(sitting.world.shelf)[0]}
    assert (lines["circuits"].families, lines["circuits"].stems, lines["circuits"].cards) == (1, 6, 1)
    assert (lines["safety"].families, lines["safety"].stems) == (1, 2)


@pytest.fixture
def paper(sitting):
    """Two forms, each with another case of the family beside the card of its topic."""
    forms = tuple(Form(serial, serial, "", _items(sitting, seed)) for serial, seed in (("A", 1), ("B", 4)))
    section = (Section("all", "All", 2, all_right=False),)
    return Paper("cases", "Cases", "cases", "no edition", "2026-11-25", 1, 20, 1, (), section, forms)


def _items(sitting, seed):
    made = (make(sitting.world.shelf.find(id), seed) for id in (ID, "circuits/first/series-current"))
    return tuple(Item(each.id, each.seed, each.head.digest, "all", each.key) for each in made)


def test_a_wrong_thing_in_a_paper_is_reported_by_name(sitting, paper):
    first = make(sitting.world.shelf.find(ID), 1)
    wrong = next(option for option in first.options if option.slip)
    given = wrong.label + "".join(item.key for item in paper.forms[0].items[1:])
    sat = gather(sitting.world.shelf, paper, [AnswerRow("Priya", "A", tuple(given))])
    (found,) = person_report(sat, sat.sheets[0]).wrong
    assert found.mistake == f"what to measure with: {wrong.slip.replace('-', ' ')}"
    assert found.why == wrong.why
    (shared,) = group_report(sat).mistakes
    assert (shared.words, shared.people) == (found.mistake, 1)


def test_cases_print_export_and_are_marked_as_cards_are(sitting, paper):
    shelf, keys = sitting.world.shelf, {"A": "clamp meter", "B": "low-ohm meter"}
    for form in paper.forms:
        questions = questions_of(shelf.find, paper, form)
        assert questions[0].option(questions[0].key).text == keys[form.serial]
        printed = words(paper_pdfs(paper, form, questions)[f"{form.serial}-paper.pdf"])
        told = words(paper_pdfs(paper, form, questions)[f"{SCHEMES}/{form.serial}-mark-scheme.pdf"])
        assert questions[0].stem in printed
        assert questions[0].reason in told
        for version in VERSIONS:
            with zipfile.ZipFile(io.BytesIO(exported(shelf, paper, form, version).content)) as packed:
                assert faults_in({name: packed.read(name) for name in packed.namelist()}) == []


def test_each_case_of_a_family_may_stand_in_a_paper_and_no_procedure(sitting):
    family, steps = sitting.world.shelf.find(ID), sitting.world.shelf.find("safety/steps/clearing-away-a-luminaire")
    found = candidates(family, None, {2, 3})
    assert [(one.id, one.level, one.calculation) for one in found] == [(ID, "apply", False)] * 6
    assert [(one.case, one.thing) for one in found] == [(at, stem.key) for at, stem in enumerate(family.stems, 1)]
    assert [one.case for one in found if one.used] == [2, 3]
    assert "amperes" in found[0].words
    assert candidates(steps, None) == []


def blueprint():
    text = start("blueprint")
    return read_blueprint("safety", Notes("safety.toml", text))


def test_the_list_to_be_signed_off_names_the_sources_of_the_cases_too(sitting):
    path = sitting.root / "circuits" / "family.toml"
    own = 'key = "heat-camera"\nsource = "BS 7671 Regulation 643.2.1"'
    path.write_text(start("family").replace('key = "heat-camera"', own, 1), encoding="utf-8")
    (still,) = unsigned(Shelf(sitting.root), ["circuits/family"])[0]
    assert still.source == "common practice; BS 7671 Regulation 643.2.1"
