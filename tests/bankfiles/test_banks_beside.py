"""Banks beside each other: entries of both, shared lists of both, and nothing that two of them have under one name."""

import os

import pytest

from quizzer.bankfiles.blueprint_files import blueprint, blueprint_names
from quizzer.bankfiles.centre_files import banks_of
from quizzer.bankfiles.folders import topic_files
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.bankfiles.topic_names import is_topic
from quizzer.errors import BankError, Refused
from quizzer.workflows.bank.checking import check
from quizzer.workflows.bank.signing import dispute, sign_all, sign_off
from quizzer.workflows.papers.bank_capacity import pool_of, served
from tests.banktext import CARD
from tests.cli.running import ran
from tests.exam import bank_of_cards
from tests.shippedbank import SHELF, shipped
from tests.sitting import MORNING

PLAN = """title = "Ours"
minutes = 10
pass_mark = 2

[[section]]
id = "house"
title = "Of this house"
questions = 2
{where}
"""


@pytest.fixture
def own(tmp_path):
    """A centre's own bank: one topic of its own, two cards, and nothing else."""
    folder = tmp_path / "centre" / "house"
    folder.mkdir(parents=True)
    top, card = CARD.split("[[card]]\n", 1)
    cards = [card.replace('id = "series-current"', f'id = "{name}"') for name in ("one", "two")]
    (folder / "rules.toml").write_text(top + "".join(f"[[card]]\n{each}\n" for each in cards), encoding="utf-8")
    return tmp_path / "centre"


@pytest.fixture
def both(own, tmp_path):
    return Shelf(bank_of_cards(tmp_path / "first"), own)


def test_a_folder_that_is_gone_and_a_link_to_itself_hold_no_entries(tmp_path):
    (tmp_path / "loop").symlink_to("loop")
    assert list(topic_files(str(tmp_path))) == []
    assert list(topic_files(str(tmp_path / "gone"))) == []


def test_entries_of_both_are_found_listed_and_loaded(both):
    ids = [entry.id for entry in both.listed()]
    assert (len(ids), ids[-2:]) == (9, ["house/rules/one", "house/rules/two"])
    assert [one.head.id for _, loaded in both.everything() for one in loaded.entries] == ids
    assert both.find("house/rules/two").head.place.path == "centre/house/rules.toml"
    assert both.find("principles/many/series-0").head.place.path == "first/principles/many.toml"
    assert [is_topic(both, topic) for topic in ("house", "house/rules", "principles/many", "hous")] == [
        True,
        True,
        True,
        False,
    ]


def test_a_card_beside_may_use_cautions_and_slips_of_the_first(own):
    path = own / "house" / "rules.toml"
    caution = min(SHELF.cautions())
    path.write_text(path.read_text().replace('id = "one"', f'id = "one"\ncautions = ["{caution}"]'))
    assert Shelf(own).load(path).issues != ()
    loaded = Shelf(shipped(), own).load(path)
    assert (loaded.issues, loaded.entries[0].head.cautions[0].id) == ((), caution)


def test_an_entry_in_two_banks_is_refused_with_both_files(own, tmp_path):
    first = bank_of_cards(tmp_path / "first")
    (own / "principles").mkdir()
    (own / "principles" / "many.toml").write_bytes((first / "principles" / "many.toml").read_bytes())
    both = Shelf(first, own)
    said = (
        r"the entry principles/many/series-0 stands in first/principles/many\.toml and in centre/principles/many\.toml"
    )
    for ask in (both.listed, lambda: list(both.everything()), lambda: both.find("principles/many/series-0")):
        with pytest.raises(Refused, match=said):
            ask()


def test_banks_of_one_folder_name_are_told_apart(own, tmp_path):
    (tmp_path / "x").mkdir()
    other = own.rename(tmp_path / "x" / "first")
    both = Shelf(bank_of_cards(tmp_path / "first"), other)
    assert both.find("house/rules/one").head.place.path == "x/first/house/rules.toml"
    assert both.folders.labelled("x/first/house/rules.toml") == other / "house" / "rules.toml"


def test_words_that_two_lists_say_differently_are_complained_of(own, tmp_path):
    first = bank_of_cards(tmp_path / "first")
    id, said = next(iter(Shelf(first).topics().items()))
    (own / "topics.toml").write_text(
        f'[[topic]]\nid = "{id}"\ntitle = "Other"\n\n[[topic]]\nid = "house"\ntitle = "H"\n'
    )
    both = Shelf(first, own)
    assert (both.topics()[id], both.topics()["house"]) == (said, "H")
    (issue,) = set(both.issues)
    assert (issue.code, issue.place.path, issue.key) == ("Q108", "centre/topics.toml", id)


def test_a_table_and_a_blueprint_in_two_banks_are_refused(own):
    for name in ("tables", "blueprints"):
        (own / name).mkdir()
    table = min((shipped() / "tables").glob("*.toml"))
    (own / "tables" / table.name).write_bytes(table.read_bytes())
    (own / "blueprints" / "safety.toml").write_bytes((shipped() / "blueprints" / "safety.toml").read_bytes())
    both = Shelf(shipped(), own)
    with pytest.raises(Refused, match=rf"the table {table.stem} stands in banks/tables"):
        both.table(table.stem)
    with pytest.raises(Refused, match=r"the blueprint safety stands in banks/blueprints/safety\.toml and in centre/"):
        blueprint(both, "safety")


def test_a_blueprint_names_entries_and_topics_of_both(both, own):
    (own / "blueprints").mkdir()
    path = own / "blueprints" / "ours.toml"
    path.write_text(PLAN.format(where='entries = ["house/rules/one", "principles/many/series-3"]'), encoding="utf-8")
    assert blueprint_names(both) == ["ours"]
    plan = blueprint(both, "ours")
    (section,) = served(plan, pool_of(both, plan)).sections
    assert (section.entries, section.cases) == (2, 2)
    path.write_text(PLAN.format(where='topics = ["house"]\nentries = ["principles/many/series-3"]'), encoding="utf-8")
    (section,) = served(plan := blueprint(both, "ours"), pool_of(both, plan)).sections
    assert section.entries == 3


@pytest.mark.parametrize(
    ("where", "what", "mend"),
    [
        ('entries = ["house/rules/onee"]', "no entry 'house/rules/onee'", "did you mean 'house/rules/one'?"),
        ('topics = ["hause"]', "no topic 'hause'", "did you mean 'house'?"),
    ],
)
def test_what_neither_bank_has_is_named_with_the_nearest(both, tmp_path, where, what, mend):
    path = tmp_path / "mine.toml"
    path.write_text(PLAN.format(where=where), encoding="utf-8")
    with pytest.raises(BankError) as refused:
        blueprint(both, str(path))
    (issue,) = refused.value.issues
    assert (issue.code, issue.place.line, issue.what, issue.mend) == ("Q911", 9, what, mend)


def test_what_tutors_say_is_kept_beside_the_bank_of_the_entry(both):
    sign_off(both, "house/rules/one", "Farah", "E", MORNING)
    dispute(both, "principles/many/series-0", "no", MORNING)
    assert [len(ledger(root).signoffs) for root in both.roots] == [0, 1]
    assert [len(ledger(root).disputes) for root in both.roots] == [1, 0]
    told = ledger(*both.roots)
    assert (told.signoffs[0].entry, told.disputes[0].entry) == ("house/rules/one", "principles/many/series-0")
    one, other = told.signoffs[0], told.signoffs[0]._replace(entry="principles/many/series-1")
    with pytest.raises(Refused, match="about entries of two banks"):
        sign_all(both, [one, other])
    assert [len(ledger(root).signoffs) for root in both.roots] == [0, 1]


def test_a_bank_beside_is_checked_with_what_the_first_lends(own):
    both = Shelf(shipped(), own)
    found = check(both, [own], lambda *_: None)
    assert found.entries == 2
    assert {issue.place.path for issue in found.issues} <= {"centre/house/rules.toml"}


def test_the_file_of_a_centre_names_its_banks_from_where_it_lies(own, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "centre.toml"
    path.write_text('name = "Otter Quay"\nbanks = ["shipped", "centre"]\n', encoding="utf-8")
    assert banks_of(path) == [tmp_path / "shipped", tmp_path / "centre"]
    assert ran(monkeypatch, "show", "house/rules/one#1").code == 0
    assert ran(monkeypatch, "show", "safety/law/nothing#1", "--bank", str(own)).code == 1
    path.write_text('name = "Otter Quay"\nbanks = ["shipped", "elsewhere"]\n', encoding="utf-8")
    refused = ran(monkeypatch, "show", "house/rules/one#1")
    assert (refused.code, "no bank folder 'elsewhere'" in refused.err) == (2, True)
    path.write_text('name = "Otter Quay"\nbank = ["shipped"]\n', encoding="utf-8")
    refused = ran(monkeypatch, "show", "house/rules/one#1")
    assert (refused.code, "centre.toml:2" in refused.err) == (1, True)


def test_commands_take_the_option_twice_and_the_surroundings_list(own, monkeypatch):
    path = own / "house" / "rules.toml"
    path.write_text(path.read_text().replace('id = "one"', f'id = "one"\ncautions = ["{min(SHELF.cautions())}"]'))
    twice = ran(monkeypatch, "topics", "--bank", "shipped", "--bank", str(own))
    assert twice.code == 0
    assert any(line.split()[:3] == ["house", "0", "2"] for line in twice.out.splitlines()), twice.out
    monkeypatch.setenv("QUIZZER_BANK", f"shipped{os.pathsep}{own}")
    assert ran(monkeypatch, "topics").out == twice.out
    assert ran(monkeypatch, "show", "house/rules/one#1").code == 0
    assert ran(monkeypatch, "show", "house/rules/two#1", "--bank", str(own)).code == 0
    checked = ran(monkeypatch, "bank", "check", str(own))
    assert "centre/house/rules.toml" in checked.out
    assert "no caution" not in checked.out
    refused = ran(monkeypatch, "topics", "--bank", str(own), "--bank", str(own / "house"))
    assert refused.code == 2
    assert "one lies in the other" in " ".join(refused.err.split())
