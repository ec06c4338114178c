"""A paper that was sat, gathered for its reports: questions made again, answers mapped back, who passed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple, TypeVar

from quizzer.bank.mistakes import mistakes, said
from quizzer.bank.mistakes import worded as with_words
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound, Refused
from quizzer.marks.answers import KEY, AnswerRow, ChosenOption, OfferedQuestion, Sheet, sheet
from quizzer.paper.passing import Verdict, verdict
from quizzer.paper.record import Paper
from quizzer.paper.rulings import NO_RULINGS, Rulings, reckoned
from quizzer.question.question import Option, Question
from quizzer.store.names import name_key
from quizzer.workflows.papers.finding import Making

Value = TypeVar("Value")


class PaperResults(NamedTuple):
    """A paper with its questions by form serial, every script mapped back, and the bank's words for mistakes.

    `items` names each question of a form as every form that asks it does; `crowded` are those of them that have several
    options of one mistake. Questions that are not counted are in none of these; `numbers` are those of the others in
    their form as printed.
    """

    paper: Paper
    questions: Mapping[str, tuple[Question, ...]]
    items: Mapping[str, tuple[str, ...]]
    sheets: tuple[Sheet, ...]
    slips: Mapping[str, str]
    topics: Mapping[str, str]
    crowded: frozenset[str]
    numbers: Mapping[str, tuple[int, ...]]
    rulings: Rulings

    def pass_mark(self, form: str) -> int:
        """The pass mark of a form, of the questions that are counted."""
        return reckoned(self.paper.pass_mark, len(self.paper.form(form).items), len(self.numbers[form]))

    @property
    def counted(self) -> PaperResults:
        """The same with those alone who were there: what is said of all is said of them. Raises Refused for nobody."""
        there = tuple(each for each in self.sheets if not each.apart)
        if not there:
            what = f"nobody answered as much as one in ten questions of paper {self.paper.id}"
            raise Refused(what, mend="a person's own page is there with --person NAME")
        return self._replace(sheets=there)

    def names(self, item: str, question: Question) -> tuple[str, ...]:
        """The lasting names of a question's options, in order."""
        return _names(question, worded=item in self.crowded)


class AnsweredQuestion(NamedTuple):
    """One answer beside its question: number in the form, question, the options chosen (None: none) and right."""

    number: int
    question: Question
    answer: ChosenOption
    chosen: Option | None
    key: Option


def gather(shelf: Shelf, paper: Paper, scripts: Sequence[AnswerRow], rulings: Rulings = NO_RULINGS) -> PaperResults:
    """The paper as it was sat, by what was ruled since.

    Raises Refused where nobody's answers are in, or the bank has changed since.
    """
    if not scripts:
        raise Refused(
            f"no answers to paper {paper.id} are marked yet",
            mend=f"`quizzer paper mark {paper.id} --answers FILE.csv` takes them in",
        )
    making, serials = Making(shelf, paper), dict.fromkeys(script.form for script in scripts)
    items_in = {serial: paper.form(serial).items for serial in serials}
    counts = {serial: [rulings.counts(item) for item in found] for serial, found in items_in.items()}
    numbers = {serial: _picked(range(1, len(counted) + 1), counted) for serial, counted in counts.items()}
    whole = {serial: making.of(paper.form(serial)) for serial in serials}
    questions = {serial: _picked(made, counts[serial]) for serial, made in whole.items()}
    items = {
        serial: _picked(items_of(made, own=bool(paper.form(serial).person)), counts[serial])
        for serial, made in whole.items()
    }
    pairs = {serial: tuple(zip(made, items[serial], strict=True)) for serial, made in questions.items()}
    crowded = frozenset(item for found in pairs.values() for question, item in found if _crowd(question))
    asked = {
        serial: tuple(
            _asked(question, item, rulings.also.get(question.name, ()), worded=item in crowded)
            for question, item in found
        )
        for serial, found in pairs.items()
    }
    sheets = tuple(
        sheet(script._replace(answers=_picked(script.answers, counts[script.form])), asked[script.form])
        for script in sorted(scripts, key=lambda one: (name_key(one.person), one.form))
    )
    return PaperResults(paper, questions, items, sheets, shelf.slips(), shelf.topics(), crowded, numbers, rulings)


def sheets_of(sat: PaperResults, person: str) -> tuple[Sheet, ...]:
    """One person's sheets: usually one, but somebody may sit several forms. Raises NotFound."""
    found = tuple(each for each in sat.sheets if name_key(each.person) == name_key(person))
    if not found:
        names = ", ".join(dict.fromkeys(each.person for each in sat.sheets[:20]))
        raise NotFound(f"{person!r} has no script of paper {sat.paper.id}", mend=f"scripts are there of: {names}")
    return found


def lines(sat: PaperResults, one: Sheet) -> tuple[AnsweredQuestion, ...]:
    """Every answer of a sheet beside its question."""
    return tuple(
        AnsweredQuestion(
            number,
            question,
            answer,
            option_named(question, answer.chosen),
            option_named(question, KEY) or question.options[0],
        )
        for number, question, answer in zip(sat.numbers[one.form], sat.questions[one.form], one.answers, strict=True)
    )


def verdict_on(sat: PaperResults, one: Sheet) -> Verdict:
    """The verdict on a sheet."""
    form = sat.paper.form(one.form)
    right = dict(zip(sat.numbers[one.form], (answer.right for answer in one.answers), strict=True))
    return verdict(sat.paper, form, [right.get(number) for number in range(1, len(form.items) + 1)])


def mistake_words(sat: PaperResults, question: Question, option: str) -> str:
    """What a wrong option says of who chose it: the bank's words for the slip, or what they took to be right."""
    if named := [words for slip in mistakes(option) if (words := said(slip, sat.slips, question.id))]:
        return " and ".join(named)
    chosen = option_named(question, option)
    return f"answered “{chosen.text if chosen else option}”"


def by_topic(sat: PaperResults, found: Iterable[AnsweredQuestion]) -> dict[str, list[AnsweredQuestion]]:
    """Lines by topic title, topics in the order they are taught."""
    groups: dict[str, list[AnsweredQuestion]] = {}
    for line in found:
        groups.setdefault(line.question.topic, []).append(line)
    order = [*(topic for topic in sat.topics if topic in groups), *sorted(groups.keys() - sat.topics.keys())]
    return {sat.topics.get(topic, topic): groups[topic] for topic in order}


def option_named(question: Question, name: str) -> Option | None:
    """The option of a lasting name, whether or not that has what the option says; None where there is none."""
    found = (each for each in question.options if name in {_name(each), _name(each, worded=True)})
    return next(found, None)


def lasting_name(question: Question, option: Option) -> str:
    """The name of an option that is the same in every form that asks the question."""
    return _name(option, worded=_crowd(question))


def items_of(questions: Sequence[Question], *, own: bool) -> tuple[str, ...]:
    """A name for each question of a form that is the same in every form that asks it: the entry, and the case of it.

    A family that stands once in somebody's own form goes by its entry: everybody was asked it, and until cases were
    told apart each in a case of their own.
    """
    often = Counter(question.id for question in questions)
    return tuple(_item(each, alone=own and often[each.id] == 1) for each in questions)


def _item(question: Question, *, alone: bool) -> str:
    return question.id if alone or not question.case else f"{question.id} case {question.case}"


def _asked(question: Question, item: str, also: Collection[str], *, worded: bool) -> OfferedQuestion:
    """The question with what its letters mean; one that was ruled right too means what the key does."""
    names = zip(question.labels, _names(question, worded=worded), strict=True)
    return OfferedQuestion(question.id, {letter: KEY if letter in also else name for letter, name in names}, item)


def _picked(all_of_form: Sequence[Value], counted: Sequence[bool]) -> tuple[Value, ...]:
    """Those of a form's questions, or of what belongs to them, that are counted."""
    return tuple(each for each, counts in zip(all_of_form, counted, strict=True) if counts)


def _crowd(question: Question) -> bool:
    """Whether several of its options come of the same mistake, so that its name does not tell them apart."""
    names = _names(question, worded=False)
    return len(set(names)) < len(names)


def _names(question: Question, *, worded: bool) -> tuple[str, ...]:
    return tuple(_name(option, worded=worded) for option in question.options)


def _name(option: Option, *, worded: bool = False) -> str:
    """The mistake behind it, or `KEY`."""
    if option.slip is None:
        return KEY
    return with_words(option.slip, option.text) if worded else option.slip
