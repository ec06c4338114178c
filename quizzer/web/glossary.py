"""Words of the trade in a text, each with its meaning a tap away: the browser opens it, and no script is needed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import escape

_TAG_OR_TEXT = re.compile(r"<(/?)(\w+)[^>]*>|[^<]+")
_TOLD_IN = frozenset({"p", "li"})
_NOT_IN = frozenset({"svg", "math", "code", "a", "button", "form", "summary"})
_FOLDED = "details"  # what stands there is not seen: a word is marked inside as well as outside
_SHORTEST = 2  # characters: one letter stands for a unit as often (5 N)


class Glossary:
    """The terms of a bank with their meanings; `used` are the places of those whose meanings are to be told."""

    def __init__(self, terms: Mapping[str, str]) -> None:
        self._terms = [(term, plain) for term, plain in terms.items() if len(term) >= _SHORTEST]
        # An abbreviation is its capitals; a word may begin a sentence, and may stand for several.
        self._at = {form: at for at, (term, _) in reversed([*enumerate(self._terms)]) for form in _forms(term)}
        longest_first = sorted(self._at, key=len, reverse=True)
        self._any = re.compile(rf"(?<![\w&/-])(?:{'|'.join(map(re.escape, longest_first))})(?![\w/-])")
        self.used: set[int] = set()

    def marked(self, html: str) -> str:
        """The fragment with the first of each term in its paragraphs as a button that opens the meaning."""
        if not self._terms:
            return html
        open_tags: list[str] = []
        done: set[tuple[int, bool]] = set()
        return _TAG_OR_TEXT.sub(lambda found: self._part(found, open_tags, done), html)

    def meanings(self) -> str:
        """The meanings of what was marked since they were last told, to be opened."""
        used, self.used = sorted(self.used), set()
        return "".join(self._meaning(at, *self._terms[at]) for at in used)

    def _part(self, found: re.Match[str], around: list[str], done: set[tuple[int, bool]]) -> str:
        closing, tag = found[1], found[2]
        if tag in _TOLD_IN | _NOT_IN | {_FOLDED}:
            if closing and tag in around:
                del around[len(around) - 1 - around[::-1].index(tag) :]
            elif not closing:
                around.append(tag)
        told = not tag and not _TOLD_IN.isdisjoint(around) and _NOT_IN.isdisjoint(around)
        folded = _FOLDED in around
        return self._any.sub(lambda word: self._word(word[0], done, folded=folded), found[0]) if told else found[0]

    def _word(self, word: str, done: set[tuple[int, bool]], *, folded: bool) -> str:
        at = self._at[word]
        if (at, folded) in done:
            return word
        done.add((at, folded))
        self.used.add(at)
        return f'<button type="button" class="term" popovertarget="term-{at}">{word}</button>'

    @staticmethod
    def _meaning(at: int, term: str, plain: str) -> str:
        close = (
            f'<button type="button" class="quiet" popovertarget="term-{at}" popovertargetaction="hide">Close</button>'
        )
        return f'<div popover id="term-{at}"><p><strong>{escape(term)}:</strong> {escape(plain)}</p>{close}</div>'


def _forms(term: str) -> Iterable[str]:
    """The ways a term stands in a text, escaped as texts are."""
    text = escape(term)
    for one in {text, text if text[:2].isupper() else text[:1].upper() + text[1:]}:
        yield one
        if one[-1:].isalpha() and not one.endswith("s"):
            yield f"{one}s"
