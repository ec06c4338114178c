"""Values into their templates, and pages of blocks into articles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from html import escape
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from quizzer.blocks.page import Page
from quizzer.blocks.words import capital
from quizzer.errors import QuizzerError
from quizzer.render.html.fragments import fragment, typed, words
from quizzer.web.assets import STYLE
from quizzer.web.links import link
from quizzer.web.menu import MenuPlace, place_of
from quizzer.web.values import Frame, ReadPage, SentencePage, Values
from quizzer.web.visit import Visit, WebSite

TEMPLATES = Path(__file__).parent / "templates"
ENVIRONMENT = Environment(
    loader=FileSystemLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
)
ICONS = {"svg": "icons/icon.svg", "png": "icons/icon-192.png"}
ON_EVERY_PAGE = ("js/status.js",)  # how many answers wait


def answer(
    visit: Visit, title: str, values: Values, here: str, *, modules: Sequence[str] = (), status: int = 200
) -> Response:
    """A page for somebody who is in; `here` is its path, `modules` the files of its own JavaScript."""
    who, every = visit.trainee, (*modules, *ON_EVERY_PAGE)
    return HTMLResponse(written(frame_of(visit.site, title, here, who.name, every, who.id), values), status)


def page_answer(visit: Visit, page: Page, here: str, links: Sequence[MenuPlace] = ()) -> Response:
    """A page of blocks, with links under it."""
    return answer(visit, page.title, ReadPage(article(page), links), here)


def article(page: Page) -> Markup:
    """A page of blocks as an article, what to do next as links."""
    return Markup(fragment(page, link))  # noqa: S704  every text in it is escaped there


def worded(text: str) -> Markup:
    """A text as HTML, its symbols with their subscripts."""
    return Markup(words(text))  # noqa: S704  escaped there


def sentence(site: WebSite, status: int, what: str, mend: str, *, name: str = "") -> Response:
    """A page of one sentence and how to mend it, for whoever asked."""
    told = SentencePage(capital(what), commands(capital(mend)))
    return HTMLResponse(written(frame_of(site, told.what, "", name), told), status)


def refused_words(error: QuizzerError) -> str:
    """A refusal as a sentence of a page that goes on."""
    return f"{capital(error.message)}: {error.mend}."


def commands(words: str) -> Markup:
    """The words with each command in them set as one.

    >>> commands("try `quizzer web` <again>")
    Markup('try <code>quizzer web</code> &lt;again&gt;')
    """
    return Markup(typed(escape(words, quote=False)))  # noqa: S704  escaped here


def frame_of(site: WebSite, title: str, here: str, name: str, modules: Sequence[str] = (), person: str = "") -> Frame:
    """What stands around a page."""
    there = set(site.assets.names())
    own = [each for each in modules if each in there]
    return Frame(
        title=title,
        here=place_of(here) if here else "",
        name=name,
        person=person,
        style=site.assets.path(STYLE),
        modules=tuple(map(site.assets.path, own)),
        imported=tuple(map(site.assets.path, site.assets.imported(own))),
        icons={kind: site.assets.path(path) for kind, path in ICONS.items() if path in there},
    )


def written(frame: Frame, values: Values) -> str:
    """The template of the values, filled in."""
    return _filled(values, frame=frame)


def part(values: Values) -> str:
    """The template of a part that stands on no page by itself, filled in."""
    return _filled(values)


def _filled(values: Values, **around: Frame) -> str:
    told = {each.name: getattr(values, each.name) for each in fields(values)}
    return ENVIRONMENT.get_template(values.template).render(**around, **told)
