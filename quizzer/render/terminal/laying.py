"""A page laid out for a terminal, block by block. Bars are characters beside their values, never colour alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import assert_never

from quizzer.blocks.page import Block, Page, Shown, shown
from quizzer.blocks.pictures import Picture
from quizzer.blocks.plots import Columns, Grid, Intervals
from quizzer.blocks.question import CautionNote, Choices, Working, WorkingLine, figures_of
from quizzer.blocks.text import (
    DataTable,
    Gap,
    Heading,
    Listing,
    PageBreak,
    Paragraph,
    Points,
    Role,
    Words,
    said,
)
from quizzer.expression.showing import say, spoken
from quizzer.expression.subscripts import attached
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.doing import command

_STYLES: dict[Role, str] = {
    "": "",
    "right": "right",
    "wrong": "wrong",
    "caution": "caution",
    "aside": "faint",
    "key": "bold",
}


def lay(canvas: Canvas, page: Page) -> None:
    """The page under its title."""
    canvas.heading(page.title, page.beside)
    add_blocks(canvas, page.blocks)


def add_blocks(canvas: Canvas, blocks: Sequence[Block]) -> None:
    """Every block under the one before."""
    before: Block | None = None
    for block in shown(blocks, "terminal"):
        if isinstance(before, Points) and isinstance(block, Paragraph):
            canvas.gap()
        _add(canvas, block)
        before = block


def _add(canvas: Canvas, block: Shown) -> None:  # noqa: C901, PLR0912  one case a kind of block
    match block:
        case Paragraph(words=words, role=role, lead=lead):
            text = f"{lead}: {_said(canvas, words)}" if lead else _said(canvas, words)
            canvas.text(text, hang=min(len(lead) + 2, 9) if lead else 0, style=_STYLES[role])
        case Heading(text=text):
            canvas.gap()
            canvas.text(text, style="bold")
        case Gap() | PageBreak():
            canvas.gap()
        case Points(points=points, ordered=ordered):
            for at, point in enumerate(points, 1):
                mark = f"{at}. " if ordered else "- "
                canvas.text(mark + _said(canvas, point), hang=len(mark))
        case Choices(choices=choices):
            for label, text in choices:
                canvas.text(f"{label}  {attached(text)}", indent=2, hang=5)
        case CautionNote(say=words, defer=defer):
            canvas.text(f"CAUTION  {words}", hang=9, style="caution")
            canvas.text(f"Ask: {defer}.", indent=9)
        case Listing(lines=lines):
            indent = 4 if all(len(line) + 4 <= canvas.look.width for line in lines) else 0
            for line in lines:
                canvas.text(line, indent=indent, hang=indent + 4)
        case Working(steps=steps):
            for step in steps:
                _step(canvas, step)
        case DataTable():
            from quizzer.render.terminal.tables import add_table  # here and below: no question needs them

            add_table(canvas, block)
        case Picture():
            from quizzer.render.terminal.pictures import add_picture

            add_picture(canvas, block)
        case Intervals() | Columns() | Grid():
            from quizzer.render.terminal.plots import add_plot

            add_plot(canvas, block)
        case _:
            assert_never(block)


def _said(canvas: Canvas, words: Words) -> str:
    return attached(said(words, lambda each: f"`{command(each, canvas.look.program)}`"))


def _step(canvas: Canvas, step: WorkingLine) -> None:
    """A step: what is done, then symbols, figures and result, on one line where there is room."""
    plain, lead = canvas.look.plain, 4 + len(attached(step.name)) + 1
    if step.say:
        canvas.text(attached(step.say), indent=2)
    formula = f"{spoken(step.name)} equals {say(step.tree)}" if plain and not step.words else attached(step.formula)
    equals = "equals" if plain else "="
    parts = [formula, *figures_of(step), step.result]
    line = f" {equals} ".join(parts)
    if len(canvas.shown(line)) + 4 <= canvas.look.width:
        canvas.text(line, indent=4)
        return
    canvas.text(formula, indent=4, hang=6)
    for text in parts[1:]:
        canvas.text(f"{equals} {text}", indent=lead, hang=lead + 2)
