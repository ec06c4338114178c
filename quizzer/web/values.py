"""What each template is given: a class names its template, and its fields are all that the template may ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from markupsafe import Markup

from quizzer.web.menu import BAR, MenuPlace


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around every page.

    Its title, the place in the bar, who is in by name and by id ("" for nobody), the paths of its style, its modules,
    what those import, and its icons.
    """

    title: str
    here: str
    name: str
    person: str
    style: str
    modules: tuple[str, ...]
    imported: tuple[str, ...]
    icons: dict[str, str]
    bar: tuple[MenuPlace, ...] = BAR


@dataclass(frozen=True, slots=True)
class Values:
    """The values of a template."""

    template: ClassVar[str]


@dataclass(frozen=True, slots=True)
class ReadPage(Values):
    """A page that is read, with links under it."""

    template: ClassVar[str] = "said.html"
    article: Markup
    links: Sequence[MenuPlace] = ()


@dataclass(frozen=True, slots=True)
class StudyPage(Values):
    """The shell of a session: what the page's own modules are told, and what the program says of itself.

    `first` is a pack of one question, to be asked while the whole one is drawn ("" for none), `sure` how sure a person
    may be.
    """

    template: ClassVar[str] = "study.html"
    person: str
    pack: str
    version: str
    notice: str
    first: str
    sure: Sequence[str]


@dataclass(frozen=True, slots=True)
class AskedPart(Values):
    """What is asked, and the form that takes the reply: options by their letters as HTML.

    `beside` says how far the session is, of what is asked again; else the page counts.
    """

    template: ClassVar[str] = "asked.html"
    title: str
    beside: str
    ask: Markup
    kind: str
    wanted: str
    options: Sequence[tuple[str, Markup]]


class RepeatLine(NamedTuple):
    """How a question is asked again: the answers that lead to it, in words, and what of the working.

    Only where fewer than `first` of those that are counted were asked so far, and one in `every` questions (0: it is
    not counted), and after more than `slower` seconds.
    """

    when: str
    words: str
    exercise: str
    first: int
    every: int
    slower: float


@dataclass(frozen=True, slots=True)
class AnsweredPart(Values):
    """What follows the verdict on an answer.

    `backs` says when it comes back, with the answers that lead to it; `extra` that it was asked again, and changes
    nothing ("" where it does). `repeats` say how it is asked again in the session, likewise with the answers.
    """

    template: ClassVar[str] = "answered.html"
    certain: Markup
    reason: Markup
    answer: Markup
    working: Markup
    backs: Sequence[tuple[str, str]]
    extra: str
    repeats: Sequence[RepeatLine]


@dataclass(frozen=True, slots=True)
class SentencePage(Values):
    """One sentence with how to mend it: a refusal, or how to get in."""

    template: ClassVar[str] = "sentence.html"
    what: str
    mend: Markup


@dataclass(frozen=True, slots=True)
class MorePage(Values):
    """Places with what is there."""

    template: ClassVar[str] = "more.html"
    heading: str
    places: Sequence[MenuPlace]


@dataclass(frozen=True, slots=True)
class WordsPage(Values):
    """A field to look words up, with what was looked up ("" for nothing yet) and what was found."""

    template: ClassVar[str] = "words.html"
    heading: str
    words: str
    found: Markup


@dataclass(frozen=True, slots=True)
class SettingsPage(Values):
    """What is studied for: the plans to choose from by id and title, and what stands in each field.

    `wrong` is a sentence about what was sent, `kept` says that it was kept.
    """

    template: ClassVar[str] = "settings.html"
    heading: str
    plans: Sequence[tuple[str, str]]
    plan: str
    exam: str
    today: str
    minutes: str
    wrong: str
    kept: bool


class PaperOffer(NamedTuple):
    """A paper that may be sat: where it is, its size, whether it is begun, and whether one of its plan was marked."""

    path: str
    title: str
    questions: int
    minutes: int
    begun: bool
    marked: bool


class PaperPast(NamedTuple):
    """A paper that was marked and cannot be sat any more: where it was, and its title."""

    path: str
    title: str


@dataclass(frozen=True, slots=True)
class PapersPage(Values):
    """The papers that may be sat, and those that were."""

    template: ClassVar[str] = "papers.html"
    heading: str
    lines: Sequence[PaperOffer]
    past: Sequence[PaperPast]


@dataclass(frozen=True, slots=True)
class DeskPage(Values):
    """A question of a paper being sat, from 0, with its options as HTML, and the seconds that are left."""

    template: ClassVar[str] = "paper.html"
    path: str
    article: Markup
    at: int
    last: bool
    wanted: str
    options: Sequence[tuple[str, Markup]]
    chosen: str
    flagged: bool
    left: int


@dataclass(frozen=True, slots=True)
class OverviewPage(Values):
    """Every question of a paper by its number, whether it lacks an answer and whether it is flagged."""

    template: ClassVar[str] = "overview.html"
    path: str
    article: Markup
    numbers: Sequence[tuple[int, bool, bool]]
    left: int


PAGES: tuple[type[Values], ...] = (
    ReadPage,
    StudyPage,
    AskedPart,
    AnsweredPart,
    SentencePage,
    MorePage,
    WordsPage,
    SettingsPage,
    PapersPage,
    DeskPage,
    OverviewPage,
)
