"""What may follow an answer to a question that is taken along: help with its sum, or the same once more, as in `study`.

Nothing is known there of the answers before it, so that each says what share of the session it counts to. Help is an
open line, as `study` has it within minutes, or a mistake to be found.
"""

from __future__ import annotations

from quizzer.bank.entries import Entry
from quizzer.bank.signoffs import Ledger
from quizzer.errors import QuizzerError
from quizzer.question.question import Mark
from quizzer.schedule import Confidence
from quizzer.schedule.fading import FINDING_LEVELS
from quizzer.schedule.pacing import Help, usual_first
from quizzer.schedule.repeats import EVERY_ANSWER, NO_REPEAT, Share, share_of
from quizzer.values import NamedTuple
from quizzer.workflows.exercises import ALONE, question_of
from quizzer.workflows.signed_off import signed_off
from quizzer.workflows.study.asked import Asked
from quizzer.workflows.study.helping import Helper, JustAnswered, exercise_of
from quizzer.workflows.study.session import is_grave
from quizzer.workflows.world import World

_NEVER = float("inf")


class Again(NamedTuple):
    """That a question is asked again in its session, with this help (None: whole), if its share leaves one.

    And only if the answer took longer than `slower` seconds.
    """

    help: Help | None
    share: Share
    slower: float = 0.0

    @property
    def exercise(self) -> str:
        """What is asked of the working; "" for the whole."""
        return exercise_of(self.help) if self.help else ""


class Repeats(NamedTuple):
    """What may follow the answers to one question of an entry; what kind of session it is in (`pressed`, `weekly`)."""

    world: World
    entry: Entry
    helper: Helper
    ledger: Ledger
    pressed: bool
    weekly: bool
    asked: Asked

    def after(self, marked: Mark, confidence: Confidence | None) -> Again | None:
        """How it is asked again after an answer; None where it is not."""
        asked, helped_in = self.asked, self.helper.rule.helped_in
        if asked.drill:
            found = asked.help and asked.help.level in FINDING_LEVELS and self._help(marked, confidence)
            return Again(found, EVERY_ANSWER) if found else None
        helped, bare = (self._share(marked, confidence, each) for each in (helped_in, None))
        if helped != NO_REPEAT:
            if found := self._help(marked, confidence):
                return Again(found, helped)
            if asked.before is None and (found := self._help(marked, confidence, times=_NEVER)):
                return Again(found, helped, self.helper.rule.too_long * usual_first(len(asked.question.working)))
        return Again(None, bare) if bare != NO_REPEAT else None

    def ask(self, again: Again) -> Repeats | None:
        """The question as it is asked again, with what may follow that; None where it cannot be asked so."""
        world = self.world
        try:
            question = question_of(ALONE, self.entry, world.seed(), again.exercise)
        except QuizzerError:
            return None
        told = signed_off(self.ledger, question)
        return self._replace(asked=Asked(world.new_id(), told, True, None, world.now(), again.help))

    def _share(self, marked: Mark, confidence: Confidence | None, helped_in: int | None) -> Share:
        grave = is_grave(self.asked.question, confidence, weekly=self.weekly)
        return share_of(right=marked.right, grave=grave, pressed=self.pressed, helped_in=helped_in)

    def _help(self, marked: Mark, confidence: Confidence | None, times: float = 1.0) -> Help | None:
        asked, sure = self.asked, confidence is not Confidence.GUESSING
        answer = JustAnswered(
            asked.question.id, asked.before, asked.help, asked.at.date(), marked.right, sure, marked.slip
        )
        return self.helper.after_question(answer._replace(short=True, times=times), self.entry)
