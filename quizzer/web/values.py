"""What each template is given: a class names its template, and its fields are all that the template may ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from quizzer.web.menu import BAR, MenuPlace


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around every page.

    Its title, the place in the bar, who is in by name and by id ("" for nobody), the paths of its style, its modules
    and its icons.
    """

    title: str
    here: str
    name: str
    person: str
    style: str
    modules: tuple[str, ...]
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
class Study(Values):
    """The shell of a session: what the page's own modules are told."""

    template: ClassVar[str] = "study.html"
    person: str
    pack: str
    version: str


@dataclass(frozen=True, slots=True)
class Sentence(Values):
    """One sentence with how to mend it: a refusal, or how to get in."""

    template: ClassVar[str] = "sentence.html"
    what: str
    mend: Markup


@dataclass(frozen=True, slots=True)
class More(Values):
    """Places with what is there."""

    template: ClassVar[str] = "more.html"
    heading: str
    places: Sequence[MenuPlace]


PAGES: tuple[type[Values], ...] = (ReadPage, Study, Sentence, More)
