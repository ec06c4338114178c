"""The letters of pictures: how wide they are, for who measures words, and a font of them for browsers."""

from io import BytesIO
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

ROOT = Path(__file__).parent.parent
FONT = ROOT / "quizzer/render/fonts/SourceSansPro-Regular.otf"
MODULE = ROOT / "quizzer/picture/letter_widths.py"
WEB_FONT = ROOT / "quizzer/web/static/fonts/pictures.woff"
# The licence of the font (quizzer/render/fonts/OFL.txt) reserves its name: what is changed has another.
WEB_NAME = "Quizzer Pictures"
# What stands in a picture: printable ASCII, and the signs of the trade.
LETTERS = "".join(map(chr, range(0x20, 0x7F))) + "°±²³·×÷ΔΩαθμπφ–—‘’“”…−≈≤≥½¼¾"
HEAD = '"""How wide letters are, in thousandths of their size. Made by scripts/letter_widths; do not edit."""\n'


def module() -> str:
    """The text of the module."""
    font = TTFont(FONT)
    names, widths, scale = font.getBestCmap(), font["hmtx"], 1000 / font["head"].unitsPerEm
    known = [letter for letter in LETTERS if ord(letter) in names]
    rows = [f"    {ord(letter)}: {round(widths[names[ord(letter)]][0] * scale)},  # {letter!r}" for letter in known]
    return "\n".join([HEAD, "WIDTHS = {", *rows, "}", ""])


def web_font() -> bytes:
    """The font with these letters alone, under a name of its own.

    Without kerning, a fifth of it: where words stand in a picture is reckoned from the widths of single letters.
    """
    font = TTFont(FONT, recalcTimestamp=False)
    kept = Subsetter(Options(layout_features=[], name_IDs=[0, 1, 2, 3, 4, 5, 6, 13, 14], hinting=False))
    kept.populate(text=LETTERS)
    kept.subset(font)
    for name in list(font["name"].names):
        if name.nameID in {1, 3, 4, 6}:
            name.string = WEB_NAME if name.nameID != 6 else WEB_NAME.replace(" ", "")
    inside = font["CFF "].cff
    inside.fontNames = [WEB_NAME.replace(" ", "")]
    inside[0].rawDict |= {"FullName": WEB_NAME, "FamilyName": WEB_NAME}
    inside[0].FullName, inside[0].FamilyName = WEB_NAME, WEB_NAME
    font.flavor = "woff"
    written = BytesIO()
    font.save(written)
    return written.getvalue()


if __name__ == "__main__":
    MODULE.write_text(module(), encoding="utf-8")
    WEB_FONT.parent.mkdir(exist_ok=True)
    WEB_FONT.write_bytes(web_font())
