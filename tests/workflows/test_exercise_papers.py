"""Papers and worksheets that ask something of workings: made, made again from their record, exported and marked."""

import json
import shutil
import zipfile
from datetime import date
from io import BytesIO
from itertools import count

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.paper.record import to_json
from quizzer.paper.record_reading import from_json
from quizzer.workflows.exercises import neighbours_in
from quizzer.workflows.papers.exporting import KINDS, exported
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.papers import Order, make_paper, questions_of
from quizzer.workflows.papers.script_marking import Handed
from quizzer.workflows.world import World
from tests.shippedbank import SHELF
from tests.sitting import MORNING, Clock
from tests.stores import in_memory

PLAN = blueprint(SHELF, "workings")
ASKED = {section.id: section.exercise for section in PLAN.sections}


@pytest.fixture(scope="module")
def paper():
    return make_paper(SHELF, PLAN, Order(2, 0, 5, "", signed_only=False), date(2026, 11, 30), {}, frozenset()).paper


def test_every_section_asks_what_its_blueprint_says(paper):
    assert set(ASKED.values()) == {"wrong-line", "missing-line", "next-line", "first-step", "about-how-much"}
    for form in paper.forms:
        questions = Making(SHELF, paper).of(form)
        for item, question in zip(form.items, questions, strict=True):
            assert item.exercise.partition(":")[0] == ASKED[item.section]
            assert question.exercise == item.exercise
            assert question.kind == "choose"
            assert question.key == item.key
    assert len({item.entry for form in paper.forms for item in form.items}) == 2 * PLAN.questions


def test_the_record_makes_the_same_questions_again(paper):
    again = from_json(to_json(paper), "paper.json")
    assert again == paper
    for form in paper.forms:
        near = neighbours_in(SHELF)
        assert questions_of(SHELF.find, again, form, near) == Making(SHELF, paper).of(form)


def test_a_first_step_whose_neighbours_have_changed_is_refused(paper, tmp_path):
    item = next(each for each in paper.forms[0].items if each.exercise == "first-step")
    root = tmp_path / "banks"
    shutil.copytree(SHELF.root, root)
    folder = root / item.entry.split("/")[0]
    own = item.entry.rpartition("/")[0]
    path = next(
        each
        for each in sorted(folder.glob("*.toml"))
        if f"{folder.name}/{each.stem}" != own and "[[template]]" in each.read_text(encoding="utf-8")
    )
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('level    = "apply"', 'level    = "recall"', 1), encoding="utf-8")
    if path.read_text(encoding="utf-8") == text:
        pytest.fail(f"nothing was changed in {path.name}")
    with pytest.raises(Refused, match=f"{item.entry} has changed"):
        Making(Shelf(root), paper._replace(questions="")).of(paper.forms[0])
    assert Making(Shelf(root), paper).of(paper.forms[0])[0].stem


def test_each_export_holds_every_question(paper):
    form = paper.forms[0]
    questions = Making(SHELF, paper).of(form)
    for kind in KINDS:
        content = exported(SHELF, paper, form, kind).content
        if kind.startswith("qti"):
            packed = zipfile.ZipFile(BytesIO(content))
            items = [packed.read(name).decode() for name in packed.namelist() if "/Q" in name or name.startswith("Q")]
            assert len(items) >= len(questions)
            assert sum("Which line is wrong, and what should stand there?" in each for each in items) == 4
        elif kind == "json":
            told = [each["form"] for each in json.loads(content)["questions"]]
            assert told == [question.exercise for question in questions]
        else:
            assert content.decode().count("about how much is the figure") == 3


def test_an_answer_is_kept_and_changes_nothing_in_the_schedule(paper):
    store, ids = in_memory(), count(1)
    world = World(store, SHELF, Clock(), lambda: 1, lambda: f"id-{next(ids)}")
    ada = store.add_trainee("t1", "Ada", MORNING)
    store.papers.keep(paper)
    form = paper.forms[0]
    keys = "".join(item.key for item in form.items)
    (line,) = mark_all(world, paper, Making(SHELF, paper), (), [Handed(ada.id, "Ada", form, keys, "table", MORNING)])
    assert line.verdict.right == PLAN.questions
    reviews = store.reviews(ada.id)
    assert {(each.entry, each.exercise) for each in reviews} == {(item.entry, item.exercise) for item in form.items}
    assert all(each.drill and each.right for each in reviews)
    assert store.standings(ada.id) == ()
    assert store.papers.facilities() == {}  # nor does it say how hard the whole questions are
    assert store.check() == ()
