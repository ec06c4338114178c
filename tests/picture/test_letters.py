"""Words are measured with the widths of the font that is shipped."""

from io import BytesIO

from fontTools.ttLib import TTFont

from quizzer.picture.letter_widths import WIDTHS
from quizzer.picture.shapes import spans_of, wide_of
from scripts.letters import FONT, MODULE, WEB_FONT, WEB_NAME, module, web_font


def test_the_widths_are_those_of_the_font():
    assert module() == MODULE.read_text(encoding="utf-8")
    font = TTFont(FONT)
    advance = font["hmtx"][font.getBestCmap()[ord("Ω")]][0]  # the OpenType table of horizontal metrics
    assert WIDTHS[ord("Ω")] == round(advance * 1000 / font["head"].unitsPerEm)


def test_a_text_is_as_wide_as_its_letters():
    assert wide_of("10 Ω", 10) == sum(WIDTHS[ord(letter)] for letter in "10 Ω") / 100
    assert "".join(span.text for span in spans_of("Z_s 1.2 Ω at I_n")) == "Zs 1.2 Ω at In"


def test_a_browser_is_given_every_letter_under_a_name_of_our_own():
    made, kept = TTFont(BytesIO(web_font())), TTFont(WEB_FONT)
    assert kept.getBestCmap() == made.getBestCmap()
    assert {letter: kept["hmtx"][kept.getBestCmap()[letter]][0] for letter in WIDTHS} == WIDTHS
    assert set(WIDTHS) <= set(kept.getBestCmap())
    names = {str(name) for name in kept["name"].names if name.nameID in {1, 3, 4, 6}} | set(kept["CFF "].cff.fontNames)
    assert names == {WEB_NAME, WEB_NAME.replace(" ", "")}
    assert WEB_FONT.stat().st_size < 12_000
