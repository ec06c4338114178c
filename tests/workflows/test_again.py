"""What a pack asks again is what a session asks again: after every answer, with an exam ahead and without."""

from datetime import timedelta
from itertools import count

import pytest

from quizzer.question.replies import Reply, mark
from quizzer.schedule import Confidence
from quizzer.workflows.study.again import Repeats
from quizzer.workflows.study.pack import packed
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from tests.shippedbank import SHELF
from tests.sitting import Clock, key_of
from tests.stores import in_memory

SUM = "design/loop/room-left-for-the-circuit"
ONE_LINE = "design/loop/reading-against-eighty-per-cent"
MINUTES = 10.0


class Studying:
    """Somebody who studies one entry for ten minutes a day, met so many days in a row already."""

    def __init__(self, entry, exam, met):
        ids, seeds = count(1), count(1)
        self.clock, self.entry = Clock(), entry
        self.world = World(in_memory(), SHELF, self.clock, lambda: next(seeds), lambda: f"id-{next(ids):06d}")
        me = who(self.world, None)
        for _ in range(met):
            session, asked = self.asked()
            session.answer(asked, Reply(key_of(asked)), Confidence.CERTAIN)
            self.clock.forward(days=400)
        self.world.store.set_exam(me.id, self.clock.now.date() + timedelta(days=20) if exam else None)

    def asked(self):
        """A session and its first question."""
        limits = Limits(MINUTES, None)
        session, _ = start(self.world, who(self.world, None), (), limits, 1, frozenset({self.entry}))
        return session, session.next_question()

    def packed(self):
        """The same question as a pack has it."""
        return next(packed(self.world, who(self.world, None), MINUTES, (), frozenset({self.entry})))


@pytest.mark.parametrize("exam", [False, True])
@pytest.mark.parametrize(("entry", "met"), [(SUM, 0), (SUM, 1), (ONE_LINE, 0)])
def test_a_pack_asks_again_what_a_session_does(entry, met, exam):
    one = Studying(entry, exam, met)
    repeats = one.packed().repeats
    for sure in Confidence:
        session, asked = one.asked()
        for label in asked.question.labels:
            marked = mark(asked.question, Reply(label))
            share = session._leaves(asked, marked, sure)
            help = session._help(asked, marked, sure, one.clock.now.date())
            theirs = (help is not None or (not marked.right and share), help)
            again = repeats._replace(asked=asked).after(marked, sure)
            if again and (again.slower or not again.share.leaves(0, session.put)):
                again = None  # only after an answer that took longer, or later in a session
            assert (again is not None, again and again.help) == theirs, label


def test_a_slow_first_answer_is_helped_as_a_guess_is():
    one = Studying(SUM, exam=False, met=0)
    session, asked = one.asked()
    again = (
        one.packed().repeats._replace(asked=asked).after(mark(asked.question, Reply(key_of(asked))), Confidence.CERTAIN)
    )
    one.clock.forward(seconds=again.slower + 1)
    assert session.answer(asked, Reply(key_of(asked)), Confidence.CERTAIN).help == again.help
    assert again.help.level == "open line"


def test_a_mistake_that_was_to_be_found_is_followed_by_the_whole():
    one = Studying(SUM, exam=False, met=1)
    found = one.packed()
    again = found.repeats.after(mark(found.question, Reply(found.question.key)), Confidence.CERTAIN)
    assert again.exercise.startswith("wrong-line")
    drill = found.once_more(again)
    assert isinstance(drill.repeats, Repeats)
    for label in drill.question.labels:
        whole = drill.repeats.after(mark(drill.question, Reply(label)), None)
        assert (whole.exercise, whole.help.level) == ("", "whole")
        assert drill.once_more(whole).repeats.after(mark(found.question, Reply("A")), Confidence.CERTAIN) is None
