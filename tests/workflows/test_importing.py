"""Import: packages and tables become cards that a bank can use; everything left out is listed; nothing half made."""

import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused, UsageError
from quizzer.question.making import make
from quizzer.render.csv.question_table import question_table
from quizzer.render.qti.item_reading import NO_WHY
from quizzer.render.qti.package import qti_package
from quizzer.workflows.bank.importing import NO_CAUTIONS, found_in, import_file
from tests.cli.running import ran
from tests.exam import bank_of_cards
from tests.render.forms import card, number, paper, sum_
from tests.render.test_item_reading import CHOICE
from tests.sitting import SHARED

TABLE = """Question;A;B;C;D;Key;Reason;Source;Teacher
"Which unit; measures resistance?";ampere;ohm;volt;watt;B;It is named after Ohm.;Our notes, page 3;Zoë
Which unit measures current?;ampere;ohm;volt;;ampere;;;Zoë
Which one?;B;A;C;D;A;;;
No key?;one;two;three;;E;;;
;one;two;;;A;;;
Two keys?;one;two;;;A and B;;;
"""


def quiet(_done, _of):
    """Tell nobody."""


@pytest.fixture
def beside(tmp_path):
    return bank_of_cards(tmp_path / "first")


def taken(path, beside, topic="taken"):
    return import_file([beside], path, path.parent / "centre", topic, quiet)


def package(path, questions, version="qti22"):
    """A package of these questions, as it is exported."""
    made = paper(questions)
    path.write_bytes(qti_package(made, made.forms[0], questions, version))
    return path


def zipped(path, **files):
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for name, content in files.items():
            out.writestr(name.replace("__", "."), content)
    return path


def cards_of(found):
    """The cards in the file that was made."""
    loaded = Shelf(found.path.parents[1]).load(found.path)
    assert loaded.issues == ()
    return loaded.entries


@pytest.mark.parametrize("version", ["qti22", "qti3"])
def test_a_package_of_ours_becomes_cards_that_ask_the_same(tmp_path, beside, version):
    first, second = card(), card("Another stem with Z_s?\nA second line.", "It divides too.")
    found = taken(package(tmp_path / "Form A.zip", [first, second, number()], version), beside)
    assert [id for id, _ in found.taken] == ["taken/form-a/q001", "taken/form-a/q002"]
    assert [(one.item, one.why) for one in found.left] == [
        ("items/Q003.xml", "is answered by textentry, not by a choice of one")
    ]
    for entry, was in zip(cards_of(found), [first, second], strict=True):
        question = make(entry, 1)
        assert (question.stem, question.reason) == (was.stem, was.reason)
        assert {one.text: one.why for one in question.options} == {one.text: one.why for one in was.options}
        assert next(one.text for one in question.options if one.label == question.key) == next(
            one.text for one in was.options if one.label == was.key
        )
        assert (entry.head.source, entry.head.edition) == (was.head.source, was.head.edition)
        assert (entry.head.evidence, entry.head.level) == ("practice", "recall")


def test_cautions_of_the_bank_beside_are_kept_as_such(tmp_path, beside):
    (beside / "cautions.toml").write_bytes((SHARED / "cautions.toml").read_bytes())
    known = next(one for one in Shelf(beside).cautions().values() if one.before)
    question = sum_()
    question = question._replace(head=question.head._replace(cautions=(known,)))
    found = taken(package(tmp_path / "a.zip", [question]), beside)
    entry = Shelf(beside, found.path.parents[1]).find("taken/a/q001")
    assert [(one.say, one.defer) for one in entry.head.cautions] == [(known.say, known.defer)]
    assert entry.ask == (question.stem,)


def test_what_bank_check_finds_in_the_cards_is_told(tmp_path, beside):
    found = taken(package(tmp_path / "a.zip", [card()]), beside)
    assert found.issues == (), "four options are taken as they stand"
    (tmp_path / "t.csv").write_bytes(TABLE.encode())
    issues = taken(tmp_path / "t.csv", beside, "more").issues
    assert "Q602" in {issue.code for issue in issues}, "and three are too few"
    assert {issue.place.path for issue in issues} == {"centre/more/t.toml"}


@pytest.mark.parametrize("kind", ["csv", "cp1252", "xlsx"])
def test_a_table_becomes_cards_and_bad_rows_are_listed(tmp_path, beside, kind):
    path = tmp_path / ("t.xlsx" if kind == "xlsx" else "t.csv")
    if kind == "xlsx":
        book = openpyxl.Workbook()
        for line in TABLE.replace('"Which unit; ', '"Which unit, ').replace('"', "").splitlines():
            book.active.append([cell or None for cell in line.split(";")])
        book.save(path)
    else:
        path.write_bytes(TABLE.encode("utf-16" if kind == "csv" else "cp1252"))
    found = taken(path, beside)
    first, second = cards_of(found)
    assert (first.key, first.reason, first.head.source) == ("ohm", "It is named after Ohm.", "Our notes, page 3")
    assert [one.say for one in first.wrong] == ["ampere", "volt", "watt"]
    assert (second.key, second.reason, second.head.source) == ("ampere", NO_WHY, f"{path.name}, line 3")
    assert [one.item for one in found.left] == ["line 4", "line 5", "line 6", "line 7"]
    assert "may be option A or B" in found.left[0].why
    assert "is no option" in found.left[1].why
    assert found.notes[-2:] == ("Columns passed over: Teacher.", NO_CAUTIONS)


def test_our_own_table_comes_back_with_the_mistakes(tmp_path, beside):
    questions = [card(), card("=Which?", "+why")]
    made = paper(questions)
    path = tmp_path / "form.csv"
    path.write_bytes(question_table(made, made.forms[0], questions))
    found = taken(path, beside)
    assert found.left == ()
    for entry, was in zip(cards_of(found), questions, strict=True):
        assert (entry.ask, entry.reason) == ((was.stem,), was.reason)
        assert {one.say: one.why for one in entry.wrong} == {one.text: one.why for one in was.options if one.why}


def test_a_file_that_was_taken_is_not_taken_twice(tmp_path, beside):
    path = package(tmp_path / "a.zip", [card()])
    made = taken(path, beside)
    before = made.path.read_bytes()
    with pytest.raises(Refused, match="is there already"):
        taken(path, beside)
    assert made.path.read_bytes() == before


def test_items_of_one_name_get_ids_of_their_own(tmp_path, beside):
    found = taken(zipped(tmp_path / "a.zip", a__xml=CHOICE, b__xml=CHOICE), beside)
    assert [id for id, _ in found.taken] == ["taken/a/choice", "taken/a/choice-2"]


def test_where_nothing_can_be_taken_no_file_is_made(tmp_path, beside):
    found = taken(
        zipped(tmp_path / "a.zip", a__xml=CHOICE.replace("ChoiceB<", "X<"), b__xml="<a/>", c__xml="<a"), beside
    )
    assert (found.path, found.taken) == (None, ())
    assert [one.item for one in found.left] == ["a.xml", "b.xml", "c.xml"]
    assert not (tmp_path / "centre").exists()


@pytest.mark.parametrize(
    ("files", "why"),
    [
        ({"a__txt": "x"}, "holds no QTI items"),
        ({"../a__xml": CHOICE}, "leads out of its folder"),
        ({"a__xml": '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>' + CHOICE}, "declares a document type"),
        ({"a__xml": b"\x00" * 60_000_001}, "unpacks to more than"),
    ],
)
def test_packages_that_mean_harm_are_refused_whole(tmp_path, beside, files, why):
    with pytest.raises(Refused, match=why):
        taken(zipped(tmp_path / "a.zip", **files), beside)
    assert not (tmp_path / "centre").exists()


def test_an_item_that_is_too_large_or_steers_a_screen_is_left_out(tmp_path, beside):
    large = CHOICE.replace("ohm<", f"{'o' * 1_000_001}<")
    steers = CHOICE.replace("ohm<", "o\u202ehm<")
    found = taken(zipped(tmp_path / "a.zip", a__xml=large, b__xml=steers, c__xml=CHOICE), beside)
    assert len(found.taken) == 1
    assert [one.item for one in found.left] == ["a.xml", "choice"]
    assert "more than 1,000,000 bytes" in found.left[0].why
    assert "key" in found.left[1].why


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"\x00\x01", b"name\nAda\n", b"%PDF-1.7\n\xff\xfe\x81"])
def test_a_file_of_another_kind_gives_one_sentence(tmp_path, beside, content):
    path = tmp_path / "a.zip"
    path.write_bytes(content)
    left = []
    try:
        left += [one.why for one in taken(path, beside).left]
    except Refused as refused:
        left += [refused.message]
    assert len(left) == 1
    assert left[0]
    assert not (tmp_path / "centre").exists()


@pytest.mark.parametrize("topic", ["Ours", "tables", "../x", "a/b", ""])
def test_a_topic_that_is_none_is_refused(tmp_path, beside, topic):
    with pytest.raises(UsageError, match="is no topic"):
        taken(package(tmp_path / "a.zip", [card()]), beside, topic)


def test_the_command_tells_what_was_taken_and_the_cards_can_be_shown(tmp_path, monkeypatch):
    path = package(tmp_path / "form.zip", [card(), number()])
    where = ["--into", str(tmp_path / "centre"), "--topic", "ours", "--bank", str(bank_of_cards(tmp_path / "first"))]
    done = ran(monkeypatch, "bank", "import", str(path), *where)
    assert (done.code, done.err) == (1, "")
    told = " ".join(done.out.split())
    assert "1 question taken, into" in told
    assert "1 thing left out" in told
    assert "items/Q002.xml: is answered by textentry, not by a choice of one" in told
    shown = ran(monkeypatch, "show", "ours/form/q001#1", "--bank", str(tmp_path / "centre"))
    assert (shown.code, card().stem in " ".join(shown.out.split())) == (0, True)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(CHOICE) - 1), st.integers(0, 40), st.text(max_size=6))
def test_a_changed_item_is_taken_or_named(tmp_path_factory, at, cut, more):
    """Any piece cut out and anything put in its place: a card, or one entry in the list; never a fault of ours."""
    path = tmp_path_factory.mktemp("any") / "a.zip"
    changed = (CHOICE[:at] + more + CHOICE[at + cut :]).encode("utf-8", "replace")
    found = found_in(zipped(path, a__xml=changed), {})
    assert len(found.cards) + len(found.left) == 1
    assert all(one.item and one.why for one in found.left)
