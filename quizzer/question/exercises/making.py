"""The question of an entry, a seed and an exercise. The same three give the same question anywhere, as `make` does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from random import Random

from quizzer.bank.entries import Entry, Template
from quizzer.bank.exercises import (
    ABOUT_HOW_MUCH,
    EXERCISES,
    FINDING,
    FIRST_STEP,
    LINED,
    LONG,
    LONGER,
    MISSING_LINE,
    MISSING_LINES,
    NEXT_LINE,
    WRONG_LINE,
    WRONG_LINE_OR_NONE,
    SumExercise,
)
from quizzer.errors import Refused
from quizzer.question.drawing import Dice, outcome, pick
from quizzer.question.exercises.asking import AskedOfSum
from quizzer.question.exercises.beginnings import begins_apart, first_step
from quizzer.question.exercises.open_lines import missing_line, missing_lines, next_line, pairs
from quizzer.question.exercises.sizes import NO_SIZE, about_how_much
from quizzer.question.exercises.sums import Sum, drawn_sum
from quizzer.question.exercises.wrong_lines import lines_with_slips, wrong_line, wrong_line_or_none
from quizzer.question.making import TRIES, shown_of, verdict_of
from quizzer.question.picturing import pictured
from quizzer.question.question import Question

SUMS = 30  # that are looked at before an exercise is given up
_Ask = Callable[[Sum, int, Dice], AskedOfSum | None]
_OF_LINES: dict[str, _Ask] = {
    MISSING_LINE: missing_line,
    MISSING_LINES: missing_lines,
    NEXT_LINE: next_line,
    WRONG_LINE: wrong_line,
    WRONG_LINE_OR_NONE: wrong_line_or_none,
}


def make_exercise(entry: Entry, seed: int, exercise: SumExercise, neighbours: Sequence[Template] = ()) -> Question:
    """The question. `neighbours` are the sums whose lines a first step may be taken for.

    Raises Refused where the entry does not suit the exercise, or no draw does.
    """
    template = _suited(entry, exercise, neighbours)
    dice = Random(f"{template.head.id}#{seed}/{exercise.name}").random
    drawn = pick(1_000_000, dice)  # thrown in any case, so that one seed has one set of numbers whatever line is asked
    ask = template.ask[pick(len(template.ask), dice)]
    words = {name: listed[pick(len(listed), dice)] for name, listed in template.words.items()}
    asking, lines = _asking(exercise.name, neighbours), lines_for(template, exercise.name)
    at = exercise.line - 1 if exercise.line else lines[drawn % len(lines)]
    for one in islice(_sums(template, dice), SUMS):
        if asked := asking(one, at, dice):
            line = at + 1 if exercise.name in LINED else 0
            question = _question(one, asked, seed, exercise._replace(line=line), ask.fill(one.texts | words))
            return question._replace(picture=pictured(template.picture, one.texts | words))
    what = f"{template.head.id}: too few of its options differ for {exercise.text}"
    raise Refused(what, mend="ask for another form, or give it more slips")


def _sums(template: Template, dice: Dice) -> Iterator[Sum]:
    for _ in range(TRIES):
        if one := drawn_sum(template, dice):
            yield one


def refusal(entry: Entry, exercise: SumExercise, neighbours: Sequence[Template]) -> str:
    """Why an exercise makes no sense for an entry, in a sentence; "" where it does."""
    if not isinstance(entry, Template):
        return "it is no calculation, so it has no working"
    if exercise.name in LINED:
        return _without_lines(entry, exercise)
    if exercise.name == FIRST_STEP:
        few = "too few mistakes and neighbouring sums are known for its first line"
        return "" if begins_apart(entry, neighbours) else few
    sized = entry.steps[entry.answer].unit.word not in NO_SIZE
    return "" if sized else "its answer is a ratio, a count, an angle or a temperature, and has no size to be judged"


def _without_lines(entry: Template, exercise: SumExercise) -> str:
    """Why no line of a working can be asked about so, or not this one."""
    lines, able = len(entry.steps), lines_for(entry, exercise.name)
    if lines < LONG:
        return "its working has one line only"
    if exercise.name == MISSING_LINES and (lines < LONGER or not able):
        return "two lines that hang together leave too little of its working"
    if exercise.name in FINDING and len(able) < LONG:
        return "all its named mistakes are made in one line, which would always be the wrong one"
    if exercise.line and exercise.line - 1 not in able:
        return f"its lines for that are {', '.join(str(at + 1) for at in able)}"
    return ""


def lines_for(template: Template, name: str) -> Sequence[int]:
    """The lines, from 0, that an exercise may ask about."""
    match name:
        case "missing-lines":
            return pairs(template)
        case "wrong-line" | "wrong-line-or-none":
            return lines_with_slips(template)
        case "missing-line" | "next-line":
            return range(len(template.steps))
        case _:
            return [0]


def _suited(entry: Entry, exercise: SumExercise, neighbours: Sequence[Template]) -> Template:
    why = refusal(entry, exercise, neighbours)
    if why or not isinstance(entry, Template):
        able = [name for name in EXERCISES if not refusal(entry, SumExercise(name), neighbours)]
        others = [name for name in able if name != exercise.name]
        mend = f"ask it as {' or '.join(others)}" if others else "ask the whole question"
        raise Refused(f"{entry.head.id} cannot be asked as {exercise.text}: {why}", mend=mend)
    return entry


def _asking(name: str, neighbours: Sequence[Template]) -> _Ask:
    """What asks of a sum."""
    return (
        _OF_LINES.get(name)
        or {
            FIRST_STEP: lambda one, _, dice: first_step(one, dice, neighbours),
            ABOUT_HOW_MUCH: lambda one, _, dice: about_how_much(one, dice),
        }[name]
    )


def _question(one: Sum, asked: AskedOfSum, seed: int, exercise: SumExercise, stem: str) -> Question:
    template, whole = one.template, asked.shown == len(one.lines)
    key = next((option.label for option in asked.options if option.slip is None), "")
    return Question(
        seed=seed,
        kind="choose" if asked.options else "number",
        stem=f"{stem}\n{asked.stem}",
        given=shown_of(template, one.digits, one.texts),
        options=asked.options,
        key=key or (asked.answer.text if asked.answer else ""),
        answer=asked.answer,
        diagnoses=asked.diagnoses,
        working=one.lines[: asked.shown],
        verdict=verdict_of(outcome(template, one.values), one.texts) if whole else "",
        reason=asked.reason,
        head=template.head,
        exercise=exercise.text,
    )
