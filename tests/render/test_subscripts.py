"""Symbols in running text: a letter with its subscript where a medium can set one, and no underscore anywhere."""

import xml.etree.ElementTree as ET

import pytest

from quizzer.blocks.page import Page
from quizzer.blocks.text import Paragraph
from quizzer.expression.subscripts import attached
from quizzer.render.html.fragments import fragment
from quizzer.render.qti.dialects import lined
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay

PAGE = Page("Loop", [Paragraph("Z_s is Z_e plus R_1; `--given I_n=32` stays, and so does j_smithson in my_file.toml.")])


@pytest.mark.parametrize(
    ("text", "close"),
    [
        ("I_n", "In"),
        ("A_1² + I_Δn", "A1² + IΔn"),
        ("pf_1, drop_2, k_short", "pf1, drop2, kshort"),
        ("cos_φ", "cos φ"),
        ("my_file.toml a/b_c QUIZZER_STORE j_smith x_1_2", "my_file.toml a/b_c QUIZZER_STORE j_smith x_1_2"),
    ],
)
def test_a_symbol_is_one_letter_and_a_short_subscript(text, close):
    assert attached(text) == close


def test_each_medium_sets_them_in_its_way():
    for look in (Look(), Look(plain=True)):
        canvas = Canvas(look)
        lay(canvas, PAGE)
        assert "Zs is Ze plus R1;" in str(canvas)
        assert "--given I_n=32" in str(canvas)
    assert "Z<sub>s</sub> is Z<sub>e</sub> plus R<sub>1</sub>; <code>" in fragment(PAGE)
    assert "</span> I_n=32</code>" in fragment(PAGE)


def test_a_platform_gets_subscripts_and_line_breaks():
    found = ET.Element("p")
    lined(found, "Z_s\nand R_1 & x")
    assert ET.tostring(found, encoding="unicode") == "<p>Z<sub>s</sub><br />and R<sub>1</sub> &amp; x</p>"
