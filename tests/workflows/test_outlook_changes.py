"""What the outlook makes of a world that changed meanwhile: zones, clocks, exam days, entries, banks."""

import shutil
from datetime import UTC, datetime, timedelta, timezone
from itertools import count

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.schedule import Memory
from quizzer.workflows.forecast.plan import plan_for
from quizzer.workflows.forecast.readiness import ready_for
from quizzer.workflows.forecast.weakness import weak_for, weak_parts
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from tests.stores import in_memory, review
from tests.stubbank import FILES, stub_bank

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
TODAY = NOON.date()
EAST, WEST = timezone(timedelta(hours=13)), timezone(timedelta(hours=-11))
_ids = count()


class Place:
    """A store in memory over a bank folder, with one trainee; the clock and the bank can be changed."""

    def __init__(self, folder):
        self.store = in_memory()
        self.folder, self.now = folder, NOON
        self.ada = self.store.add_trainee("ada", "Ada", NOON)

    @property
    def world(self):
        """The world as it is now: the bank is read anew."""
        return World(self.store, Shelf(self.folder), lambda: self.now, lambda: 1, lambda: f"n{next(_ids)}")

    def answer(self, entry, when, *, right=True, day=None, kept=True):
        """One answer at an instant, with the memory it leaves."""
        day = day or when.date()
        memory = Memory(250, 1, 6, day, day + timedelta(days=6)) if kept else None
        self.store.record(
            review(
                f"r{next(_ids)}",
                trainee="ada",
                entry=entry,
                topic=entry.split("/")[0],
                right=right,
                day=day,
                answered_at=when,
                reply="A",
            ),
            memory,
        )

    def studied(self, when=NOON - timedelta(days=2), topics=FILES, **changes):
        """Three answers in each file of these topics, a minute apart."""
        for topic in topics:
            for name in FILES[topic]:
                for n in range(3):
                    when += timedelta(minutes=1)
                    self.answer(f"{topic}/{name}/entry-{n}", when, **changes)

    def ready(self, exam=None):
        """Her readiness."""
        world = self.world
        return ready_for(world, self._ada(), blueprint(world.shelf, "wiring-regulations"), exam)

    def weak(self):
        """Her weak topics."""
        world = self.world
        return weak_for(world, self._ada(), blueprint(world.shelf, "wiring-regulations"))

    def plan(self, exam=TODAY + timedelta(days=28), minutes=20.0):
        """Her plan."""
        world = self.world
        return plan_for(world, self._ada(), blueprint(world.shelf, "wiring-regulations"), exam, minutes, range(7))

    def kept(self):
        """How many answers the store holds."""
        return len(self.store.reviews("ada"))

    def _ada(self):
        return self.store.find_trainee("Ada")


@pytest.fixture
def place(tmp_path):
    return Place(stub_bank(tmp_path / "bank"))


def test_a_zone_changed_between_two_sessions_moves_no_answer(place):
    """Flown east to west: the later session has the earlier date. Each answer counts on its own day."""
    home = Place(place.folder)
    for n in range(60):
        topic = list(FILES)[n % len(FILES)]
        entry, when = f"{topic}/{FILES[topic][0]}/entry-{n % 8}", NOON - timedelta(days=3, minutes=60 - n)
        home.answer(entry, when)
        place.answer(entry, when.astimezone(EAST if n < 30 else WEST))
    days = {one.day for one in place.store.reviews("ada")}
    assert len(days) == 2
    here, there = home.ready(), place.ready()
    assert (there.answers, there.notes) == (60, ())
    assert there.span == pytest.approx(here.span, abs=3)  # a day between them says a little of forgetting
    assert sum(state.answers for state in place.weak().topics) == 60
    assert place.plan().taken == pytest.approx(home.plan().taken, abs=2)


def test_the_same_instant_is_another_today_in_another_zone(place):
    place.studied()
    place.now = NOON.astimezone(WEST)
    west = place.ready(TODAY + timedelta(days=10))
    place.now = NOON.astimezone(EAST)
    east = place.ready(TODAY + timedelta(days=10))
    assert (east.today - west.today).days == 1
    assert west.notes == east.notes == ()
    assert west.answers == east.answers == place.kept()


def test_an_exam_day_moved_moves_everything_and_keeps_every_answer(place):
    place.studied()
    held, marks = place.kept(), []
    for days in (5, 60, 5):
        place.store.set_exam("ada", TODAY + timedelta(days=days))
        found = place.ready()
        assert found.exam == place.weak().exam == TODAY + timedelta(days=days)
        marks.append(sum(found.span))
    assert marks[0] > marks[1]
    assert marks[2] == marks[0]
    assert place.kept() == held
    assert len(place.plan(TODAY + timedelta(days=60)).days) > len(place.plan(TODAY + timedelta(days=5)).days)


def test_an_exam_day_passed_is_said_and_today_taken(place):
    place.studied()
    place.store.set_exam("ada", TODAY - timedelta(days=1))
    for found in (place.ready(), place.weak()):
        assert found.exam is None
        assert "has passed" in found.notes[0]
    assert place.ready().day == TODAY


def test_a_clock_set_back_a_month_keeps_what_lies_ahead_for_later(place):
    place.studied()
    held, before = place.kept(), place.ready().marks.mean
    place.now = NOON - timedelta(days=30)
    back = place.ready()
    assert back.marks is None
    assert f"{held} answers are dated after today" in back.notes[0]
    assert f"{held} answers are dated after today" in place.weak().notes[0]
    plan = place.plan()
    assert not plan.pace.own
    assert plan.days[0].day == place.now.date()
    place.now = NOON
    assert place.ready().marks.mean == before
    assert place.kept() == held


def test_a_deleted_entry_is_neither_planned_nor_asked_but_counts_for_its_topic(place):
    place.studied(topics=["testing"])
    before, weak = place.plan(), place.weak()
    file = place.folder / "testing" / "ring.toml"
    file.write_text(file.read_text().replace('[[card]]\nid = "entry-0"\nsafety_critical = true\n', ""))
    after = place.plan()
    assert after.wanted == before.wanted - 1
    assert sum(day.reviews for day in after.days) < sum(day.reviews for day in before.days)
    assert [state.answers for state in place.weak().topics] == [state.answers for state in weak.topics]
    asked = start(place.world, place.ada, ["testing"], Limits(None, 300), 300)[0]
    assert "testing/ring/entry-0" not in {one.entry for one in asked.line}


def test_a_topic_deleted_whole_is_said_and_counts_again_when_it_comes_back(place, tmp_path):
    place.studied()
    before, held = place.ready().marks.mean, place.kept()
    shutil.move(place.folder / "three-phase", tmp_path / "away")
    gone, many = place.ready(), 3 * len(FILES["three-phase"])
    assert f"{many} answers belong to topics that this bank does not have" in place.weak().notes[0]
    assert gone.marks.mean == pytest.approx(before, abs=1)  # the paper names the topic still
    assert not any(part.startswith("three-phase") for part in weak_parts(place.world, place.ada, gone.blueprint, 99))
    assert place.plan().wanted < 288
    shutil.move(tmp_path / "away", place.folder / "three-phase")
    assert place.ready().marks.mean == before
    assert (place.weak().notes, place.kept()) == ((), held)


def test_an_entry_rewritten_and_one_moved_to_another_file_count_for_the_topic(place):
    for n in range(4):
        place.answer(f"design/{'loop' if n % 2 else 'moved-since'}/entry-{n}", NOON - timedelta(days=n + 1))
    state = next(state for state in place.weak().topics if state.name == "design")
    assert state.answers == 4
    assert next(part.answers for part in place.weak().parts if part.name == "design/loop") == 2


def test_two_banks_merged_are_one_history(place, tmp_path):
    """Each bank had half of the topics, and both had `safety`: an entry of the same id is one entry."""
    names = list(FILES)
    halves = names[:7], [*names[7:], "safety"]
    other = stub_bank(tmp_path / "other")
    for folder, half in zip((place.folder, other), halves, strict=True):
        for topic in set(names) - set(half):
            shutil.rmtree(folder / topic)
    for folder, half in zip((place.folder, other), halves, strict=True):
        place.folder = folder
        place.studied(topics=half)
    alone = place.weak()
    for topic in halves[0]:
        shutil.copytree(tmp_path / "bank" / topic, other / topic, dirs_exist_ok=True)
    merged = place.weak()
    answers = {state.name: state.answers for state in merged.topics}
    assert alone.notes
    assert merged.notes == ()
    assert sum(answers.values()) == merged.answers == place.kept()
    assert answers["safety"] == 2 * 3 * len(FILES["safety"])
    assert len(place.store.standings("ada")) == 3 * sum(map(len, FILES.values()))
    assert place.ready().marks is not None
