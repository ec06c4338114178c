import re
from itertools import pairwise
from xml.etree import ElementTree as ET

from quizzer.blocks.plots import Column, Columns, Grid, Interval, Intervals, Sign
from quizzer.render.svg.drawing import drawn as drawings
from quizzer.render.svg.drawing import picture, svg

SIGNS = (Sign("weak", "!!", "dark", "under half", "weak in"), Sign("strong", "ok", "light", "all", "strong in"))
SVG = "{http://www.w3.org/2000/svg}"


def drawn(*plots):
    return ET.fromstring(svg("A & B <c>", plots, "note"))  # noqa: S314  our own file


def test_every_plot_is_named_and_told_in_words():
    root = drawn(
        Columns("Marks", [Column("39", "10 %", 0.1, full=False), Column("40", "20 %", 0.2)]),
        Intervals("Topics", [Interval("testing", "0.5", 0.5, 0.2, 0.7)], 1.0, 0.8),
    )
    assert root.get("role") == "img"
    assert [title.text for title in root.iter(f"{SVG}title")] == ["A & B <c>", "Marks", "Topics"]
    assert [words.text for words in root.iter(f"{SVG}desc")] == [
        "39: 10 %; 40: 20 %. testing: 0.5.",
        "39: 10 %; 40: 20 %.",
        "testing: 0.5.",
    ]
    ids = {each.get("id") for each in root.iter() if each.get("id")}
    named = [name for each in root.iter() for name in (each.get("aria-labelledby") or "").split()]
    assert set(named) <= ids


def test_greys_alone_carry_it():
    text = svg("t", [Columns("Marks", [Column("1", "", 0.4, full=False), Column("2", "", 0.6)])])
    colours = set(re.findall(r'"#(\w+)"', text))
    assert colours
    assert all(len(set(colour)) == 1 for colour in colours)


def test_nothing_to_draw_is_drawn():
    assert drawn(Columns("m", []), Intervals("t", []), Grid("g", [], [], SIGNS)) is not None


def test_a_grid_says_in_signs_what_it_says_in_greys():
    (drawing,) = drawings(Grid("People", ["a", "b"], [("Ada", ["weak", "strong"])], SIGNS))
    root = ET.fromstring(picture(drawing))  # noqa: S314  our own file
    foot = "!! weak; ok strong"
    assert [each.text for each in root.iter(f"{SVG}text")] == ["a", "b", "Ada", "!!", "ok", foot]
    assert drawing.words == "Ada: weak in a; strong in b."


def test_a_large_grid_is_parted():
    heads, rows = [f"t{at}" for at in range(20)], [(f"p{at}", ["weak"] * 20) for at in range(30)]
    parts = [*drawings(Grid("People", heads, rows, SIGNS))]
    assert len(parts) == 4
    assert sum(each.words.count("weak in") for each in parts) == 60


LONG = "Bartholomew Maximilian Featherstonehaugh of the Long and Winding Drawing Office Annexe"


def test_no_words_leave_the_picture():
    """Every text begins inside, and has the room its letters take (at 0.5 of their size each, which is a mean)."""
    root = drawn(
        Intervals(LONG * 2, [Interval(LONG, "", 1, 0, 1), Interval("a", "", 0, 0, 0)], 1.0, 0.6),
        Columns(LONG * 2, [Column(f"{at} Nov", "129 min", float(at)) for at in range(130)]),
        Grid(LONG * 2, [LONG] * 14, [(LONG, ["weak"] * 14)], SIGNS),
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
    root = drawn(Columns("m", [Column(f"{at} Nov", "", 1.0) for at in range(130)]))
    places = sorted(float(each.get("x")) for each in root.iter(f"{SVG}text") if (each.text or "").endswith(" Nov"))
    assert min(b - a for a, b in pairwise(places)) >= 45
