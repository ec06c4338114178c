"""The widths of letters in the font that is shipped, as the module that pictures measure their words with."""

from pathlib import Path

from fontTools.ttLib import TTFont

ROOT = Path(__file__).parent.parent
FONT = ROOT / "quizzer/render/fonts/SourceSansPro-Regular.otf"
MODULE = ROOT / "quizzer/picture/letter_widths.py"
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


if __name__ == "__main__":
    MODULE.write_text(module(), encoding="utf-8")
