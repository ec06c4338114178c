import re
from itertools import pairwise
from xml.etree import ElementTree as ET

from quizzer.render.svg.plots import Cell, Interval, bars, grid, intervals, picture, svg

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
    assert drawn(bars("m", "w", []), intervals("t", "w", [], 1.0), grid("g", "w", [], [])) is not None


def test_a_grid_says_in_signs_what_it_says_in_greys():
    rows = [("Ada", [Cell("!!", "dark"), Cell("ok", "light")])]
    root = ET.fromstring(picture(grid("People", "Ada: weak in a", ["a", "b"], rows)))  # noqa: S314  our own file
    assert [each.text for each in root.iter(f"{SVG}text")] == ["People", "a", "b", "Ada", "!!", "ok"]


LONG = "Bartholomew Maximilian Featherstonehaugh of the Long and Winding Drawing Office Annexe"


def test_no_words_leave_the_picture():
    """Every text begins inside, and has the room its letters take (at 0.5 of their size each, which is a mean)."""
    root = drawn(
        intervals(LONG * 2, "w", [Interval(LONG, 0, 1, 1), Interval("a", 0, 0, 0)], 1.0, 0.6),
        bars(LONG * 2, "w", [(f"{at} Nov", float(at)) for at in range(130)], None, "129 min"),
        grid(LONG * 2, "w", [LONG] * 14, [(LONG, [Cell("!!", "dark")] * 14)]),
    )
    wide = float(root.get("width"))
    for each in root.iter(f"{SVG}text"):
        if each.get("transform"):
            continue
        x, room = float(each.get("x")), len(each.text or "") * float(each.get("font-size")) * 0.5
        left = x - (room / 2 if each.get("text-anchor") == "middle" else 0)
        assert left >= 0, each.text
        assert left + room <= wide, each.text


def test_the_dates_under_many_bars_do_not_touch():
    root = drawn(bars("m", "w", [(f"{at} Nov", 1.0) for at in range(130)]))
    places = sorted(float(each.get("x")) for each in root.iter(f"{SVG}text") if (each.text or "").endswith(" Nov"))
    assert min(b - a for a, b in pairwise(places)) >= 45
