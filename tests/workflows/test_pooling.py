"""Several papers of one blueprint taken together, entry by entry: judged before, measured after, used by the next."""

import csv
import io

import pytest

from quizzer.blocks.text import DataTable, Paragraph, Points
from quizzer.errors import Refused
from quizzer.pages.pooled import pooled_page
from quizzer.paper.pool import JUDGEMENT, candidates, expected_facility, observed_of
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.correcting import Saying, Wish, correct
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.pooling import measured_facilities, pooled_papers
from quizzer.workflows.papers.result_tables import entries_csv
from quizzer.workflows.papers.ruling import void
from tests.exam import Room, keys_of, wrong_at

SAYING = Saying("Tess", "why")
FIRST, SECOND = "principles/many/series-0", "principles/many/series-1"


@pytest.fixture
def room(tmp_path):
    """Twenty people on each form of two papers: all have question 1 wrong, the first ten question 2 as well."""
    room = Room(tmp_path)
    room.papers = (room.paper, room.paper._replace(id="cards-2026-11-25-2", seed=2))
    room.store.papers.keep(room.papers[1])
    for at, paper in enumerate(room.papers):
        rows = [
            f"P{at}-{form.serial}-{n},{form.serial},{wrong_at(keys_of(form), 0, *missed(n))}"
            for form in paper.forms
            for n in range(20)
        ]
        table = read_table(room.world, paper, room.making, room.table(*rows), add=True)
        mark_all(room.world, paper, room.making, table.newcomers, table.handed)
    return room


def missed(n):
    """Where the n-th of a form has a wrong answer besides the first."""
    return (*([1] if n < 10 else []), *range(2, 2 + n % 4))


def entry(room, name):
    return next(each for each in pooled_papers(room.world, "cards").entries if each.name == name)


def test_answers_of_all_papers_and_forms_count_together(room):
    found = pooled_papers(room.world, "cards")
    assert (found.papers, found.scripts, len(found.entries)) == (2, 80, 7)
    one, other = entry(room, FIRST), entry(room, SECOND)
    assert (one.figures.people, one.figures.right, one.figures.forms) == (80, 0, 4)
    assert (other.figures.people, other.figures.right) == (80, 40)
    assert (other.expected, other.doubt) == (other.alike.facility, other.alike.facility_error)
    assert one.figures.with_rest is None, "all wrong tell nobody apart"
    assert other.figures.with_rest is not None


def test_what_is_expected_is_what_the_next_paper_is_made_by(room):
    seen = room.store.papers.facilities()
    (figures,) = [each for (id, _), each in seen.items() if id == SECOND]
    assert tuple(figures) == (80, 40, None)
    card = room.world.shelf.find(SECOND)
    (candidate,) = candidates(card, observed_of(card, measured_facilities(room.world, "cards")))
    assert candidate.facility == entry(room, SECOND).expected
    assert candidate.variance == pytest.approx(entry(room, SECOND).doubt ** 2)
    other = observed_of(card, measured_facilities(room.world, "never sat"))
    assert expected_facility(card, other) == pytest.approx((40 + 0.75 * JUDGEMENT) / (80 + JUDGEMENT))


def test_what_was_rewritten_since_is_not_as_hard_as_it_was(room):
    """A measurement is of the entry as it was answered; a paper that nobody sat takes none away."""
    card = room.world.shelf.find(SECOND)
    share, error = observed_of(card, measured_facilities(room.world, "cards")).measured
    assert 0.4 < share < 0.6
    assert error == pytest.approx((0.5 * 0.5 / 80) ** 0.5, rel=0.2), "as 80 answers tell, not as all answers ever"
    unsat = room.paper.forms[0]._replace(
        items=tuple(item._replace(digest="another") for item in room.paper.forms[0].items)
    )
    room.store.papers.keep(room.paper._replace(id="cards-2026-11-25-9", seed=9, forms=(unsat,)))
    assert observed_of(card, measured_facilities(room.world, "cards")).measured == (share, error)
    seen = {key: each for key, each in measured_facilities(room.world, "cards").items() if key[0] == SECOND}
    rewritten = card._replace(head=card.head._replace(kept_digest="rewritten"))
    assert rewritten.head.digest == "rewritten"
    assert observed_of(rewritten, seen).measured is None
    assert expected_facility(rewritten, observed_of(rewritten, seen)) == pytest.approx(
        (40 + 0.75 * JUDGEMENT) / (80 + JUDGEMENT)
    )


def test_better_people_do_not_make_the_forms_that_they_had_easier(tmp_path):
    """Two forms with the same judged difficulties: whoever had B gets much more right, in every question alike."""
    room = Room(tmp_path)
    half = [room.paper.forms[0]._replace(items=room.paper.forms[0].items[:4])]
    half.append(room.paper.forms[1]._replace(items=room.paper.forms[1].items[3:]))  # one question is in both
    room.paper = room.paper._replace(id="cards-2026-11-25-3", forms=tuple(half))
    room.store.papers.keep(room.paper)
    room.making = Making(room.world.shelf, room.paper)
    rows = []
    for form, most in zip(half, (5, 3), strict=True):  # 0 to 4 wrong, 0 to 2 wrong
        rows += [f"{form.serial}-{n},{form.serial},{wrong_at(keys_of(form), *some(n, n % most))}" for n in range(60)]
    table = read_table(room.world, room.paper, room.making, room.table(*rows), add=True)
    mark_all(room.world, room.paper, room.making, table.newcomers, table.handed)
    found = {each.name: each for each in pooled_papers(room.world, "cards").entries}
    hard, easy = found["principles/many/series-0"], found["principles/many/series-6"]
    shares = [each.figures.right / each.figures.people for each in (hard, easy)]
    assert shares == [0.5, 0.75]
    assert 0 < easy.expected - hard.expected < 0.6 * (shares[1] - shares[0])


def some(n, many):
    """The places, of four, where the n-th has wrong answers: each place as often as another."""
    return {(n + at) % 4 for at in range(many)}


def test_void_questions_and_those_who_were_not_there_are_not_counted(room):
    void(room.world, room.papers[0], room.making, "A", 1, SAYING)
    correct(room.world, room.papers[0], room.making, "P0-A-3", Wish(absent=True), SAYING)
    found = pooled_papers(room.world, "cards")
    assert found.scripts == 79
    assert entry(room, FIRST).figures.people == 40
    assert entry(room, SECOND).figures.people == 79


def test_the_page_names_what_is_harder_than_judged_and_says_when_there_is_too_little(room):
    blocks = pooled_page(pooled_papers(room.world, "cards")).blocks
    (points,) = [each for each in blocks if isinstance(each, Points)]
    assert any(f"{FIRST}: harder than judged, 0 % right" in str(point) for point in points.points)
    (table,) = [each for each in blocks if isinstance(each, DataTable)]
    assert len(table.rows) == 7
    for paper in room.papers:
        for script in room.store.papers.scripts(paper.id):
            if not script.name.endswith("-1"):
                correct(room.world, paper, room.making, script.name, Wish(void=True), SAYING)
    few = pooled_page(pooled_papers(room.world, "cards")).blocks
    assert any(isinstance(each, Paragraph) and "Too little is known" in str(each.words) for each in few)
    assert not any(isinstance(each, Points) for each in few)


def test_the_table_has_a_row_for_each_entry_and_empty_cells_where_too_little_is_known(room):
    rows = list(csv.DictReader(io.StringIO(entries_csv(pooled_papers(room.world, "cards")).decode("utf-8-sig"))))
    assert len(rows) == 7
    (row,) = [each for each in rows if each["entry"] == SECOND]
    assert (row["people"], row["right"], row["forms"], row["judged"]) == ("80", "40", "4", "0.75")
    assert 0.45 < float(row["alike"]) == float(row["expected"]) < 0.6
    (row,) = [each for each in rows if each["entry"] == FIRST]
    assert (row["right"], row["r with the rest"]) == ("0", "")


def test_a_blueprint_without_answers_is_refused(tmp_path):
    room = Room(tmp_path)
    with pytest.raises(Refused, match="no paper of 'other'") as refusal:
        pooled_papers(room.world, "other")
    assert "cards" in refusal.value.mend
    with pytest.raises(Refused, match="nobody's answers"):
        pooled_papers(room.world, "cards")
