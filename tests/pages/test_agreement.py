"""Every page says the same words in the same order on a terminal, on paper and on the web."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.page import Only, Page
from quizzer.blocks.plots import Column, Columns, Grid, Interval, Intervals
from quizzer.blocks.question import Caution, Choices, Step, Steps
from quizzer.blocks.text import Gap, Heading, Listing, PageBreak, Paragraph, Points, Table, do
from quizzer.expression.reading import read
from quizzer.pages.group import group_page
from quizzer.pages.items import items_page
from quizzer.pages.person import person_page
from quizzer.pages.plan import plan_page
from quizzer.pages.ready import ready_group_page, ready_page
from quizzer.pages.weak import SIGNS, weak_group_page, weak_page
from quizzer.render.html.fragments import fragment
from quizzer.render.typst.report import report_pdf
from quizzer.store import open_store
from quizzer.workflows.group_report import group_report
from quizzer.workflows.items_report import items_report
from quizzer.workflows.person_report import person_report
from quizzer.workflows.plan import plan_for
from quizzer.workflows.readiness import ready_for, ready_group
from quizzer.workflows.reporting import sheets_of
from quizzer.workflows.weakness import weak_for, weak_group
from quizzer.workflows.world import World
from scripts.demonstration import fill
from tests.pages.reading import on_paper, on_terminal, on_the_web, words_of
from tests.papersat import NAMES, sat
from tests.stubbank import stub_bank

DAY = date(2026, 11, 25)
EVERYTHING = Page(
    "Title & <b>more</b>",
    [
        Paragraph(("see ", do("paper report", "m-1", person="Ann O'Neil"), " now"), "key"),
        Paragraph("it is 0.94 Ω at 2.5 mm²", lead="Why"),
        Paragraph("RIGHT.", "right"), Paragraph("WRONG.", "wrong"), Paragraph("live work kills", "caution"),
        Heading("Two"), Heading("Three", 3),
        Points(["one", ("two ", do("study"))]), Points(["first", "second"], ordered=True),
        Table("Table", ["A", "B"], [["x y z", "1"], ["all", "2"]], right=[1], total=True),
        Intervals("Intervals", [Interval("Long name", "50 %", 0.5, 0.2, 0.8), Interval("b", "x", 0.3)], 1, 0.6, "pass"),
        Columns("Columns", [Column("1 to 2", "3 people", 3), Column("3", "4", 4, full=False)]),
        Grid("Grid", [f"t{at}" for at in range(16)], [("Amara", ["weak", "fair"] * 8)], SIGNS),
        Caution("Live work kills.", "the duty holder"), Choices([("A", "ten ohms"), ("B", "2 Ω")]),
        Steps([Step("I_n", "Divide.", "I_n = U / R_1", "230 V / 23 Ω", "10 A", read("U / R_1"))], {"U": "230 V"}),
        Listing(["x = 1", "y"]), Gap(), PageBreak(),
        Only(("terminal",), [Paragraph("typed")]), Only(("web",), [Paragraph("linked")]), Paragraph("end", "aside"),
    ],
    "beside",
)  # fmt: skip


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Every page the program has, by name, of an invented centre and an invented paper."""
    folder = tmp_path_factory.mktemp("pages")
    return {**outlooks(folder), **reports(folder)}


def outlooks(folder: Path) -> dict[str, Page]:
    """The pages of weak, ready and plan."""
    shelf = Shelf(stub_bank(folder / "bank"))
    fill(folder / "demo.db", 7, DAY.isoformat(), folder / "bank")
    store = open_store(str(folder / "demo.db"))
    noon = datetime(2026, 11, 25, 12, tzinfo=UTC)
    world = World(store, shelf, lambda: noon, lambda: 7, lambda: "id")
    usual, everybody = blueprint(shelf, "wiring-regulations"), store.trainees()
    priya = next(one for one in everybody if one.name.startswith("Priya"))
    nobody = store.add_trainee("nobody", "Nobody", noon)
    weak, titles = weak_for(world, priya, usual), shelf.topics()
    found = {
        "weak": weak_page(weak, None),
        "weak topic": weak_page(weak, "design"),
        "weak nobody": weak_page(weak_for(world, nobody, usual), None),
        "weak group": weak_group_page("all", [*weak_group(world, everybody, usual)], None),
        "weak group topic": weak_group_page("all", [*weak_group(world, everybody, usual, parts=True)], "locations"),
        "ready": ready_page(ready_for(world, priya, usual), titles),
        "ready safety": ready_page(ready_for(world, priya, blueprint(shelf, "safety")), titles),
        "ready nobody": ready_page(ready_for(world, nobody, usual), titles),
        "ready group": ready_group_page("all", [*ready_group(world, [*everybody, nobody], usual)], titles),
        "ready no group": ready_group_page("all", [], titles),
    }
    for day in (date(2027, 1, 6), DAY, date(2028, 11, 25)):
        plan = plan_for(world, priya, usual, day, 20.0, frozenset(range(5)), skip=True)
        found[f"plan to {day}"] = plan_page(plan)
    store.close()
    return found


def reports(folder: Path) -> dict[str, Page]:
    """The pages of a paper that was sat."""
    everybody = sat(folder / "paper")
    made = everybody.paper
    found = {
        "group": group_page(made, group_report(everybody)),
        "items": items_page(made, items_report(everybody)),
    }
    for name in NAMES:
        sheets = sheets_of(everybody, name)
        found[f"person {name}"] = person_page(made, [person_report(everybody, each) for each in sheets], sheets)
    return found


def same(page: Page, medium: str, name: str, only: tuple[str, ...] = ()) -> None:
    """The page's words on the medium are those of the terminal, but for these that are only there."""
    read = on_the_web(fragment(page)) if medium == "web" else on_paper(report_pdf(page, DAY, "serial", "head"))
    assert read == [word for word in on_terminal(page) if word not in only], f"{name} on {medium}"


def test_every_block_says_the_same_everywhere():
    assert on_terminal(EVERYTHING)[-2:] == ["typed", "end"]
    same(EVERYTHING, "paper", "everything", ("typed",))
    same(EVERYTHING._replace(blocks=EVERYTHING.blocks[:-3]), "web", "everything")
    assert on_the_web(fragment(EVERYTHING))[-2:] == ["linked", "end"]


def test_every_page_says_the_same_everywhere(pages):
    """But for blocks that say they are for one medium: those are left out here."""
    assert len(pages) == 31
    for name, page in pages.items():
        common = page._replace(blocks=[block for block in page.blocks if not isinstance(block, Only)])
        for medium in ("web", "paper"):
            same(common, medium, name)


def test_the_reader_would_see_a_word_too_few():
    page = Page("t", [Paragraph("one two")])
    assert on_paper(report_pdf(page, DAY, "serial", "head")) != on_terminal(Page("t", [Paragraph("one two three")]))
    assert words_of("0.94 Ω, 50 %") == ["0", "94", "ohms", "50", "%"]


def test_only_few_blocks_are_for_one_medium(pages):
    apart = [name for name, page in pages.items() if any(isinstance(block, Only) for block in page.blocks)]
    assert {name.partition(" ")[0] for name in apart} == {"plan"}


def test_nothing_of_a_page_is_read_as_html():
    assert "<b>" not in fragment(EVERYTHING)
    assert " style=" not in fragment(EVERYTHING)
    assert "<script" not in fragment(EVERYTHING)
