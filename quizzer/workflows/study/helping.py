"""Help with sums: which comes after an answer, and the lines of a working that are asked one by one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from quizzer.bank.entries import Entry, Template
from quizzer.bank.exercises import (
    FINDING,
    LONG,
    MISSING_LINE,
    MISSING_LINES,
    NEXT_LINE,
    WRONG_LINE,
    WRONG_LINE_OR_NONE,
    SumExercise,
    read_exercise,
)
from quizzer.bank.mistakes import mistakes
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import QuizzerError, Refused
from quizzer.question.question import Question
from quizzer.schedule import Memory, Review
from quizzer.schedule.fading import FINDING_LEVELS, Fading, Level, Tried, first_level, line_to_open, next_level
from quizzer.schedule.pacing import Help
from quizzer.values import NamedTuple

RECENT: Final = timedelta(days=60)  # of a person's answers, that tell where help is wanted


@dataclass(slots=True, eq=False, repr=False)
class Lines:
    """A working whose lines are asked one by one, of one seed; `at` are asked, `failed` is the first that was wrong."""

    entry: str
    seed: int
    help: Help
    count: int = 1
    at: int = 0
    failed: int | None = None

    def next_question(self, shelf: Shelf) -> Question | None:
        """The question for the next line; None behind the last, or where the sum can no longer be worked."""
        from quizzer.question.exercises.making import make_exercise  # here and below: a session begins without help

        template = _sum(shelf, self.entry) if self.at < self.count else None
        if template is None:
            return None
        self.at, self.count = self.at + 1, len(template.steps)
        try:
            return make_exercise(template, self.seed, SumExercise(NEXT_LINE, self.at))
        except Refused:
            return None

    def answered(self, *, right: bool) -> None:
        """Remember the first line that goes wrong."""
        if not right and self.failed is None:
            self.failed = self.at


class JustAnswered(NamedTuple):
    """An answer, as help goes by it: to which entry, after which memory and help, when, and whether right and sure.

    `slip` is the mistake behind a wrong one, `failed` the line where that is known already; it took `times` as long as
    usual.
    """

    entry: str
    before: Memory | None
    help: Help | None
    day: date
    right: bool
    sure: bool
    slip: str | None
    failed: int | None = None
    short: bool = False  # there is time for one open line alone
    times: float = 1.0


class Helper(NamedTuple):
    """The rule of help, and what the person answered of late, by which it goes."""

    rule: Fading
    reviews: tuple[Review, ...] = ()

    def after(self, answer: JustAnswered, shelf: Shelf) -> Help | None:
        """The help that follows an answer; None where there is none to give."""
        level = self._level(answer)
        entry = _sum(shelf, answer.entry) if level else None
        return self._at(level, answer, entry) if level and entry else None

    def after_question(self, answer: JustAnswered, entry: Entry) -> Help | None:
        """The same, where the entry is there already."""
        level, asked = self._level(answer), _as_sum(entry)
        return self._at(level, answer, asked) if level and asked else None

    def _at(self, level: Level, answer: JustAnswered, entry: Template) -> Help | None:
        """Help of this level, or of the one below it where the sum does not suit it."""
        from quizzer.question.exercises.making import refusal

        if level in FINDING_LEVELS and refusal(entry, SumExercise(WRONG_LINE), ()):
            return None
        if level == "open lines" and refusal(entry, SumExercise(MISSING_LINES), ()):
            level = "open line"
        line = self._line(entry, answer, level)
        if answer.help is None:
            return Help(level, line, answer.before is None, short=answer.short)
        return answer.help._replace(level=level, line=line, levels=answer.help.levels + 1)

    def _level(self, answer: JustAnswered) -> Level | None:
        if answer.help is not None:
            return next_level(answer.help.level, answer.right, first_meeting=answer.help.first_meeting)
        shown = any(each.entry == answer.entry and _is_mistake(each) for each in self.reviews)
        whole = [each.right for each in self.reviews if each.entry == answer.entry and not each.exercise]
        share = (sum(whole) + answer.right) / (len(whole) + 1)
        tried = Tried(answer.before, answer.day, answer.right, answer.sure, share, answer.times)
        return first_level(self.rule, tried, mistake_shown=shown, short=answer.short)

    def _line(self, template: Template, answer: JustAnswered, level: Level) -> int:
        """The line to open, the first of two, or the one a mistake is hidden in: where they made one, else 0."""
        if level not in FINDING_LEVELS | {"open line", "open lines"}:
            return 0
        from quizzer.question.exercises.making import lines_for
        from quizzer.question.exercises.open_lines import pairs

        own = [each for each in self.reviews if each.entry == template.head.id and not each.right]
        made = [(each.answered_at, line) for each in own if (line := line_of(template, each.slip, each.exercise))]
        errors = Counter(line for _, line in made)
        if level in FINDING_LEVELS:
            able, last = lines_for(template, WRONG_LINE), {line: at for at, line in sorted(made)}
            own_lines = [line for line in errors if line - 1 in able]
            return max(own_lines, key=lambda line: (errors[line], last[line], -line), default=0)
        # Where two lines were open, the mistake tells which of them went wrong.
        two = answer.help is not None and answer.help.level == "open lines"
        failed = (line_of(template, answer.slip) if two else None) or answer.failed or line_of(template, answer.slip)
        before = answer.help.line or None if answer.help and not two else None
        line = line_to_open(errors, failed, before, len(template.steps))
        return _first_of_two(line, pairs(template)) if level == "open lines" else line


def _sum(shelf: Shelf, id: str) -> Template | None:
    """The sum of an id, if its working has several lines: what is one step is asked for straight away."""
    try:
        return _as_sum(shelf.find(id))
    except QuizzerError:
        return None  # the session says so when it asks for the entry


def _as_sum(entry: Entry) -> Template | None:
    return entry if isinstance(entry, Template) and len(entry.steps) >= LONG else None


def line_of(template: Template, slip: str | None, exercise: str | None = None) -> int | None:
    """The line, from 1, that went wrong: the one that was asked alone, or the first that a mistake was made in."""
    asked = read_exercise(exercise) if exercise else None
    if asked and asked.line and asked.name in {MISSING_LINE, NEXT_LINE}:
        return asked.line
    steps = {each.id: each.step for each in template.slips}
    made = [steps[each] for each in mistakes(slip) if each in steps]
    return min(made) + 1 if made else None


def exercise_of(help: Help) -> str:
    """What is asked at a level, as it is written; "" for the whole."""
    match help.level:
        case "line by line":
            return NEXT_LINE
        case "open line":
            return SumExercise(MISSING_LINE, help.line).text
        case "open lines":
            return SumExercise(MISSING_LINES, help.line).text
        case "wrong line":
            return SumExercise(WRONG_LINE, help.line).text
        case "wrong line or none":
            return SumExercise(WRONG_LINE_OR_NONE, help.line).text
        case "whole":
            return ""


def _first_of_two(line: int, able: Sequence[int]) -> int:
    """The first of two lines to open, from 1, this line among them where that can be."""
    return next((at + 1 for at in (line - 1, line - 2) if at in able), able[0] + 1)


def _is_mistake(review: Review) -> bool:
    return (review.exercise or "").partition(":")[0] in FINDING
