"""`plan` and `study` agree: the next seven days, over many random stores, when every answer is right."""

from datetime import timedelta
from itertools import count
from random import Random

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.question.replies import Reply
from quizzer.schedule import Confidence, Standing, next_memory
from quizzer.store import Answered
from quizzer.workflows.forecast.plan import plan_for, road_for
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from scripts.simulation.running import Setting
from scripts.simulation.sessions import GAINS, Life
from scripts.simulation.standin import NOBODY, START, Clock, Shelf, Store

DAYS = 7


def studied(dice: Random) -> World:
    """A world with a random history in it."""
    shelf, store, clock = Shelf(int(60 + 240 * dice.random()), rules=True, guessed=False), Store(), Clock()
    critical = {one.id: one.safety_critical for one in shelf.listed()}
    for back in range(int(30 * dice.random()), 0, -1):
        day = START.date() - timedelta(days=back)
        for entry in dice.sample(shelf.names, int(16 * dice.random())):
            quality = int(6 * dice.random())
            memory = next_memory(store.memory("", entry), quality, day, safety_critical=critical[entry])
            store.put(
                Standing(entry, entry[:3], memory),
                Answered(entry, entry[:3], int(quality > 2), day.isoformat(), "ABCD", None, None),
            )
    ids, seeds = count(1), count(1)
    return World(store, shelf, clock, lambda: next(seeds), lambda: str(next(ids)))


def next_days(world: World, trainee, minutes: float) -> list[tuple[int, int, float]]:
    """Repeats, new ones and minutes of seven days of sessions in which every answer is right."""
    found, first = [], world.now()
    for day in range(DAYS):
        world.now.now = first + timedelta(days=day)
        session, _ = start(world, trainee, (), Limits(minutes, None))
        new = again = 0
        while asked := session.next_question():
            new, again = new + (asked.before is None), again + (asked.before is not None)
            world.now.forward(75 if asked.before is None else 40)
            session.answer(asked, Reply(asked.question.key), Confidence.FAIRLY_SURE)
        found.append((again, new, session.minutes()))
    return found


def planned(world: World, trainee, minutes: float) -> list[tuple[int, int, float]]:
    paper = blueprint(world.shelf, "wiring-regulations")
    plan = plan_for(world, trainee, paper, trainee.exam, minutes, range(7), skip=False)
    return [(day.reviews, day.new, pytest.approx(day.minutes)) for day in plan.days[:DAYS]]


@pytest.mark.parametrize("seed", range(50))
def test_the_next_seven_days_are_those_of_the_plan(seed):
    dice = Random(f"plan {seed}")
    world, minutes = studied(dice), float(dice.choice([5, 10, 20, 40]))
    trainee = NOBODY.__class__(NOBODY.id, NOBODY.name, START.date() + timedelta(days=8 + seed % 40), NOBODY.added_at)
    foreseen = planned(world, trainee, minutes)
    assert next_days(world, trainee, minutes) == foreseen


@pytest.mark.parametrize("seed", range(8))
def test_with_no_exam_too(seed):
    dice = Random(f"daily {seed}")
    world, minutes = studied(dice), float(dice.choice([5, 10, 20, 40]))
    usual = blueprint(world.shelf, "wiring-regulations")
    road = road_for(world, NOBODY, usual, minutes, range(7), daily=True)
    foreseen = [(day.reviews, day.new, pytest.approx(day.minutes)) for day in road.days[:DAYS]]
    assert next_days(world, NOBODY, minutes) == foreseen


@pytest.mark.parametrize("world", ["exponential", "act-r"])
def test_so_are_those_of_a_session_by_gain(world):
    life = Life(Setting(world, 20, (5,)), GAINS, None, rules=True)
    trainee = NOBODY.__class__(NOBODY.id, NOBODY.name, START.date() + timedelta(days=42), NOBODY.added_at)
    for day in range(34):
        life.clock.to(day)
        if start(life.at, trainee, (), Limits(20, None))[1].by_gain:
            break
        life.session(day, 20, 42)
    else:
        pytest.fail("no session goes by gain")
    foreseen = planned(life.at, trainee, 20.0)
    assert next_days(life.at, trainee, 20.0) == foreseen
