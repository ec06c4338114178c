import re
from xml.etree import ElementTree as ET

from quizzer.render.plots import Interval, bars, intervals, svg

SVG = "{http://www.w3.org/2000/svg}"


def drawn(*plots):
    return ET.fromstring(svg("A & B <c>", plots, "note"))  # noqa: S314  our own file


def test_every_plot_is_named_and_told_in_words():
    root = drawn(
        bars("Marks", "most likely 40", [(str(n), 0.1) for n in range(10)], 5),
        intervals("Topics", "testing 0.5", [Interval("testing", 0.2, 0.5, 0.7)], 1.0, 0.8),
    )
    assert root.get("role") == "img"
    assert [title.text for title in root.iter(f"{SVG}title")] == ["A & B <c>", "Marks", "Topics"]
    assert [words.text for words in root.iter(f"{SVG}desc")] == [
        "most likely 40 testing 0.5", "most likely 40", "testing 0.5",
    ]  # fmt: skip
    ids = {each.get("id") for each in root.iter() if each.get("id")}
    named = [name for each in root.iter() for name in (each.get("aria-labelledby") or "").split()]
    assert set(named) <= ids


def test_greys_alone_carry_it():
    text = svg("t", [bars("Marks", "w", [("1", 0.4), ("2", 0.6)], 1)])
    colours = set(re.findall(r'"#(\w+)"', text))
    assert colours
    assert all(len(set(colour)) == 1 for colour in colours)


def test_nothing_to_draw_is_drawn():
    assert drawn(bars("m", "w", []), intervals("t", "w", [], 1.0)) is not None
