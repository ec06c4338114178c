"""A blueprint: what a mock paper asks from where, how long it takes, and what it takes to pass."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Protocol

from quizzer.bank.exercises import EXERCISES
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse
from quizzer.bank.head_reading import LEVELS
from quizzer.bank.mends import REACHABLE
from quizzer.values import NamedTuple

LONGEST = 200  # questions; nobody sits more


class Placed(Protocol):
    """An entry, as far as a section asks: its id, and whether it is safety-critical."""

    @property
    def id(self) -> str:
        """The entry's id, which begins with its topic's."""

    @property
    def safety_critical(self) -> bool:
        """Whether it is of the safety-critical set."""


class SectionPlan(NamedTuple):
    """A section: how many questions from which topics or sub-topics, and from which entries by name beside those.

    `levels` are the fewest questions of a level, `calculations` the fewest and the most that are calculations;
    `safety_critical` takes only entries of that set, `all_right` fails the paper on one wrong answer here.
    `exercise` is what is asked of the workings of its sums, "" where whole questions are.
    """

    id: str
    title: str
    topics: tuple[str, ...]
    questions: int
    levels: Mapping[str, int]
    calculations: tuple[int, int]
    safety_critical: bool
    all_right: bool
    exercise: str = ""
    entries: tuple[str, ...] = ()

    def members(self, entries: Iterable[Placed]) -> list[str]:
        """The ids of the entries that belong to this section."""
        starts = tuple([f"{topic}/" for topic in self.topics])
        there = [one for one in entries if one.id.startswith(starts) or one.id in self.entries]
        return [one.id for one in there if one.safety_critical or not self.safety_critical]

    def wants(self, id: str, safety_critical: bool, exercises: Collection[str] | None = None) -> bool:
        """Whether an entry belongs to this section; with the `exercises` it offers, whether it may stand there."""
        there = id in self.entries or id.startswith(tuple([f"{topic}/" for topic in self.topics]))
        able = exercises is None or not self.exercise or self.exercise in exercises
        return there and able and (safety_critical or not self.safety_critical)


class Blueprint(NamedTuple):
    """A whole paper's plan."""

    id: str
    title: str
    minutes: int
    pass_mark: int
    permitted: tuple[str, ...]
    sections: tuple[SectionPlan, ...]

    @property
    def questions(self) -> int:
        """Questions in one form."""
        return sum(section.questions for section in self.sections)

    @property
    def is_assessment(self) -> bool:
        """Whether it asks whole questions throughout: a worksheet on workings is nothing that one studies for."""
        return not any(section.exercise for section in self.sections)

    def scaled(self, questions: int) -> Blueprint:
        """The same plan for another number of questions: every section keeps its share, by greatest remainder."""
        shares = [section.questions * questions / self.questions for section in self.sections]
        counts = [int(share) for share in shares]
        by_rest = sorted(range(len(shares)), key=lambda at: (counts[at] - shares[at], at))
        for at in by_rest[: questions - sum(counts)]:
            counts[at] += 1
        factor = questions / self.questions
        sections = tuple(
            section._replace(
                questions=count,
                levels={level: int(fewest * factor) for level, fewest in section.levels.items()},
                calculations=(
                    int(section.calculations[0] * factor),
                    min(count, round(section.calculations[1] * factor)),
                ),
            )
            for section, count in zip(self.sections, counts, strict=True)
            if count
        )
        minutes, pass_mark = max(1, round(self.minutes * factor)), max(1, round(self.pass_mark * factor))
        return self._replace(sections=sections, minutes=minutes, pass_mark=pass_mark)


def read_blueprint(id: str, notes: Notes) -> Blueprint:
    """The blueprint of a file's text; complaints go to its list."""
    top = Fields(parse(notes), (), notes)
    sections = tuple(_section(part) for part in top.array("section"))
    blueprint = Blueprint(
        id=id,
        title=top.text("title"),
        minutes=top.whole("minutes", 1, 600),
        pass_mark=top.whole("pass_mark", 1, LONGEST),
        permitted=top.texts("permitted"),
        sections=sections,
    )
    top.done()
    if not sections:
        top.complain("Q910", "section", "a blueprint has no sections", "add a [[section]]")
    elif blueprint.pass_mark > blueprint.questions:
        what = f"pass_mark is {blueprint.pass_mark} of {blueprint.questions} questions"
        top.complain("Q910", "pass_mark", what, REACHABLE)
    if len({section.id for section in sections}) < len(sections):
        top.complain("Q910", "section", "two sections have one id", "give each its own")
    return blueprint


def _section(fields: Fields) -> SectionPlan:
    questions = fields.whole("questions", 1, LONGEST)
    levels = fields.table("levels")
    calculations = fields.table("calculations")
    section = SectionPlan(
        id=fields.text("id"),
        title=fields.text("title"),
        topics=tuple(topic.strip("/") for topic in fields.texts("topics", 0 if fields.has("entries") else 1)),
        questions=questions,
        levels={level: levels.whole(level, 0, questions) for level in LEVELS if levels.has(level)},
        calculations=(
            calculations.whole("fewest", 0, questions, 0),
            calculations.whole("most", 0, questions, questions),
        ),
        safety_critical=fields.flag("safety_critical"),
        all_right=fields.flag("all_right"),
        exercise=fields.choice("form", EXERCISES, ""),
        entries=fields.texts("entries"),
    )
    for part in (levels, calculations, fields):
        part.done()
    return section
