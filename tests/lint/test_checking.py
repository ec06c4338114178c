"""Checking a bank on the disk: what is read, what is told, and where."""

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound
from quizzer.lint.cue_share import tail
from quizzer.lint.starts import KINDS, start
from quizzer.workflows.bank.checking import check
from tests.cli.running import ran
from tests.lint.linting import changed
from tests.lint.startbank import checked, place_of, start_bank, write
from tests.sitting import SHARED


@pytest.fixture
def bank(tmp_path):
    return start_bank(tmp_path / "banks")


def told(findings) -> list[tuple[str, str, int]]:
    return [(issue.code, issue.place.path, issue.place.line) for issue in findings.issues]


# starting files


@pytest.mark.parametrize("kind", KINDS)
def test_a_starting_file_is_clean_in_a_bank_with_the_shipped_lists(kind, tmp_path):
    bank = tmp_path / "banks"
    for name in ("topics.toml", "slips.toml", "cautions.toml", "glossary.toml"):
        write(bank / name, (SHARED / name).read_text(encoding="utf-8"))
    write(bank / place_of("table"), start("table"))
    write(bank / place_of(kind), start(kind))
    found = checked(bank, place_of(kind))
    assert found.issues == ()
    assert found.entries == (0 if kind in ("table", "blueprint") else 1)


@pytest.mark.parametrize("kind", KINDS)
def test_bank_new_prints_the_starting_file(kind, monkeypatch):
    assert ran(monkeypatch, "bank", "new", kind).out == start(kind)


def test_bank_new_of_an_unknown_kind_names_the_kinds(monkeypatch):
    found = ran(monkeypatch, "bank", "new", "quiz")
    assert found.code == 2
    assert all(kind in found.err for kind in KINDS)


# overrides


def with_override(code: str, reason: str = "the other workshop is closed") -> str:
    """A card with a warning (a hedge in the key) and an override."""
    text = changed("action", ("Splits it in parts to find", "Usually splits it to find"))
    return text.replace('level = "analyse"', f'overrides = {{ {code} = "{reason}" }}\nlevel = "analyse"')


@pytest.mark.parametrize(
    ("code", "found"),
    [
        ("Q632", []),
        ("Q112", ["Q112", "Q632"]),
        ("Q624", ["Q112", "Q632"]),  # a warning, but not one of this card
        ("Q404", ["Q110", "Q632"]),
        ("Q602", ["Q111", "Q632"]),
    ],
)
def test_a_warning_is_accepted_by_its_code_alone(bank, code, found):
    write(bank / "safety/action.toml", with_override(code))
    assert [issue.code for issue in checked(bank, "safety/action.toml").issues] == found


def test_an_error_is_never_accepted(bank):
    text = changed("card", ('say = "the brightness"', 'say = "the current"'))
    accepting = 'level = "recall"\noverrides = { Q604 = "both are right" }'
    write(bank / "safety/card.toml", text.replace('level = "recall"', accepting))
    issues = checked(bank, "safety/card.toml").issues
    assert [(issue.code, issue.warning) for issue in issues] == [("Q111", False), ("Q604", False)]


def test_an_override_without_a_reason_is_no_override(bank):
    write(bank / "safety/action.toml", with_override("Q632", " "))
    assert [issue.code for issue in checked(bank, "safety/action.toml").issues] == ["Q106"]


# the bank as a whole


def test_two_files_that_ask_the_same_are_told_at_both(bank):
    write(bank / "safety/other.toml", start("card").replace('id = "series-current"', 'id = "lamps-again"'))
    assert told(checked(bank)) == [("Q701", "banks/safety/card.toml", 7), ("Q701", "banks/safety/other.toml", 7)]


def test_of_a_named_file_only_its_own_findings_are_told_but_the_whole_bank_is_looked_at(bank):
    write(bank / "safety/other.toml", start("card").replace('id = "series-current"', 'id = "lamps-again"'))
    assert told(checked(bank, "safety/other.toml")) == [("Q701", "banks/safety/other.toml", 7)]
    assert told(checked(bank, "safety/action.toml")) == []


def test_two_wordings_of_one_entry_may_be_alike(bank):
    line = "What is the same in both of them?"
    second = f'{line}", "Two lamps are wired in series at the Larch House workshop. {line}"]'
    write(bank / "safety/card.toml", changed("card", ('ask = "', 'ask = ["'), (f'{line}"', second)))
    assert told(checked(bank)) == []


def test_what_nobody_uses_is_told_at_its_line_in_the_list(bank):
    for name, kind, more in (("slips.toml", "slip", ""), ("cautions.toml", "caution", 'show = "after"\ndefer = "…"\n')):
        listed = (bank / name).read_text(encoding="utf-8")
        write(bank / name, f'{listed}\n[[{kind}]]\nid = "nobody-s"\nsay = "…"\n{more}')
    write(bank / "tables/spare.toml", start("table"))
    found = told(checked(bank))
    assert [(code, path) for code, path, _ in found] == [
        ("Q907", "banks/cautions.toml"),
        ("Q906", "banks/slips.toml"),
        ("Q908", "banks/tables/spare.toml"),
    ]
    for _, path, line in found[:2]:
        assert "nobody-s" in (bank.parent / path).read_text(encoding="utf-8").split("\n")[line - 1]


def test_a_caution_of_one_case_is_used(bank):
    listed = (bank / "cautions.toml").read_text(encoding="utf-8")
    caution = '[[caution]]\nid = "of-a-case"\nsay = "…"\nshow = "after"\ndefer = "…"\n'
    write(bank / "cautions.toml", f"{listed}\n{caution}")
    key = 'key = "heat-camera"'
    write(bank / "safety/family.toml", changed("family", (key, f'{key}\ncautions = ["of-a-case"]')))
    assert told(checked(bank)) == []


def test_nothing_is_called_unused_while_an_entry_cannot_be_read(bank):
    write(bank / "safety/template.toml", changed("template", ('level = "apply"', 'level = "aply"')))
    assert [code for code, _, _ in told(checked(bank))] == ["Q107"]


def test_a_name_that_is_twice_in_a_shared_list_is_told(bank):
    text = (bank / "slips.toml").read_text(encoding="utf-8")
    write(bank / "slips.toml", text + '[[slip]]\nid = "doubled"\nsay = "…"\n')
    assert told(checked(bank)) == [("Q108", "banks/slips.toml", text.count("\n") + 2)]


def test_the_tail_of_the_binomial_is_that_of_the_published_table():
    """Sixty questions of four options: 22 keys by place are rarer than one in twenty, 24 than one in a hundred."""
    assert tail(21, 60, 0.25) > 0.05 > tail(22, 60, 0.25)
    assert tail(23, 60, 0.25) > 0.01 > tail(24, 60, 0.25)
    assert tail(0, 2000, 0.25) == pytest.approx(1)


# paths and places


def test_a_path_that_is_not_there_is_refused(bank):
    with pytest.raises(NotFound, match="no such file"):
        checked(bank, "safety/none.toml")


def test_two_banks_are_checked_one_at_a_time(bank, tmp_path):
    write(tmp_path / "other/safety/card.toml", start("card"))
    with pytest.raises(NotFound, match="is not in the bank"):
        checked(bank, "safety/card.toml", "../other/safety/card.toml")


def test_a_folder_that_holds_a_bank_stands_for_it(bank, monkeypatch):
    assert "9 entries" in ran(monkeypatch, "bank", "check", str(bank.parent)).out


def test_a_folder_stands_for_its_files_and_a_file_named_twice_is_checked_once(bank):
    assert checked(bank, "safety").entries == checked(bank, "safety", "safety/card.toml").entries == 9


def test_a_bad_file_is_told_with_the_findings_of_the_others(bank):
    write(bank / "safety/broken.toml", "[[card]\n")
    write(bank / "safety/action.toml", with_override("Q632").replace("overrides", "#"))
    assert [(code, path) for code, path, _ in told(checked(bank))] == [
        ("Q632", "banks/safety/action.toml"),
        ("Q101", "banks/safety/broken.toml"),
    ]


def test_progress_counts_the_files(bank):
    seen: list[tuple[int, int]] = []
    check(Shelf(bank), [], lambda done, files: seen.append((done, files)))
    assert seen == [(done, 9) for done in range(10)]


# the command


def test_bank_check_ends_with_its_counts_and_its_code(bank, monkeypatch):
    clean = ran(monkeypatch, "bank", "check", str(bank))
    assert (clean.code, clean.out) == (0, "9 entries, 0 errors, 0 warnings.\n")
    write(bank / "safety/action.toml", with_override("Q632").replace("overrides", "#"))
    found = ran(monkeypatch, "bank", "check", str(bank))
    assert found.code == 1  # a warning counts: it is mended, or accepted with a reason
    assert "banks/safety/action.toml:11: warning Q632 low-insulation-reading.key: 'Usually' stands" in found.out
    assert "0 errors, 1 warning.\n" in found.out
    assert "`quizzer explain Q632`" in found.out


def test_a_check_of_the_whole_bank_tells_how_many_safety_questions_hold_an_over_cautious_option(bank):
    assert checked(bank, "safety").over_cautious is None
    assert checked(bank).over_cautious == (0, 0)  # what is safety-critical here is put in order
    card = bank / "safety" / "action.toml"
    marked = 'over_cautious = "BS 7671 Part 6"\nsay = "Records the value'
    text = card.read_text(encoding="utf-8").replace('say = "Records the value', marked)
    card.write_text(text.replace('level = "analyse"', 'safety_critical = true\nlevel = "analyse"'), encoding="utf-8")
    assert checked(bank).over_cautious == (1, 1)
