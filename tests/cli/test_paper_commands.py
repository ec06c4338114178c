"""Sitting, marking and groups at the terminal: whole screens as recorded, and every refusal in one sentence."""

import json
import os
from pathlib import Path

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import to_json
from tests.cli.running import ran
from tests.exam import bank_of_cards, keys_of, paper_of, wrong_at

GOLDEN = Path(__file__).parent.parent / "golden"
NOW = ("--now", "2026-11-25T07:00+00:00")
SAT = "\nA\nf\nb\n7\nx\nu\nt\np\n9\nzz\n?\nc\nn\nsubmit\nno\nsubmit\nyes\n"


class Exam:
    """A folder with a bank of cards, a paper and a store with Ada and Ben; commands run in it."""

    def __init__(self, folder, monkeypatch):
        self.folder, self.monkeypatch = folder, monkeypatch
        self.bank = bank_of_cards(folder / "bank")
        self.paper = paper_of(Shelf(self.bank))
        (folder / "paper.json").write_text(to_json(self.paper), encoding="utf-8")
        for name in ("Ada", "Ben"):
            self.run("trainee", "add", name)

    def run(self, *args, typed="", encoding="utf-8"):
        """A command with the store of this folder."""
        return ran(self.monkeypatch, *args, "--store", str(self.folder / "s.db"), typed=typed, encoding=encoding)

    def sit(self, *args, typed="", encoding="utf-8"):
        """Sit the paper."""
        bank = ("--bank", str(self.bank), *NOW)
        return self.run("sit", str(self.folder), *args, *bank, typed=typed, encoding=encoding)

    def mark(self, *args, typed=""):
        """Mark the paper."""
        return self.run("paper", "mark", str(self.folder), *args, "--bank", str(self.bank), *NOW, typed=typed)

    def table(self, *rows):
        """A file of answers."""
        path = self.folder / "answers.csv"
        path.write_text("\n".join(("name,form,answers", *rows)) + "\n", encoding="utf-8")
        return str(path)

    def keys(self, form=0):
        """The right answers of a form."""
        return keys_of(self.paper.forms[form])


@pytest.fixture
def exam(tmp_path, monkeypatch):
    return Exam(tmp_path, monkeypatch)


def is_as_recorded(found, name):
    assert found.code == 0, found.err
    assert max(map(len, found.out.split("\n"))) <= 80
    recorded = GOLDEN / f"{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(found.out, encoding="utf-8")
    assert found.out == recorded.read_text(encoding="utf-8")


def test_the_screens_of_a_sitting(exam):
    is_as_recorded(exam.sit("--trainee", "Ada", "--extra-time", "25", typed=SAT), "sit")


def test_the_screens_of_a_sitting_left_and_gone_on_with_in_plain(exam):
    is_as_recorded(exam.sit("--trainee", "Ada", "--plain", typed="\nA\nq\n"), "sit-left-plain")
    is_as_recorded(exam.sit("--trainee", "Ada", "--plain", typed="\nsubmit\n"), "sit-resumed-plain")


def test_the_screens_of_marking_from_a_table(exam):
    table = exam.table(f"Ada,A,{wrong_at(exam.keys(), 4)[:6]}-", f"Cara,B,{wrong_at(exam.keys(1), 1)}", "Ben,A,")
    is_as_recorded(exam.mark("--answers", table, "--add"), "mark")
    is_as_recorded(exam.mark("--answers", table), "mark-again")


def test_the_screens_of_keyed_entry(exam):
    right = exam.keys()
    twice = [right[:4], right[:5], "<", right[:5], right[5:], right[:5], wrong_at(right, 6)[5:], "z", right[6]]
    typed = "\n".join(["Zoe", "Ada", "Z", "", "Ada", "Z", "A", *twice, "Ada", "A", *([right[:5], right[5:]] * 2), ""])
    is_as_recorded(exam.mark("--enter", typed=typed + "\n"), "mark-keyed")
    assert json.loads(exam.run("trainee", "list", "--json").out)[0]["answers"] == 7


def test_the_screens_of_groups(exam):
    exam.run("group", "add", "Monday", "Ada", "Ben")
    (exam.folder / "names.csv").write_text("name\nAda\nCara\n")
    found = exam.run("group", "import", "Friday", str(exam.folder / "names.csv"), "--add")
    assert (found.code, found.out) == (0, "2 joined Friday, 1 of them new trainees.\n")
    is_as_recorded(exam.run("group", "list"), "groups")
    assert json.loads(exam.run("group", "list", "--json").out)[0] == {"name": "Friday", "members": ["Ada", "Cara"]}
    assert exam.run("group", "erase", "Friday", typed="no\n").code == 1
    assert exam.run("group", "erase", "Friday", typed="yes\n").code == 0
    assert "Friday" not in exam.run("group", "list").out


def test_nothing_on_the_screens_of_a_sitting_tells_right_from_wrong(exam):
    right = exam.sit("--trainee", "Ada", "--form", "A", typed="\n" + "\n".join(exam.keys()) + "\nsubmit\nyes\n").out
    wrong = exam.sit(
        "--trainee", "Ben", "--form", "A", typed="\n" + "\n".join(wrong_at(exam.keys(), *range(7))) + "\nsubmit\nyes\n"
    ).out
    for letter in "ABCD":
        right, wrong = right.replace(f"Kept: {letter}", "Kept"), wrong.replace(f"Kept: {letter}", "Kept")
    assert right.replace("Ada", "Ben") == wrong


def test_bad_rows_are_all_told_on_standard_error_and_nothing_is_marked(exam):
    found = exam.mark("--answers", exam.table(f"Ada,A,{exam.keys()}", "Zoe,A,ABC", "Ben,A,ABC"))
    assert found.code == 1
    assert found.out == ""
    assert found.err.splitlines() == [
        "answers.csv:3: no trainee 'Zoe': --add makes trainees of new names",
        "answers.csv:4: 3 answers for 7 questions: give one letter each, - for none",
        "2 rows are bad, so nothing was taken from the file. Mend and try again.",
    ]
    assert json.loads(exam.run("trainee", "list", "--json").out)[0]["answers"] == 0


def test_a_sitting_is_marked_once_it_is_handed_in(exam):
    exam.sit("--trainee", "Ada", typed="\nA\n")
    found = exam.mark()
    assert found.code == 1
    assert "Nobody has handed this paper in on screen" in found.out
    assert "1 begun on screen" in found.out
    exam.sit("--trainee", "Ada", typed="\nsubmit\nyes\n")
    assert "1 new, 0 marked before" in exam.mark().out


def test_the_time_that_is_up_hands_in_what_was_answered(exam, monkeypatch):
    from quizzer.workflows.papers import sitting

    exam.sit("--trainee", "Ada", typed="\nA\nq\n")
    monkeypatch.setattr(sitting.Desk, "left", lambda _: 0)
    found = exam.sit("--trainee", "Ada", typed="\nB\n")
    assert "The time is up: what you had answered before is handed in." in found.out
    assert "1 of 7 questions answered" in found.out


@pytest.mark.parametrize("encoding", ["cp437", "ascii"])
def test_a_terminal_of_few_signs_is_enough(exam, encoding):
    found = exam.sit("--trainee", "Ada", typed="\nA\nu\nq\n", encoding=encoding)
    assert found.code == 0
    assert "─" not in found.out


@pytest.mark.parametrize(
    "typed", ["", "E", "AB", "-1", "0", "8", "99999999999999999999", "²", "\x1b[A", "A1", "Ω", "yes", "x" * 10_000]
)
def test_a_reply_that_means_nothing_is_refused_in_one_sentence(exam, typed):
    found = exam.sit("--trainee", "Ada", typed=f"\n7\n{typed}\n")
    after = found.out.split("(? help): ")[2].strip().splitlines()
    sentence = " ".join(line for line in after[: after.index("")] if line)
    assert sentence.endswith(".")
    assert len(sentence) < 120
    assert "6 of 7" not in found.out


REFUSALS = [
    (("sit", "nowhere"), 1, "there is no paper 'nowhere'"),
    (("sit", "PAPER", "--trainee", "Zoe"), 1, "no trainee 'Zoe'"),
    (("sit", "PAPER", "--form", "Q"), 1, "has no form 'Q'"),
    (("sit", "PAPER", "--extra-time", "-5"), 2, "--extra-time -5 is no share"),
    (("paper", "mark", "nowhere"), 1, "there is no paper 'nowhere'"),
    (("paper", "mark", "PAPER", "--answers", "none.csv"), 1, "'none.csv' cannot be read"),
    (("paper", "mark", "PAPER", "--answers", "none.csv", "--enter"), 2, "two ways to the same"),
    (("group", "add", "Monday", "Zoe"), 1, "no trainee 'Zoe'"),
    (("group", "add", "Monday"), 2, "Missing argument"),
    (("group", "import", "Monday", "none.csv"), 1, "cannot be read"),
    (("group", "erase", "Monday", "--yes"), 1, "there is no group 'Monday'"),
]


@pytest.mark.parametrize(("args", "code", "says"), REFUSALS, ids=lambda v: str(v)[:40])
def test_what_cannot_be_done_is_refused_in_one_sentence(exam, args, code, says):
    bank = ("--bank", str(exam.bank)) if args[0] != "group" else ()
    found = exam.run(*(str(exam.folder) if each == "PAPER" else each for each in args), *bank)
    assert found.code == code
    assert says in found.err
    assert found.err.count("\n") == 1
    assert "?." not in found.err


def test_of_very_many_bad_rows_two_hundred_are_told_and_the_rest_counted(exam):
    found = exam.mark("--answers", exam.table(*("Ada,Z,x" for _ in range(1_234))))
    lines = found.err.strip().split("\n")
    assert found.code == 1
    assert sum(line.startswith("answers.csv:") for line in lines) == 200
    assert "… and 1,034 more." in lines
    assert lines[-1].startswith("1,234 rows are bad")
