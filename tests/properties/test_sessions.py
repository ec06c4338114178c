"""What every session keeps, whatever is answered: minutes, breadth, safety's share, nobody starved, things apart."""

from collections import Counter
from datetime import date, timedelta
from itertools import count, pairwise
from random import Random

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf as RealShelf
from quizzer.bankfiles.shelf import shipped
from quizzer.recall.belief import Prediction
from quizzer.recall.trust import RECENT, trusted
from quizzer.schedule import Confidence, is_due
from quizzer.schedule.aims import part_of
from quizzer.workflows.study.aims import aims_of
from quizzer.workflows.study.order_by_gain import gains_for
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from scripts.simulation.sessions import reply_of
from scripts.simulation.standin import NOBODY, START, Clock, Shelf, Store

REAL = RealShelf(shipped())
LISTED = REAL.listed()
PAPER = blueprint(REAL, "wiring-regulations")
AIMS = aims_of(PAPER, LISTED)
CRITICAL = {one.id for one in LISTED if one.safety_critical}


class Person:
    """Somebody who is right so often, takes so long, and studies the shipped bank's entries, each as a card."""

    def __init__(self, name: str, right: float = 0.7, slow: float = 1.0, exam: date | None = None) -> None:
        self.dice, self.right, self.slow = Random(name), right, slow
        self.trainee = NOBODY if exam is None else NOBODY.__class__(NOBODY.id, NOBODY.name, exam, NOBODY.added_at)
        self.clock, ids, seeds = Clock(), count(1), count(1)
        self.world = World(
            Store(), Shelf.of(shipped(), LISTED), self.clock, lambda: next(seeds), lambda: str(next(ids))
        )
        self.asked: list[tuple[str, bool, bool]] = []  # entry, new, drill

    def study(self, day: int, limits: Limits, gains_by=gains_for) -> list[tuple[str, bool, bool]]:
        """The questions of one session."""
        self.clock.to(day)
        session, _ = start(self.world, self.trainee, (), limits, gains_by=gains_by)
        found = []
        while asked := session.next_question():
            right = self.dice.random() < self.right
            usual = 40 if right and asked.before is not None else 75
            self.clock.forward(self.slow * usual * (0.5 + self.dice.random()))
            sure = self.dice.choice(list(Confidence))
            session.answer(asked, reply_of(asked.question, right), sure)
            found.append((asked.question.id, asked.before is None and not asked.drill, asked.drill))
        self.asked += found
        self.minutes = session.minutes()
        return found


EXAM = START.date() + timedelta(days=42)
PEOPLE = [("a", 0.3, 1.0, None), ("b", 0.7, 1.0, EXAM), ("c", 0.9, 2.5, None), ("d", 0.6, 0.5, EXAM)]


@pytest.mark.parametrize("minutes", [3, 10, 25])
@pytest.mark.parametrize(("name", "right", "slow", "exam"), PEOPLE)
def test_the_minutes_are_kept_repeats_included(name, right, slow, exam, minutes):
    person = Person(f"{name} {minutes}", right, slow, exam)
    for day in range(4):
        person.study(day, Limits(minutes, None))
        longest = slow * 75 * 1.5 / 60  # one question
        assert person.minutes <= minutes + max(1.0, longest)
        assert person.minutes >= minutes - max(1.0, longest), "nothing useful is left out"


@pytest.mark.parametrize("limits", [Limits(10, None), Limits(20, None), Limits(40, None), Limits(None, 5)])
@pytest.mark.parametrize("right", [0.3, 0.8])
def test_every_topic_within_thirty_answers_and_every_section_three_times_within_a_hundred(limits, right):
    person = Person(f"breadth {limits} {right}", right)
    for day in range(40):
        if sum(not drill for _, _, drill in person.asked) < 100:
            person.study(day, limits)
    answers = [entry for entry, _, drill in person.asked if not drill]
    wanted = {one.topic for one in LISTED if AIMS.weights[one.id]}
    assert wanted <= {entry.partition("/")[0] for entry in answers[:30]}
    for section in AIMS.sections:
        assert sum(entry in section for entry in answers[:100]) >= 3


@pytest.mark.parametrize("right", [0.3, 0.8])
def test_safety_critical_is_at_most_one_in_three_of_the_new_and_the_unasked_one_in_eight_come(right):
    person = Person(f"safety {right}", right)
    for day in range(12):
        new = [entry for entry, fresh, _ in person.study(day, Limits(15, None)) if fresh]
        assert sum(entry in CRITICAL for entry in new) <= -(-len(new) // 3)
    met = [entry for entry, fresh, _ in person.asked if fresh]
    assert sum(entry in CRITICAL for entry in met) <= len(met) / 3 + 1
    unasked = [entry for entry in met if not AIMS.weights[entry] and entry not in CRITICAL]
    assert abs(len(unasked) - len(met) / 8) <= 3


def test_a_missed_safety_critical_entry_comes_daily_until_right_twice():
    person = Person("owed", 0.4)
    for day in range(12):
        before = {one.entry for one in person.world.store.standings("") if one.memory.owed}
        asked = {entry for entry, _, _ in person.study(day, Limits(15, None))}
        assert before <= asked or len(before) > 15


def test_by_gain_a_missed_safety_critical_entry_waits_three_days_at_most_though_it_gain_nothing():
    person = Person("waits", 0.6, exam=EXAM)

    def gains(_world, _trainee, _answered, met, fresh, _plan):
        known = {one.entry: -1.0 if one.entry in CRITICAL else 0.5 for one in met}
        return known | {one.entry: 2.0 if one.safety_critical else 1.0 for one in fresh}

    longest, missed = 0, set()
    for day in range(14):
        today = START.date() + timedelta(days=day)
        owed = {one.entry: one.memory for one in person.world.store.standings("") if one.memory.owed}
        asked = {entry for entry, _, _ in person.study(day, Limits(20, None), gains)}
        waited = [(today - memory.due).days for entry, memory in owed.items() if entry not in asked]
        longest, missed = max([longest, *waited]), missed | owed.keys()
    assert missed
    assert longest == 2, "on the third day after it is due it comes before all else"


@pytest.mark.parametrize("keep", [False, True])
def test_with_an_exam_ahead_safety_critical_is_repeated_in_the_weekly_session_alone(keep):
    """In any other it comes back on another day, until it has been right twice."""
    person = Person("repeats", 0.0, exam=EXAM)
    session, _ = start(person.world, person.trainee, (), Limits(20, None), keep=keep)
    while asked := session.next_question():
        person.clock.forward(75)
        session.answer(asked, reply_of(asked.question, good=False), Confidence.FAIRLY_SURE)
    met = {asked.question.id for asked, _ in session.done if not asked.drill}
    drills = {asked.question.id for asked, _ in session.done if asked.drill}
    assert met & CRITICAL
    assert bool(drills) == keep
    assert drills <= CRITICAL


@pytest.mark.parametrize("right", [0.75, 0.95])  # half of the answers pass, or nearly all: a third are guesses
def test_nothing_starves_with_an_hour_a_week(right):
    person, dry = Person(f"starve {right}", right), 0
    for day in range(56):
        if day % 7 == 6:
            continue
        today = START.date() + timedelta(days=day)
        due = {one.entry: one.memory for one in person.world.store.standings("") if is_due(one.memory, today)}
        asked = person.study(day, Limits(10, None))
        dry = 0 if any(new for _, new, _ in asked) else dry + 1
        assert dry <= 2
        left = [memory for entry, memory in due.items() if entry not in {entry for entry, _, _ in asked}]
        assert all((today - memory.due).days <= 3 * memory.interval for memory in left)


@pytest.mark.parametrize(("name", "right", "slow", "exam"), PEOPLE)
def test_two_of_one_sub_topic_never_stand_side_by_side_and_repeats_stand_apart(name, right, slow, exam):
    person = Person(f"apart {name}", right, slow, exam)
    for day in range(5):
        asked = person.study(day, Limits(15, None))
        assert all(part_of(one[0]) != part_of(two[0]) for one, two in pairwise(asked))
        first = {entry: at for at, (entry, _, drill) in enumerate(asked) if not drill}
        assert all(at - first[entry] > 3 for at, (entry, _, drill) in enumerate(asked) if drill)


def test_only_wrong_answers_are_repeated_and_each_once():
    person = Person("all right", 1.0)
    assert not [drill for _, _, drill in person.study(0, Limits(20, None)) if drill]
    person = Person("all wrong", 0.0)
    drills = Counter(entry for entry, _, drill in person.study(0, Limits(20, None)) if drill)
    assert drills
    assert set(drills.values()) == {1}


def test_the_gate_falls_back_within_one_session_when_predictions_hold_no_more():
    held = [Prediction(0.9, n % 10 > 0) for n in range(150)] + [Prediction(0.3, n % 10 < 3) for n in range(150)]
    weights = (0.0, 0.999, 0.0, 0.001, 0.0, 0.0)
    mixed = [one for pair in zip(held[:150], held[150:], strict=True) for one in pair]
    assert trusted(weights, mixed)
    session = [Prediction(one.chance, one.chance < 0.5) for one in mixed[:RECENT]]
    assert not trusted(weights, [*mixed, *session])
