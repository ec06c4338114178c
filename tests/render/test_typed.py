"""What is typed as it stands: code on a page of the web, bold where a terminal has it, between backticks elsewhere."""

import re

import pytest

from quizzer.blocks.page import Page
from quizzer.blocks.text import DataTable, Heading, Paragraph, Points, do
from quizzer.render.html.fragments import parts
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay

SAID = (
    Heading("About `study`"),
    Paragraph("Ask for `--topic T_n <x>` or for `--given I_n=32`, and I_n is another one from then on."),
    Points([("Or look at it: ", do("show", "a/b/c"))]),
    Paragraph("An odd ` stays what it is."),
    Paragraph("Not so loud: `x`.", "aside"),
    DataTable("", ["option", "does"], [["`--weak`", "what is `weak` first"]]),
)


def on_terminal(*, colour: bool, width: int = 80) -> str:
    canvas = Canvas(Look(width, colour=colour))
    lay(canvas, Page("Title", SAID))
    return str(canvas)


def test_a_page_of_the_web_has_it_as_code():
    html = parts(SAID)
    assert "<h2>About <code>study</code></h2>" in html
    bare = html.replace('<span class="whole">', "").replace("</span>", "")
    assert "<code>--topic T_n &lt;x&gt;</code> or for <code>--given I_n=32</code>, and I<sub>n</sub> is" in bare
    assert '<th scope="row"><code>--weak</code></th><td>what is <code>weak</code> first</td>' in bare
    assert '<code><span class="whole">--weak</span></code>' in html, "no line ends behind its hyphens"
    assert html.count("`") == 1


def test_a_terminal_without_emphases_has_it_between_backticks():
    said = on_terminal(colour=False)
    assert "for `--given I_n=32`, and In is" in said.replace("\n", " ")
    assert "`quizzer show a/b/c`" in said
    assert re.search(r"`--weak` +what is `weak` first", said)


@pytest.mark.parametrize("width", [40, 80])
def test_a_terminal_with_emphases_has_it_in_bold(width):
    said = on_terminal(colour=True, width=width)
    bold = " ".join(re.findall(r"\x1b\[1m(.*?)\x1b\[0m", said))
    assert {"--topic", "T_n", "<x>", "--given", "I_n=32", "quizzer", "show", "a/b/c", "x"} <= set(bold.split())
    assert "loud" not in bold
    assert re.search(r"--weak +what is weak first", said)
    assert said.count("`") == 3, "of the heading, which is bold as a whole, and the odd one"
    for line in re.sub(r"\x1b\[\d(;\d+)?m", "", said).splitlines():
        assert len(line) <= width
