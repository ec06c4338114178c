"""Several sessions at once: nothing is lost, nothing is kept twice, and a killed one keeps what it was told."""

import os
import random
import select
import signal
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path

import pytest

from quizzer.schedule import FoldRules, next_memory
from quizzer.store import MarkedScript, Store, open_store
from tests.stores import ENTRIES, KINDS, NOON, PAPER, SERVER, TODAY, due_on, ended, fresh_url, in_child, review, script

FORKS = pytest.mark.skipif(not hasattr(os, "fork"), reason="the sessions are forked")
ZS = "earthing/loop/zs-design"


@pytest.fixture(params=["file", *(["server"] if SERVER else [])])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A store of one trainee that several sessions can open."""
    with fresh_url(request.param, tmp_path) as place:
        with open_store(place) as store:
            store.add_trainee("t1", "Ada", NOON)
        yield place


def answer_all(store: Store, session: int, answers: int = 40) -> int:
    """Record so many answers to the same few entries; how many of them were new."""
    new = 0
    for n in range(answers):
        when = NOON + timedelta(seconds=n, milliseconds=session)
        memory = due_on(TODAY + timedelta(days=1 + n))
        new += store.record(review(f"s{session}-{n}", entry=f"e{n % 5}", answered_at=when), memory)
    return new


def all_is_there(store: Store, sessions: int, answers: int = 40) -> None:
    """Each answer once; each memory from the last answer to its entry."""
    assert sorted(r.id for r in store.reviews("t1")) == sorted(
        f"s{s}-{n}" for s in range(sessions) for n in range(answers)
    )
    for n in range(5):
        last = answers - 5 + n
        assert store.memory("t1", f"e{n}") == due_on(TODAY + timedelta(days=1 + last))
    assert store.check() == ()


def test_threads_that_share_one_store(store: Store) -> None:
    store.add_trainee("t1", "Ada", NOON)
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(lambda s: answer_all(store, s), range(4))) == [40] * 4
    all_is_there(store, 4)


def test_threads_with_a_store_each(url: str) -> None:
    def session(number: int) -> int:
        with open_store(url) as own:
            return answer_all(own, number)

    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(session, range(4))) == [40] * 4
    with open_store(url) as store:
        all_is_there(store, 4)


@FORKS
def test_programs_with_a_store_each(url: str) -> None:
    def session(number: int) -> None:
        with open_store(url) as own:
            assert answer_all(own, number) == 40

    assert [ended(c) for c in [in_child(lambda n=n: session(n)) for n in range(3)]] == [0] * 3  # type: ignore[misc]
    with open_store(url) as store:
        all_is_there(store, 3)


def test_one_answer_recorded_by_many_at_once_is_new_to_one(url: str) -> None:
    def press(_: int) -> bool:
        with open_store(url) as own:
            return own.record(review("r1"), next_memory(None, 5, TODAY))

    with ThreadPoolExecutor(6) as pool:
        assert sorted(pool.map(press, range(6))) == [False] * 5 + [True]


def test_a_script_marked_late_while_its_persons_phone_sends_leaves_what_one_after_the_other_leaves(url: str) -> None:
    since = NOON + timedelta(days=3)
    later = [
        review(f"p{n}", entry=entry, quality=5, answered_at=since, day=since.date()) for n, entry in enumerate(ENTRIES)
    ]
    sat = [review(f"s{n}", entry=entry, quality=1) for n, entry in enumerate(ENTRIES)]
    marked = MarkedScript(script("t1", "Ada"), tuple((one, next_memory(None, 1, TODAY)) for one in sat))

    def marks() -> None:
        with open_store(url) as own:
            assert own.papers.record_scripts(PAPER.id, (), [marked], since + timedelta(days=1)) == 1

    def sends() -> None:
        with open_store(url) as own:
            for one in later:
                own.receive("t1", [one], FoldRules())

    with open_store(url) as store:
        store.papers.keep(PAPER)
    with ThreadPoolExecutor(2) as pool:
        for done in [pool.submit(marks), pool.submit(sends)]:
            done.result()
    with open_store(url) as store:
        after = next_memory(next_memory(None, 1, TODAY), 5, since.date())
        assert {each.entry: each.memory for each in store.standings("t1")} == dict.fromkeys(ENTRIES, after)
        assert store.check() == ()


@FORKS
def test_a_killed_session_keeps_every_answer_it_was_told_is_kept(url: str) -> None:
    dice = random.Random("when to kill")
    acknowledged: set[str] = set()
    for run in range(10):
        read, write = os.pipe()

        def session(run: int = run, write: int = write) -> None:
            with open_store(url) as own:
                for n in range(10_000):
                    own.record(review(f"{run}-{n}", entry=f"e{n}"), next_memory(None, 5, TODAY))
                    os.write(write, f"{run}-{n}\n".encode())

        child = in_child(session)
        os.close(write)
        if run % 2:  # every other one is killed once it has surely kept something, the rest at any moment
            select.select([read], [], [], 30)
        time.sleep(0.02 + dice.random() * 0.1)
        os.kill(child, signal.SIGKILL)
        assert ended(child) == -signal.SIGKILL
        with os.fdopen(read) as pipe:
            acknowledged |= set(pipe.read().split())
    assert len(acknowledged) >= 5, "the sessions lived long enough to say something"
    with open_store(url) as store:
        kept = [r.id for r in store.reviews("t1")]
        assert store.check() == ()
    assert acknowledged <= set(kept)
    assert len(kept) == len(set(kept))
    assert len(kept) <= len(acknowledged) + 10, "at most one more than was told for each that was killed"


def test_every_kind_of_store_is_tested_and_the_server_where_one_is_named() -> None:
    assert (("memory", "file", "server") if SERVER else ("memory", "file")) == KINDS
