"""What is said of a person: refusals, hostile clocks and zones, exam days moved or passed, entries gone or new."""

from datetime import UTC, date, datetime, timedelta, timezone
from itertools import count

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.schedule import Confidence
from quizzer.workflows.forecast.plan import plan_for
from quizzer.workflows.forecast.readiness import PaperAsked, ready_for, ready_group
from quizzer.workflows.forecast.weakness import weak_for, weak_group, weak_parts
from quizzer.workflows.world import World
from tests.shippedbank import SHELF
from tests.stores import in_memory, review

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
TODAY = NOON.date()
PLAN = blueprint(SHELF, "wiring-regulations")
FOLDERS = sorted({entry.id.rpartition("/")[0] for entry in SHELF.listed()})
_ids = count()


class Place:
    """A store in memory with people in it, over the shipped bank."""

    def __init__(self, now=NOON):
        self.world = World(in_memory(), SHELF, lambda: now, lambda: 1, lambda: f"n{next(_ids)}")
        self.store = self.world.store

    def person(self, name, exam=None):
        """A new trainee with this exam day."""
        trainee = self.store.add_trainee(f"t-{name}", name, NOON)
        self.store.set_exam(trainee.id, exam)
        return trainee._replace(exam=exam)

    def answer(self, who, entry, *, ago=1, right=True, **changes):
        """One answer, so many days ago."""
        day = TODAY - timedelta(days=ago)
        values = {
            "trainee": who.id,
            "entry": entry,
            "topic": entry.split("/")[0],
            "right": right,
            "day": day,
            "answered_at": NOON - timedelta(days=ago),
            "reply": "A",
            **changes,
        }
        self.store.record(review(f"r{next(_ids)}", **values), None)

    def studied(self, who, times=3, **changes):
        """So many answers in every sub-topic of the bank."""
        for folder in FOLDERS:
            for n in range(times):
                self.answer(who, f"{folder}/entry-{n}", **changes)


@pytest.fixture
def place():
    return Place()


def test_too_few_answers_get_no_number_but_what_is_missing(place):
    ada = place.person("Ada")
    place.answer(ada, "testing/ring/a")
    found = ready_for(place.world, ada, PLAN)
    assert found.marks is None
    assert found.coverage == 0
    assert found.thin[0][0] == "protection"
    assert "testing" in [name for name, _, answers in found.thin if answers == 1]
    assert (found.sections, found.moves, found.curve) == ((), (), ())


def test_three_answers_in_half_the_weight_are_enough(place):
    ada = place.person("Ada")
    for topic in ("protection", "containment", "circuits", "three-phase", "locations", "low-carbon"):
        for n in range(3):
            place.answer(ada, f"{topic}/any/{n}")
    found = ready_for(place.world, ada, PLAN)
    assert found.coverage == pytest.approx(0.6, abs=0.1)
    assert found.marks is not None
    assert len(found.marks.chances) == 61


def test_who_is_right_is_ahead_of_who_is_wrong_and_both_are_uncertain(place):
    good, bad = place.person("Good"), place.person("Bad")
    place.studied(good, right=True)
    place.studied(bad, right=False)
    high, low = (ready_for(place.world, who, PLAN).marks for who in (good, bad))
    assert high.mean > 48
    assert low.mean < 25
    assert high.at_least(36) < 1
    assert high.between(0.9)[0] < high.mean < high.between(0.9)[1]


def test_a_mark_is_named_where_it_hardly_hangs_on_forgetting_and_is_a_range_where_it_does(place):
    """Twelve answers in every sub-topic today: today's mark is a number; in six weeks it is from where to where."""
    ada = place.person("Ada")
    for folder in FOLDERS:
        for n in range(12):
            place.answer(ada, f"{folder}/entry-{n}", ago=0, right=n % 3 > 0)
    near, far = ready_for(place.world, ada, PLAN), ready_for(place.world, ada, PLAN, TODAY + timedelta(days=42))
    assert near.span == near.marks.between(0.9)
    assert near.span[0] < near.marks.mean < near.span[1]
    assert all(part.expected is not None for part in near.sections)
    assert far.marks is None
    assert far.span[1] - far.span[0] > near.span[1] - near.span[0] + 3
    assert all(part.expected is None and part.all_right is None for part in far.sections)
    assert [mean is None for _, mean, _, _ in far.curve][:: len(far.curve) - 1] == [False, True]
    for when, told in ((TODAY, True), (TODAY + timedelta(days=42), False)):
        (seen,) = ready_group(place.world, [ada._replace(exam=when)], PLAN)
        assert (seen.marks is not None) == told
        state = weak_for(place.world, ada, PLAN, when).topics[0]
        assert (state.now.told, state.then.told) == (True, told)


def test_drills_are_not_evidence(place):
    ada = place.person("Ada")
    place.studied(ada, drill=True)
    assert ready_for(place.world, ada, PLAN).answers == 0


def test_an_exam_far_off_lowers_the_mark_and_one_passed_is_said(place):
    ada = place.person("Ada", exam=TODAY + timedelta(days=90))
    place.studied(ada)
    later, sooner = ready_for(place.world, ada, PLAN), ready_for(place.world, ada, PLAN, TODAY + timedelta(days=3))
    assert sum(later.span) < sum(sooner.span)
    assert (later.day, sooner.day) == (ada.exam, TODAY + timedelta(days=3))
    passed = ready_for(place.world, ada._replace(exam=TODAY - timedelta(days=2)), PLAN)
    assert passed.exam is None
    assert passed.day == TODAY
    assert "has passed" in passed.notes[0]
    assert weak_for(place.world, ada._replace(exam=date.min), PLAN).exam is None


def test_the_exam_day_itself_is_not_passed(place):
    ada = place.person("Ada", exam=TODAY)
    place.studied(ada)
    assert ready_for(place.world, ada, PLAN).exam == TODAY


def test_a_clock_that_was_years_ahead_loses_nothing_and_rules_nothing(place):
    ada, elsewhere = place.person("Ada"), Place()
    ben = elsewhere.person("Ben")
    place.studied(ada)
    elsewhere.studied(ben)
    for n in range(5):
        place.answer(ada, f"testing/ring/{n}", ago=-3000, right=False)
    with_it, without = ready_for(place.world, ada, PLAN), ready_for(elsewhere.world, ben, PLAN)
    assert with_it.marks.mean == pytest.approx(without.marks.mean, abs=1e-6)
    assert with_it.notes == ("5 answers are dated after today (a clock was wrong then): kept, but left out here.",)
    assert len(place.store.reviews(ada.id)) == len(FOLDERS) * 3 + 5


def test_a_clock_set_back_to_before_every_answer_leaves_nothing_to_say():
    place = Place(now=datetime(1970, 1, 1, tzinfo=UTC))
    ada = place.person("Ada")
    place.studied(ada)
    found = ready_for(place.world, ada, PLAN)
    assert found.marks is None
    assert "dated after today" in found.notes[0]
    assert weak_for(place.world, ada, PLAN).answers == 0


def test_a_traveller_a_day_ahead_counts_as_today(place):
    ada = place.person("Ada")
    place.studied(ada, day=TODAY + timedelta(days=1), answered_at=NOON.astimezone(timezone(timedelta(hours=14))))
    found = ready_for(place.world, ada, PLAN)
    assert found.notes == ()
    assert found.marks is not None


def test_a_rewritten_entry_counts_as_before(place):
    same, rewritten = place.person("Same"), place.person("Rewritten")
    for n in range(4):
        place.answer(same, SHELF.listed()[0].id, ago=9 - n, digest="as it is")
        place.answer(rewritten, SHELF.listed()[0].id, ago=9 - n, digest=f"version {n}")
    mine, theirs = (weak_for(place.world, who, PLAN) for who in (same, rewritten))
    assert mine.topics == theirs.topics


def test_a_deleted_entry_counts_for_its_topic_and_is_not_asked_again(place):
    kept, gone = place.person("Kept"), place.person("Gone")
    real = [entry.id for entry in SHELF.listed() if entry.topic == "testing"][:8]
    for entry in real:
        place.answer(kept, entry)
        place.answer(gone, f"{entry}-deleted")
    mine, theirs = (
        next(state for state in weak_for(place.world, who, PLAN).topics if state.name == "testing")
        for who in (kept, gone)
    )
    assert mine.answers == theirs.answers == 8
    assert mine.now.mean != theirs.now.mean  # eight of the bank's are met, or none
    assert mine.now.mean == pytest.approx(theirs.now.mean, abs=0.03)


def test_what_the_number_rests_on_is_counted(place):
    ada, ben = place.person("Ada"), place.person("Ben")
    place.studied(ada)
    place.studied(ben)
    entry = f"{FOLDERS[0]}/entry-0"
    place.answer(ada, entry, ago=0)
    found = ready_for(place.world, ada, PLAN)
    assert (found.firsts, found.answers - found.firsts, found.others) == (3 * len(FOLDERS), 1, 1)


def test_answers_would_narrow_it_most_where_a_heavy_topic_has_few(place):
    ada = place.person("Ada")
    for folder in FOLDERS:
        for n in range(1 if folder.startswith("protection/") else 20):
            place.answer(ada, f"{folder}/entry-{n}", right=n % 3 > 0)
    assert ready_for(place.world, ada, PLAN).sharpest == "protection"


def test_a_topic_that_left_the_bank_is_counted_and_said(place):
    ada = place.person("Ada")
    place.studied(ada)
    place.answer(ada, "telegraphy/keys/morse")
    assert "1 answers belong to topics that this bank does not have" in ready_for(place.world, ada, PLAN).notes[0]
    assert "1 answers belong" in weak_for(place.world, ada, PLAN).notes[0]


def test_two_merged_banks_are_one_history(place):
    """The same id in both banks is one entry; other files of a topic count for the topic they now stand in."""
    ada = place.person("Ada")
    for entry in ("testing/ring/a", "testing/from-the-other-bank/b", "testing/ring/a"):
        place.answer(ada, entry, digest=entry)
    found = weak_for(place.world, ada, PLAN)
    assert next(state.answers for state in found.topics if state.name == "testing") == 3


def test_mistakes_are_counted_out_of_the_answers_where_they_were_made(place):
    ada = place.person("Ada")
    for right in (True, False, True, False):
        place.answer(ada, "three-phase/machines/x", right=right, slip=None if right else "no-root-three")
    place.answer(ada, "three-phase/machines/y")
    place.answer(ada, "three-phase/machines/x", ago=400, right=False, slip="no-root-three")
    found = weak_for(place.world, ada, PLAN)
    assert found.mistakes == (("left out the square root of three in a three-phase sum", 2, 4),)


def test_confident_errors_and_safety_critical_ones_stand_apart(place):
    ada = place.person("Ada")
    critical = next(entry.id for entry in SHELF.listed() if entry.safety_critical)
    place.answer(ada, critical, ago=3, right=False, confidence=Confidence.CERTAIN)
    assert (weak_for(place.world, ada, PLAN).confident, weak_for(place.world, ada, PLAN).critical) == (
        ((critical, 1),),
        (critical,),
    )
    place.answer(ada, critical, ago=1, right=True)
    assert weak_for(place.world, ada, PLAN).critical == ()


def test_a_group_is_seen_as_its_people_are(place):
    people = [place.person("Ada", TODAY + timedelta(days=20)), place.person("Ben")]
    for who, right in zip(people, (True, False), strict=True):
        place.studied(who, right=right)
    seen = list(ready_group(place.world, people, PLAN))
    assert sum(seen[0].span) > sum(seen[1].span)
    words = [{state.word for state in one.topics} for one in weak_group(place.world, people, PLAN)]
    assert words[1] == {"weak"}
    assert list(ready_group(place.world, [], PLAN)) == []


def test_study_weak_begins_with_what_costs_most(place):
    ada = place.person("Ada")
    place.studied(ada)
    for n in range(6):
        place.answer(ada, f"protection/residual-current/{n}", right=False)
    assert weak_parts(place.world, ada, PLAN)[0] == "protection/residual-current"


def test_every_blueprint_adds_up():
    for name in ("wiring-regulations", "safety", "testing-and-faults"):
        paper = PaperAsked(blueprint(SHELF, name), SHELF.listed())
        assert all(sum(part.shares) == pytest.approx(1) for part in paper.parts)
        total = sum(paper.weight(at) for at in range(len(paper.topics.names)))
        assert total == pytest.approx(paper.blueprint.questions)
        assert sum(paper.entry_weights(SHELF.listed()).values()) == pytest.approx(paper.blueprint.questions)


@pytest.mark.parametrize("minutes", [1.0, 20.0, 600.0])
def test_a_plan_says_what_fits_and_what_is_left_out(place, minutes):
    ada = place.person("Ada")
    exam = TODAY + timedelta(days=42)
    plan = plan_for(place.world, ada, PLAN, exam, minutes, range(7))
    assert plan.taken + sum(topic.left for topic in plan.topics) == plan.wanted
    assert plan.capacity == int(len(plan.days) * minutes / 5.5)
    # The days are the sessions themselves, which meet every topic early: more are met than can all be brought to 80 %.
    assert min(plan.capacity, plan.wanted) <= plan.taken <= sum(day.new for day in plan.days)
    assert all(day.minutes <= minutes + 1.25 for day in plan.days)
    assert {day for day, _ in plan.skipped} == {date(2026, 12, 25), date(2026, 12, 28), date(2027, 1, 1)}


def test_a_plan_for_tomorrow_has_one_day(place):
    plan = plan_for(place.world, place.person("Ada"), PLAN, TODAY + timedelta(days=1), 20, range(7))
    assert [day.day for day in plan.days] == [TODAY]
