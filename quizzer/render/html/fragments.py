"""A page as a fragment of HTML: headings, lists, tables with their scopes, figures with captions, MathML."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from html import escape
from textwrap import shorten
from typing import assert_never

from quizzer.blocks.page import Block, Page, Plot, Shown, shown
from quizzer.blocks.pictures import Picture
from quizzer.blocks.plots import Columns, Grid, Intervals, titled
from quizzer.blocks.question import CautionNote, Choices, Working, WorkingLine, figures_of, said_of, spoken_step
from quizzer.blocks.text import DataTable, Do, Gap, Heading, Listing, PageBreak, Paragraph, Points, Words, spans
from quizzer.expression.subscripts import subscripted
from quizzer.expression.tree import Name
from quizzer.expression.typeset import mathml
from quizzer.picture.kinds import drawn as drawn_picture
from quizzer.render.svg.drawing import PHONE, drawn, named_picture
from quizzer.render.svg.pictures import svg_of
from quizzer.render.terminal.doing import command
from quizzer.render.ties import together

Worded = Callable[[Do], str]
IN_WORDS = "Picture in words"
_BREATH = 120  # characters of the name of a picture
_TYPED = re.compile(r"`([^`]+)`")
_PART = "[a-z0-9]+(?:-[a-z0-9]+)*"
_NAME = re.compile(rf"(?<![\w/<&.-])(?=[a-z]){_PART}(?:/{_PART})+(?:#\d+)?(?![\w-])")
_STANDARD = re.compile(r"(?<=\bBS|\bEN) (?=\d|EN)")
_OPTION = re.compile(r"(?<!\S)--[a-z-]+")
_RULE = re.compile("─{25,}")
_SHORT = 12  # letters: km/h is no name, and stays whole
_MATHS = "http://www.w3.org/1998/Math/MathML"


def as_command(do: Do) -> str:
    """What to do next as the command that does it: for pages that no server stands behind."""
    return f"<code>{escape(command(do, 'quizzer'))}</code>"


def fragment(page: Page, word: Worded = as_command, *, lang: str = "en-GB") -> str:
    """The page as one `article`, every text in it escaped; `word` makes the HTML of what to do next."""
    beside = f'<p class="beside">{named(escape(page.beside))}</p>\n' if page.beside else ""
    blocks = parts(page.blocks, word)
    return f'<article lang="{lang}">\n<h1>{escape(page.title)}</h1>\n{beside}{blocks}\n</article>\n'


def parts(blocks: Sequence[Block], word: Worded = as_command) -> str:
    """The blocks, for a page that has its own title around them."""
    return "\n".join(_block(block, word) for block in shown(blocks, "web"))


def words(text: str) -> str:
    """The text escaped, its symbols with their subscripts, what stands between backticks as typed.

    >>> words("`quizzer show NAME --given I_n=32` changes I_n")
    '<code>quizzer show NAME <span class="whole">--given</span> I_n=32</code> changes I<sub>n</sub>'
    """
    return typed(subscripted(escape(text), _below))


def typed(html: str) -> str:
    """The HTML with what stands between backticks set as it is typed; names and figures are not torn apart."""
    return _TYPED.sub(_code, named(_STANDARD.sub("\u00a0", together(html))))


def named(html: str) -> str:
    """The HTML with names of entries parted at their strokes alone, and not at every hyphen.

    >>> named("design/zs-design and so on")
    '<span class="whole">design/</span><span class="whole">zs-design</span> and so on'
    """
    return _NAME.sub(lambda found: _parted(found[0]), html)


def _parted(name: str) -> str:
    return name if len(name) < _SHORT else "".join(map(_whole, re.findall("[^/]+/?", name)))


def _code(found: re.Match[str]) -> str:
    """What is typed: a word with a hyphen stays whole, unless it is a name that is parted already."""
    typed = (_whole(word) if "-" in word and not re.search("[<>]", word) else word for word in found[1].split(" "))
    return f"<code>{' '.join(typed)}</code>"


def _listed(text: str) -> str:
    """Lines of a screen: options stay whole, and what is ruled across a terminal is no longer than a phone is wide."""
    return _OPTION.sub(lambda found: _whole(found[0]), _RULE.sub("─" * 24, escape(text)))


def _whole(word: str) -> str:
    return f'<span class="whole">{word}</span>'


def _block(block: Shown, word: Worded) -> str:  # noqa: C901, PLR0911  one case a kind
    match block:
        case Heading(text=text, level=level):
            return f"<h{level}>{typed(escape(text))}</h{level}>"
        case Paragraph(words=said, role=role, lead=lead):
            kind = f' class="{role}"' if role else ""
            before = f"<strong>{escape(lead)}:</strong> " if lead else ""
            return f"<p{kind}>{before}{_said(said, word)}</p>"
        case Points(points=points, ordered=ordered):
            kind, items = "ol" if ordered else "ul", "".join(f"<li>{_said(each, word)}</li>" for each in points)
            return f"<{kind}>{items}</{kind}>"
        case DataTable():
            return _table(block)
        case Listing(lines=lines):
            return f"<pre>{_listed(chr(10).join(lines))}</pre>"
        case Gap() | PageBreak():
            return "<hr>"
        case CautionNote(say=say, defer=defer):
            return f'<p class="caution" role="note"><strong>Caution:</strong> {escape(say)} Ask: {escape(defer)}.</p>'
        case Choices(choices=choices):
            pairs = "".join(f"<dt>{escape(label)}</dt><dd>{words(text)}</dd>" for label, text in choices)
            return f'<dl class="choices">{pairs}</dl>'
        case Working(steps=steps):
            return "".join(f"<p>{words(said_of(step))} {_maths(step)}</p>" for step in steps)
        case Picture():
            return _picture(block)
        case Intervals() | Columns() | Grid():
            return _figure(block)
    assert_never(block)


def _said(said: Words, word: Worded) -> str:
    every = (said,) if isinstance(said, str) else said
    html = "".join(words(each) if isinstance(each, str) else word(each) for each in every)
    return html.replace("\n", "<br>")


def _below(base: str, sub: str) -> str:
    return f"{base}<sub>{sub}</sub>"


def _table(table: DataTable) -> str:
    caption = f"<caption>{escape(table.title)}</caption>" if table.title else ""
    heads = "".join(f'<th scope="col">{typed(escape(head))}</th>' if head else "<td></td>" for head in table.heads)
    rows = [_row(row, table.right, rows) for row, rows in zip(table.rows, spans(table), strict=True)]
    foot = f"<tfoot>{rows.pop()}</tfoot>" if table.total else ""
    return f"<table>{caption}<thead><tr>{heads}</tr></thead>{_bodies(table, rows)}{foot}</table>"


def _bodies(table: DataTable, rows: Sequence[str]) -> str:
    """The rows; each head that stands for several has a body of its own, which is what its scope is."""
    if not table.spanning:
        return f"<tbody>{''.join(rows)}</tbody>"
    starts = [at for at, many in enumerate(spans(table)) if many]
    parts = [rows[start:end] for start, end in zip(starts, [*starts[1:], len(rows)], strict=True)]
    return "".join(f"<tbody>{''.join(part)}</tbody>" for part in parts)


def _row(row: Sequence[str], right: Sequence[int], rows: int) -> str:
    """A row, its head standing for so many rows; for none where the head above does."""
    first, *rest = row
    cells = "".join(
        f"<td{' class=' + chr(34) + 'figure' + chr(34) if at in right else ''}>{typed(escape(cell))}</td>"
        for at, cell in enumerate(rest, 1)
    )
    several = f' rowspan="{rows}"' if rows > 1 else ""
    scope = "rowgroup" if rows > 1 else "row"
    head = f'<th scope="{scope}"{several}>{typed(escape(first))}</th>' if rows else ""
    return f"<tr>{head}{cells}</tr>"


def _picture(picture: Picture) -> str:
    """The drawing under a name that is heard in one breath; what more there is to be said of it is opened beside it.

    A name cannot be gone through word by word, so what has to be seen to answer can always be read as a text too.
    """
    drawing = drawn_picture(picture)
    name = shorten(drawing.words, _BREATH, placeholder=" …")
    whole = name == drawing.words and not picture.needed
    told = "" if whole else _in_words(drawing.words)
    return f'<figure class="picture">{svg_of(drawing, name)}{told}</figure>'


def _in_words(said: str) -> str:
    return f"<details><summary>{IN_WORDS}</summary><p>{escape(said)}</p></details>"


def _figure(plot: Plot) -> str:
    """The drawing named by its title alone: its words are many, and are gone through where they are opened."""
    pictures = "".join(f"{named_picture(each)}{_in_words(each.words)}" for each in drawn(plot, PHONE))
    return f"<figure><figcaption>{escape(titled(plot))}</figcaption>\n{pictures}</figure>"


def _maths(step: WorkingLine) -> str:
    parts = [mathml(Name(step.name)), *([] if step.words else [mathml(step.tree)])]
    parts += [f"<mtext>{escape(text)}</mtext>" for text in (*figures_of(step), step.result)]
    spoken = escape(spoken_step(step))
    left, *right = parts
    # Each = begins a line of its own: in one line it would be wider than a phone.
    rows = (f"{_cell(left if at == 0 else '')}{_cell('<mo>=</mo>')}{_cell(part)}" for at, part in enumerate(right))
    inside = "".join(f"<mtr>{row}</mtr>" for row in rows)
    return f'<math xmlns="{_MATHS}" display="block" alttext="{spoken}"><mtable>{inside}</mtable></math>'


def _cell(inside: str) -> str:
    return f"<mtd>{inside}</mtd>"
