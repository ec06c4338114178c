"""Sign-offs and disputes travel with the bank and fall away when an entry changes."""

from datetime import UTC, datetime, timedelta

import pytest

from quizzer.bank.signoffs import Dispute, SignOff
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import add, ledger
from quizzer.errors import BankError, NotFound, Refused
from quizzer.workflows.bank.signing import dispute, disputes, settle, sign_off, unsigned
from tests.banktext import SIZES
from tests.cli.running import ran
from tests.sitting import Sitting, small_bank
from tests.stores import in_memory

NOW = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
ENTRY = "circuits/first/series-current"


@pytest.fixture
def root(tmp_path):
    return small_bank(tmp_path / "bank")


def signed(root, id=ENTRY):
    shelf = Shelf(root)
    return ledger(root).signed(shelf.find(id))


def test_a_sign_off_is_kept_beside_the_bank(root):
    sign_off(Shelf(root), ENTRY, "Farah", "BS 7671:2018+A4:2026", NOW)
    assert signed(root).by == "Farah"
    assert {each.id for each in unsigned(Shelf(root))[0]} == {
        "safety/first/prove-test-prove",
        "principles/first/divider",
    }
    assert "Farah" in (root / "signoffs.toml").read_text()


@pytest.mark.parametrize("change", [('"the current"', '"the flow"'), ("not tied to an edition", "A4")])
def test_a_sign_off_falls_away_when_the_text_or_the_edition_changes(root, change):
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW)
    path = root / "circuits" / "first.toml"
    path.write_text(path.read_text().replace(*change))
    assert signed(root) is None


def test_a_sign_off_stays_when_the_entry_only_moves_down_the_file(root):
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW)
    path = root / "circuits" / "first.toml"
    path.write_text("# a note\n\n" + path.read_text())
    assert signed(root) is not None


def test_a_sign_off_falls_away_when_a_table_the_entry_uses_changes(root):
    (root / "tables").mkdir()
    (root / "tables" / "sizes.toml").write_text(SIZES)
    path = root / "principles" / "first.toml"
    path.write_text(
        path.read_text().replace("[template.given]", '[template.row]\nrow = { table = "sizes" }\n[template.given]')
    )
    sign_off(Shelf(root), "principles/first/divider", "Farah", "A4", NOW)
    assert signed(root, "principles/first/divider") is not None
    (root / "tables" / "sizes.toml").write_text(SIZES.replace("rating = 27", "rating = 28"))
    assert signed(root, "principles/first/divider") is None


def test_a_dispute_stands_until_the_entry_is_mended_or_signed_off_later(root):
    dispute(Shelf(root), ENTRY, "the book says otherwise", NOW)
    entry = Shelf(root).find(ENTRY)
    assert [each.reason for each in ledger(root).disputed(entry)] == ["the book says otherwise"]
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW + timedelta(days=1))
    assert ledger(root).disputed(entry) == ()


def test_trainees_and_tutors_disputes_are_listed_together(root):
    sitting = Sitting(root)
    session = sitting.session("safety")
    session.dispute(session.next_question(), "not in this order")
    dispute(Shelf(root), ENTRY, "too easy", NOW)
    found = disputes(Shelf(root), sitting.store)
    sitting.store.close()
    assert [(entry, reason, standing) for _, entry, reason, standing in found] == [
        (ENTRY, "too easy", True),
        ("safety/first/prove-test-prove", "not in this order", True),
    ]


def listed(root, store):
    return [entry for _, entry, _, _ in disputes(Shelf(root), store)]


@pytest.fixture
def store():
    with in_memory() as found:
        yield found


@pytest.mark.parametrize("later", [{"minutes": 0}, {"minutes": 5}, {"days": 1}])
def test_a_sign_off_made_afterwards_takes_a_dispute_off_the_list_the_same_day_too(root, store, later):
    dispute(Shelf(root), ENTRY, "the book says otherwise", NOW)
    assert listed(root, store) == [ENTRY]
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW + timedelta(**later))
    assert listed(root, store) == []
    assert ledger(root).disputed(Shelf(root).find(ENTRY)) == ()


def test_an_entry_mended_and_signed_off_is_settled_and_one_only_mended_stays_listed(root, store):
    dispute(Shelf(root), ENTRY, "the book says otherwise", NOW)
    path = root / "circuits" / "first.toml"
    path.write_text(path.read_text().replace('"the current"', '"the flow"'))
    assert [standing for *_, standing in disputes(Shelf(root), store)] == [False]
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW + timedelta(hours=1))
    assert listed(root, store) == []


def test_a_dispute_raised_after_the_sign_off_of_the_same_day_is_open(root, store):
    sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW)
    dispute(Shelf(root), ENTRY, "still wrong", NOW + timedelta(minutes=1))
    assert listed(root, store) == [ENTRY]
    assert len(ledger(root).disputed(Shelf(root).find(ENTRY))) == 1


def test_records_kept_with_the_day_alone_are_compared_by_the_day(root, store):
    digest = Shelf(root).find(ENTRY).head.digest
    add(root, Dispute(ENTRY, "odd", "2026-11-25", digest), SignOff(ENTRY, "Farah", "A4", "2026-11-24", digest))
    assert listed(root, store) == [ENTRY]
    add(root, SignOff(ENTRY, "Farah", "A4", "2026-11-25", digest))
    assert listed(root, store) == []


def test_disputes_are_settled_by_name_those_of_trainees_too(root):
    sitting = Sitting(root)
    session = sitting.session("safety")
    session.dispute(session.next_question(), "not in this order")
    dispute(Shelf(root), ENTRY, "too easy", NOW)
    id, later = "safety/first/prove-test-prove", NOW + timedelta(hours=1)
    record, settled = settle(Shelf(root), sitting.store, id, "looked up: the order is right", later)
    assert (record.reason, settled) == ("looked up: the order is right", 1)
    assert listed(root, sitting.store) == [ENTRY]
    with pytest.raises(NotFound, match="no dispute"):
        settle(Shelf(root), sitting.store, id, "again", later)
    sitting.store.close()


def test_a_settlement_with_no_such_dispute_names_the_nearest(root, store):
    dispute(Shelf(root), ENTRY, "too easy", NOW)
    with pytest.raises(NotFound) as refused:
        settle(Shelf(root), store, f"{ENTRY}s", "fine", NOW)
    assert ENTRY in refused.value.mend
    with pytest.raises(Refused):
        settle(Shelf(root), store, ENTRY, " ", NOW)
    assert listed(root, store) == [ENTRY]


def test_the_list_is_settled_from_the_command_line(root, tmp_path, monkeypatch):
    where = ("--bank", str(root), "--store", str(tmp_path / "s.db"))
    assert ran(monkeypatch, "dispute", ENTRY, "--reason", "odd", "--bank", str(root)).code == 0
    assert "odd" in ran(monkeypatch, "disputes", *where).out
    settled = ran(monkeypatch, "disputes", "settle", ENTRY, "--reason", "looked up", *where)
    assert (settled.code, settled.out) == (0, f"1 dispute of {ENTRY} settled: looked up.\n")
    assert "No disputes." in ran(monkeypatch, "disputes", *where).out
    assert ran(monkeypatch, "disputes", "settle", ENTRY, "--reason", "looked up", *where).code == 1


@pytest.mark.parametrize(
    "words", ['quotes " and \\ backslash', "emoji ⚡", "[[signoff]]", "''' \"\"\"", "tab is refused"]
)
def test_any_line_of_words_reads_back_as_it_was(root, words):
    add(root, Dispute(ENTRY, words, "2026-11-25", "0"))
    add(root, SignOff(ENTRY, words, words, "2026-11-25", "0"))
    assert ledger(root).disputes[0].reason == words
    assert ledger(root).signoffs[0].by == words


@pytest.mark.parametrize("words", ["", "  ", "a\nb", "a\x07", "x" * 2001])
def test_what_is_no_line_of_words_is_refused(root, words):
    with pytest.raises(Refused):
        dispute(Shelf(root), ENTRY, words, NOW)
    assert not (root / "signoffs.toml").exists()


def test_an_entry_that_is_not_there_cannot_be_signed(root):
    with pytest.raises(NotFound):
        sign_off(Shelf(root), "circuits/first/nothing", "Farah", "A4", NOW)


def test_a_damaged_ledger_is_told_and_not_written_over(root):
    (root / "signoffs.toml").write_text("[[signoff]\n")
    with pytest.raises(BankError):
        sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW)
    assert (root / "signoffs.toml").read_text() == "[[signoff]\n"


def test_a_bank_that_cannot_be_written_is_told_with_a_mend(root, monkeypatch):
    def full(*_args, **_more):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.replace", full)
    with pytest.raises(Refused, match="No space left"):
        sign_off(Shelf(root), ENTRY, "Farah", "A4", NOW)
    assert [path.name for path in root.iterdir() if path.name.startswith(".sign")] == []


def test_the_commands_work_from_the_command_line(root, tmp_path, monkeypatch):
    bank = ("--bank", str(root))
    assert ran(monkeypatch, "signoff", ENTRY, "--by", "Farah", "--edition", "A4", *bank).code == 0
    assert ran(monkeypatch, "dispute", "safety/first/prove-test-prove", "--reason", "odd", *bank).code == 0
    assert "1 of 3 entries are signed off" in ran(monkeypatch, "topics", "--unsigned", *bank).out
    assert "odd" in ran(monkeypatch, "disputes", *bank, "--store", str(tmp_path / "s.db")).out
    assert ran(monkeypatch, "signoff", "no/such/entry", "--by", "F", "--edition", "A4", *bank).code == 1
