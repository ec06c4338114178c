"""Papers, sittings, scripts and groups in the store, and how an older store gets the tables for them."""

from datetime import timedelta
from pathlib import Path

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.paper.pool import Observed
from quizzer.schedule import FoldRules, Memory, Review, next_memory
from quizzer.store import MarkedScript, Newcomer, Store, open_store
from quizzer.store.connection import Connection
from quizzer.store.migrations import NEWEST
from quizzer.store.opening import prepare
from quizzer.store.place import read_url
from quizzer.store.tables import CHALLENGE, MEMORY, REVIEW, TRAINEE
from tests.stores import ENTRIES, MARKED, NOON, PAPER, TODAY, Faulty, held, held_in, peopled, review, script, sitting

OWN = PAPER._replace(
    id="own", forms=tuple(PAPER.forms[0]._replace(serial=f"A0{n}", person=who) for n, who in enumerate(("Ada", "Ben")))
)


def test_a_paper_comes_back_as_it_was_kept(store: Store) -> None:
    for paper in (PAPER, OWN, PAPER):
        store.papers.keep(paper)
    assert store.papers.find("own") == OWN
    assert store.papers.every() == (PAPER, OWN)


def test_another_paper_with_the_same_id_is_refused(store: Store) -> None:
    store.papers.keep(PAPER)
    with pytest.raises(Refused, match="another paper is kept as safety-2026-03-02-7"):
        store.papers.keep(PAPER._replace(pass_mark=1))
    assert store.papers.every() == (PAPER,)


def test_an_unknown_paper_is_told_with_the_nearest(store: Store) -> None:
    store.papers.keep(PAPER)
    with pytest.raises(NotFound, match="there is no paper 'safety-2026-03-02-8'") as refusal:
        store.papers.find("safety-2026-03-02-8")
    assert "did you mean safety-2026-03-02-7?" in refusal.value.mend


def entry_paper(id: str, entry: str, person: str = "") -> object:
    form = PAPER.forms[0]
    item = form.items[0]._replace(entry=entry)
    return PAPER._replace(id=id, forms=(form._replace(person=person, items=(item,)),))


def test_recent_questions_are_those_of_the_last_two_papers_of_each_person(store: Store) -> None:
    store.add_trainee("t1", "Ada", NOON)
    store.add_trainee("t2", "Ben", NOON)
    for n in range(4):
        store.papers.keep(entry_paper(f"p{n}", f"e{n}"))
        store.papers.record_scripts(f"p{n}", (), [MarkedScript(script("t1", "Ada", paper=f"p{n}"), ())], NOON)
    store.papers.keep(entry_paper("own", "mine", "ben"))
    store.papers.begin_sitting(sitting("t2", paper="p0"))
    assert store.papers.recent_questions(()) == {("e3", 7), ("mine", 7)}
    assert store.papers.recent_questions(["Ada"]) == {("e2", 7), ("e3", 7)}
    assert store.papers.recent_questions(["ADA", "Ben"]) == {("e0", 7), ("e2", 7), ("e3", 7), ("mine", 7)}
    assert store.papers.recent_questions(["Cara"]) == frozenset()


def test_facilities_count_first_answers_without_drills(store: Store) -> None:
    peopled(store)
    later = NOON + timedelta(hours=1)
    store.record(review("later", right=False, answered_at=later), None)
    store.record(review("earlier", trainee="t2", right=False, answered_at=NOON - timedelta(hours=1)), None)
    store.record(review("drill", entry="new", drill=True), None)
    store.add_trainee("t3", "Cara", NOON)
    store.record(review("edited", trainee="t3", digest="d2", right=True), None)
    assert store.papers.facilities() == {
        ("earthing/loop/zs-design", "d1"): Observed(2, 1),
        ("earthing/loop/zs-design", "d2"): Observed(1, 1),
        ("safety/isolation/order", "d1"): Observed(2, 2),
    }


def test_scripts_are_kept_once_with_their_reviews_and_memories(store: Store) -> None:
    peopled(store)
    assert store.papers.record_scripts(PAPER.id, [Newcomer("t3", "Cara")], MARKED, NOON) == 2
    before = held(store)
    assert store.papers.record_scripts(PAPER.id, [Newcomer("t3", "Cara")], MARKED, NOON) == 0
    assert held(store) == before
    assert [(one.name, one.form) for one in store.papers.scripts(PAPER.id)] == [
        ("Ada", "A"),
        ("Ada", "B"),
        ("Ben", "A"),
        ("Cara", "B"),
    ]
    assert [one.entry for one in store.standings("t3")] == sorted(ENTRIES)


def test_one_script_that_cannot_be_kept_keeps_all_out(store: Store) -> None:
    before = held(peopled(store))
    other = MarkedScript(script("t2", "Ben", answers="BBB"), ())
    with pytest.raises(Refused, match="form A of Ben is marked already, with other answers"):
        store.papers.record_scripts(PAPER.id, [Newcomer("t3", "Cara")], [*MARKED, other], NOON)
    with pytest.raises(Refused, match="there is already a trainee ada"):
        store.papers.record_scripts(PAPER.id, [Newcomer("t3", "ada")], MARKED, NOON)
    with pytest.raises(NotFound, match="no such trainee"):
        store.papers.record_scripts(PAPER.id, (), MARKED, NOON)
    with pytest.raises(NotFound, match="there is no paper none"):
        store.papers.record_scripts("none", (), (), NOON)
    assert held(store) == before


def test_a_later_answer_keeps_its_memory_when_an_older_script_is_marked(store: Store) -> None:
    peopled(store)
    late = review("late", answered_at=NOON + timedelta(hours=2))
    store.record(late, next_memory(None, 5, TODAY))
    memory = store.memory("t1", late.entry)
    store.papers.record_scripts(PAPER.id, [Newcomer("t3", "Cara")], MARKED, NOON)
    assert store.memory("t1", late.entry) == memory
    assert store.check() == ()


def test_a_script_marked_late_leaves_what_it_would_have_left_in_time(store: Store) -> None:
    """One failed before and passed since, one the other way round, one replaced and that answered, one left alone."""
    peopled(store)
    successor = "testing/ring/its-successor"
    rules = FoldRules(frozenset(ENTRIES[:1]), {ENTRIES[2]: successor})
    days = (timedelta(hours=1), timedelta(days=3), timedelta(days=40))

    def since(who: str) -> list[Review]:
        answers = [(ENTRIES[0], 5), (ENTRIES[1], 1), (successor, 5)]
        return [
            review(f"{who}-{ago.days}-{at}", trainee=who, entry=entry, quality=quality)._replace(
                answered_at=NOON + ago, day=TODAY + timedelta(days=ago.days)
            )
            for ago in days
            for at, (entry, quality) in enumerate(answers)
        ]

    def sat(who: str, name: str) -> MarkedScript:
        qualities = zip((*ENTRIES, "testing/dead/alone"), (1, 5, 1, 5), strict=True)
        answers = [
            review(f"{who}-s-{entry}", trainee=who, entry=entry, quality=quality) for entry, quality in qualities
        ]
        return MarkedScript(
            script(who, name, form="B"), tuple((one, next_memory(None, one.quality, TODAY)) for one in answers)
        )

    def remembered(who: str, name: str, *, late: bool) -> dict[str, Memory]:
        store.add_trainee(who, name, NOON)
        steps = [
            lambda: store.papers.record_scripts(PAPER.id, (), [sat(who, name)], NOON + days[-1], lambda: rules),
            lambda: store.receive(who, since(who), rules),
        ]
        for step in reversed(steps) if late else steps:
            step()
        return {each.entry: each.memory for each in store.standings(who)}

    in_time = remembered("t4", "Dora", late=False)
    assert remembered("t3", "Cara", late=True) == in_time
    assert set(in_time) == {*ENTRIES, successor, "testing/dead/alone"}
    assert store.check() == ()


def test_a_sitting_is_begun_once_and_saved_turn_by_turn(store: Store) -> None:
    peopled(store)
    begun = store.papers.begin_sitting(sitting("t1", allowed=9999))
    assert begun == sitting("t1"), "the one that was there"
    first = store.papers.save_sitting(begun._replace(answers="A--", seconds=5))
    assert (first.turn, first.answers) == (1, "A--")
    assert store.papers.save_sitting(begun._replace(answers="A--", seconds=5)) == first, "the same again"
    with pytest.raises(Refused, match="another window"):
        store.papers.save_sitting(begun._replace(answers="C--"))
    done = store.papers.save_sitting(first._replace(submitted_at=NOON))
    with pytest.raises(Refused, match="handed in"):
        store.papers.save_sitting(done._replace(answers="C--"))
    assert [one for one in store.papers.sittings(PAPER.id) if one.trainee == "t1"] == [done]


def test_a_sitting_of_somebody_erased_meanwhile_is_not_found(store: Store) -> None:
    peopled(store).erase_trainee("t1")
    with pytest.raises(NotFound, match="no longer kept"):
        store.papers.save_sitting(sitting("t1"))
    with pytest.raises(NotFound, match="no such trainee"):
        store.papers.begin_sitting(sitting("t1"))


def test_erasing_a_trainee_takes_their_name_out_of_papers_too(store: Store) -> None:
    peopled(store).papers.keep(OWN)
    assert store.export_trainee("t1")["made_for"] == [{"paper": "own", "form": "A00"}]
    store.erase_trainee("t1")
    assert [form.person for form in store.papers.find("own").forms] == ["", "Ben"]
    assert store.groups.members("Monday") == ("Ben",)
    assert {one.trainee for one in (*store.papers.sittings(PAPER.id), *store.papers.scripts(PAPER.id))} == {"t2"}
    assert "Ada" not in repr(held(store))
    store.papers.keep(OWN)
    assert store.papers.find("own").forms[0].person == "", "the file does not bring the name back"


LATER = (
    "blueprint",
    "minutes_a_day",
    "no_exam",
    "exercise",
    "device",
    "sequence",
    "claimed",
)  # columns that the first version had not


@pytest.fixture
def first_version(tmp_path: Path) -> tuple[Path, dict[str, list[tuple[object, ...]]]]:
    """A file as the first version of the program left it, and what it holds."""
    file = tmp_path / "study.db"
    with open_store(str(tmp_path / "new.db")) as store:
        rows = held(peopled(store))
    wire = Connection(read_url(str(file)))
    prepare(wire, create=True, upto=1)
    old = (TRAINEE, MEMORY, REVIEW, CHALLENGE)
    with wire.transaction("write"):
        for table in old:
            names = [column.name for column in table.columns if column.name not in LATER]
            for row in rows[table.name]:
                holes = ", ".join(f":{name}" for name in names)
                wire.run(f"INSERT INTO {table.name} VALUES ({holes})", dict(zip(names, row, strict=False)))  # noqa: S608
    wire.close()
    return file, {table.name: sorted(rows[table.name]) for table in old}


def test_a_store_of_the_first_version_gets_the_new_tables_and_loses_nothing(first_version) -> None:
    file, rows = first_version
    with open_store(str(file)) as store:
        assert store.info().version == NEWEST
        store.set_minutes("t1", 15)
        store.set_minutes("t1", None)
        store.papers.keep(PAPER)
        assert store.groups.fill("Monday", (), ["t1"], NOON) == 1
        assert store.check() == ()
    after = held_in(file)
    assert {name: after[name] for name in rows} == rows


@pytest.mark.parametrize("mode", ["before", "on the database", "after"])
def test_the_steps_to_the_newest_version_are_whole_or_not_at_all(first_version, mode: str) -> None:
    file, rows = first_version
    whole, faulty = file.read_bytes(), Faulty()
    open_store(str(file), execute=faulty).close()
    for n in range(1, len(faulty.seen) + 1):
        for path in file.parent.glob("study.db*"):
            path.unlink()
        file.write_bytes(whole)
        faulty.arm(n, mode)
        with pytest.raises(Exception, match=r".") as told:
            open_store(str(file), execute=faulty).close()
        assert told.value.mend
        faulty.arm(0)
        with open_store(str(file)) as store:
            assert store.info().version == NEWEST
        assert {name: held_in(file)[name] for name in rows} == rows


def test_a_backup_of_the_first_version_is_restored(first_version, tmp_path: Path) -> None:
    file, _ = first_version
    with open_store(str(tmp_path / "other.db")) as store:
        peopled(store)
        counts = store.restore(file, NOON).counts
        assert (counts.trainees, counts.reviews, counts.scripts) == (2, 4, 0)
        assert store.papers.every() == ()
