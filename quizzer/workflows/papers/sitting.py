"""A paper answered on screen: free movement, flags, a clock, saved at every step, and no mark before it is marked."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from quizzer.errors import Refused, UsageError
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.store import OMITTED, Sitting, Trainee
from quizzer.store.names import name_key
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.world import World

MOST_EXTRA = 200
_SECOND = timedelta(seconds=1)


@dataclass(slots=True)
class Desk:
    """A trainee at a form. Whatever is done is saved before the call returns; time stands still in between runs."""

    world: World
    paper: Paper
    form: Form
    questions: tuple[Question, ...]
    sitting: Sitting
    resumed: bool
    clock: datetime = field(init=False)
    at: int = field(init=False)

    def __post_init__(self) -> None:
        self.clock = self.world.now()
        self.at = min(self.sitting.place, len(self.questions) - 1)

    @property
    def question(self) -> Question:
        """The question being looked at."""
        return self.questions[self.at]

    @property
    def chosen(self) -> str:
        """The letter chosen at this question, "" for none."""
        return self.sitting.answers[self.at].replace(OMITTED, "")

    @property
    def flagged(self) -> bool:
        """Whether this question is flagged."""
        return self.sitting.flags[self.at] == "1"

    def answer(self, letter: str) -> None:
        """Choose an option here, or nothing with ""."""
        self._save(answers=_put(self.sitting.answers, self.at, letter or OMITTED))

    def flag(self) -> None:
        """Flag this question, or take its flag away."""
        self._save(flags=_put(self.sitting.flags, self.at, "0" if self.flagged else "1"))

    def go(self, at: int) -> None:
        """Look at another question, the first being 0; beyond either end nothing happens."""
        if 0 <= at < len(self.questions):
            self.at = at
            self._save()

    def unanswered(self) -> tuple[int, ...]:
        """The numbers, from 1, of questions without an answer."""
        return tuple(number for number, letter in enumerate(self.sitting.answers, 1) if letter == OMITTED)

    def flags(self) -> tuple[int, ...]:
        """The numbers, from 1, of flagged questions."""
        return tuple(number for number, flag in enumerate(self.sitting.flags, 1) if flag == "1")

    def used(self) -> int:
        """Seconds used so far, never more than allowed; a clock set back counts as none."""
        return self._used(self.world.now())

    def left(self) -> int:
        """Seconds left."""
        return self.sitting.allowed - self.used()

    def hand_in(self) -> None:
        """Hand the form in; nothing can be changed after it."""
        self._save(submitted_at=self.world.now())

    def leave(self) -> None:
        """Keep the time used, to go on another time."""
        self._save()

    def _used(self, now: datetime) -> int:
        return min(self.sitting.allowed, self.sitting.seconds + max(timedelta(0), now - self.clock) // _SECOND)

    def _save(self, **changes: str | datetime) -> None:
        now = self.world.now()
        step: Sitting = self.sitting._replace(place=self.at, seconds=self._used(now), **changes)  # type: ignore[arg-type]
        self.sitting = self.world.store.papers.save_sitting(step)
        # What is left of a second is not lost at each step.
        self.clock = now - max(timedelta(0), now - self.clock) % _SECOND


def sit(world: World, paper: Paper, trainee: Trainee, said: str | None, extra: int | None) -> Desk:
    """The desk of a trainee, begun or gone on with; `extra` is time in per cent. Raises Refused or UsageError."""
    if extra is not None and not 0 <= extra <= MOST_EXTRA:
        raise UsageError(f"--extra-time {extra} is no share", mend=f"give per cent, 0 to {MOST_EXTRA}, such as 25")
    begun = [one for one in world.store.papers.sittings(paper.id) if one.trainee == trainee.id]
    form = _form(world, paper, trainee, said, begun)
    if any((one.trainee, one.form) == (trainee.id, form.serial) for one in world.store.papers.scripts(paper.id)):
        raise Refused(
            f"form {form.serial} of {trainee.name} is marked", mend="`quizzer paper report` shows what it says"
        )
    questions = Making(world.shelf, paper).of(form)
    resumed = any(one.form == form.serial for one in begun)
    sitting = world.store.papers.begin_sitting(_new(world, paper, trainee, form, extra or 0))
    if sitting.submitted_at:
        raise Refused(
            f"{trainee.name} has handed form {form.serial} in", mend=f"`quizzer paper mark {paper.id}` marks it"
        )
    if extra is not None and sitting.allowed != _allowed(paper, extra):
        minutes = sitting.allowed // 60
        raise Refused(f"this form was begun with {minutes} minutes", mend="go on without --extra-time")
    return Desk(world, paper, form, questions, sitting, resumed)


def _new(world: World, paper: Paper, trainee: Trainee, form: Form, extra: int) -> Sitting:
    blank = len(form.items)
    return Sitting(
        trainee=trainee.id,
        paper=paper.id,
        form=form.serial,
        answers=OMITTED * blank,
        flags="0" * blank,
        place=0,
        seconds=0,
        allowed=_allowed(paper, extra),
        turn=0,
        started_at=world.now(),
        submitted_at=None,
    )


def _allowed(paper: Paper, extra: int) -> int:
    return paper.minutes * 60 * (100 + extra) // 100


def _form(world: World, paper: Paper, trainee: Trainee, said: str | None, begun: list[Sitting]) -> Form:
    """The form said; else the one begun, the one made for this person, or the one that fewest sit."""
    own = [form for form in paper.forms if form.person and name_key(form.person) == name_key(trainee.name)]
    if said is not None:
        form = next((each for each in own if said.upper() in {each.letter, each.serial}), None) or paper.form(said)
        return _open_to(form, trainee)
    opened = [one.form for one in begun if not one.submitted_at] or [one.form for one in begun]
    if opened:
        return paper.form(opened[0])
    if own:
        return own[0]
    taken = [one.form for one in world.store.papers.sittings(paper.id)]
    return _open_to(min(paper.forms, key=lambda form: (bool(form.person), taken.count(form.serial))), trainee)


def _open_to(form: Form, trainee: Trainee) -> Form:
    if form.person and name_key(form.person) != name_key(trainee.name):
        raise Refused(
            f"form {form.serial} was made for {form.person}", mend="`quizzer sit` without --form finds your own"
        )
    return form


def _put(text: str, at: int, sign: str) -> str:
    return f"{text[:at]}{sign}{text[at + 1 :]}"
