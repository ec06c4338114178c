"""What to do next as links; what this page cannot do stays the command that does it."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from urllib.parse import quote, urlencode

from quizzer.blocks.text import Do
from quizzer.render.html.fragments import as_command, named

_PATHS: dict[str, tuple[str, str]] = {
    "study": ("/study", "Study"),
    "ready": ("/ready", "Readiness"),
    "weak": ("/weak", "Weak topics"),
    "progress": ("/progress", "Progress"),
    "plan": ("/plan", "Plan"),
    "sit": ("/papers", "Mock paper"),
    "topics": ("/words", "Words"),
    "find": ("/words", "Words"),
}
_WISHES: dict[str, str] = {"weak": "what is weak", "mistakes": "mistakes"}


def link(do: Do) -> str:
    """The HTML of what to do next.

    >>> link(Do("study", (), (("mistakes", True),)))
    '<a href="/study?mistakes=1">Study mistakes</a>'
    >>> link(Do("guide", ("trainee",)))
    '<a href="/guides/trainee">trainee</a>'
    """
    by_name = _NAMED.get(do.verb)
    if by_name and do.to:
        return by_name(do.to[0])
    if do.verb not in _PATHS:
        return as_command(do)
    path, name = _PATHS[do.verb]
    query = urlencode([(wish, "1" if value is True else str(value)) for wish, value in do.wishes])
    said = [name, *(_WISHES.get(wish, "") if value is True else str(value) for wish, value in do.wishes)]
    words = " ".join(filter(None, said))
    return f'<a href="{escape(path + ("?" + query if query else ""))}">{escape(words)}</a>'


def _entry(name: str) -> str:
    return f'<a href="/entries/{escape(quote(name))}">{named(escape(name))}</a>'


def _guide(name: str) -> str:
    return f'<a href="/guides/{escape(quote(name))}">{escape(name)}</a>'


_NAMED: dict[str, Callable[[str], str]] = {"show": _entry, "guide": _guide}
