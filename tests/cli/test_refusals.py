"""Bad input: one clear sentence with its mend, the right exit code, and nothing lost."""

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from quizzer.store.migrations import NEWEST
from tests.cli.running import ran
from tests.sitting import small_bank

CHECKOUT = Path(__file__).parent.parent.parent
FIXED = ("--now", "2026-11-25T07:00+00:00", "--seed", "1")


@pytest.fixture
def bank(tmp_path):
    return str(small_bank(tmp_path / "bank"))


def told(found, code, *words):
    """The command told one sentence on standard error and left no traceback."""
    assert found.code == code, found.out + found.err
    assert len(found.err.strip().split("\n")) == 1
    assert "Traceback" not in found.err
    assert all(word in found.err for word in words), found.err


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("nonsense",), 2, ("nonsense",)),
        (("show",), 2, ("Missing argument",)),
        (("show", "a/b/c", "--nonsense"), 2, ("--nonsense",)),
        (("show", "no/such/entry"), 1, ("no/such/entry", "topics")),
        (("show", "principles/first/devider"), 1, ("did you mean 'principles/first/divider'",)),
        (("show", "../../etc/passwd"), 1, ("no entry",)),
        (("show", "principles/../safety/first/prove-test-prove"), 1, ("no entry",)),
        (("show", "/etc/passwd"), 1, ("no entry",)),
        (("show", "tables/flat-cable/x"), 1, ("no entry",)),
        (("show", ""), 1, ("no entry",)),
        (("show", "principles/first/divider#x"), 2, ("seed", "#7")),
        (("show", "principles/first/divider#-1"), 2, ("seed",)),
        (("show", "principles/first/divider#1.5"), 2, ("seed",)),
        (("show", "principles/first/divider", "--given", "U"), 2, ("NAME=VALUE", "R_1")),
        (("show", "principles/first/divider", "--given", "X=3"), 1, ("no given 'X'", "U, R_1, R_2")),
        (("show", "principles/first/divider", "--given", "U=abc"), 2, ("not a number in V",)),
        (("show", "principles/first/divider", "--given", "U=3 A"), 2, ("not a number in V",)),
        (("show", "principles/first/divider", "--given", "U=1e99"), 2, ("too large",)),
        (("show", "principles/first/divider", "--given", "R_1=-3"), 2, ("below zero",)),
        (("show", "principles/first/divider", "--given", "R_1=0", "--given", "R_2=0"), 1, ("cannot be worked",)),
        (("show", "circuits/first/series-current", "--given", "U=3"), 2, ("card",)),
    ],
)
def test_show_refuses_in_one_sentence(bank, monkeypatch, args, code, words):
    extra = ("--bank", bank) if args[0] == "show" and len(args) > 1 else ()
    told(ran(monkeypatch, *args, *extra), code, *words)


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("--exam", "2026-02-30"), 2, ("no day '2026-02-30'",)),
        (("--exam", "2026-11-24"), 2, ("has passed",)),
        (("--exam", "2020-01-01"), 2, ("has passed",)),
        (("--exam", "9999-01-01"), 2, ("from 1970 to 2200",)),
        (("--exam", "2150-01-01"), 2, ("years away",)),
        (("--exam", "someday"), 2, ("no day 'someday'",)),
        (("--exam", ""), 2, ("no day",)),
        (("--count", "0"), 2, ("--count 0",)),
        (("--count", "-3"), 2, ("--count",)),
        (("--count", "many"), 2, ("many",)),
        (("--minutes", "nan"), 2, ("--minutes",)),
        (("--minutes", "-1"), 2, ("--minutes",)),
        (("--new", "-1"), 2, ("--new",)),
        (("--topic", "astronomy"), 1, ("no topic 'astronomy'",)),
        (("--topic", "circuit"), 1, ("did you mean 'circuits'",)),
        (("--trainee", "Nobody"), 1, ("no trainee 'Nobody'", "trainee add")),
        (("--now", "yesterday"), 2, ("--now",)),
        (("--weak", "--topic", "circuits"), 2, ("leave out --weak",)),
    ],
)
def test_study_refuses_in_one_sentence(bank, tmp_path, monkeypatch, args, code, words):
    fixed = FIXED if "--now" not in args else ()
    found = ran(monkeypatch, "study", "--bank", bank, "--store", str(tmp_path / "s.db"), *fixed, *args)
    told(found, code, *words)


def test_an_exam_day_in_words_is_the_next_such_day_and_is_remembered(bank, tmp_path, monkeypatch):
    where = ("--bank", bank, "--store", str(tmp_path / "s.db"), *FIXED)
    assert "Exam in 109 days (Sun 14 Mar 2027)" in ran(monkeypatch, "study", "--exam", "14 March", *where).out
    assert "Exam in 109 days" in ran(monkeypatch, "study", *where).out


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("topics", "--topic", "astronomy"), 1, ("no topic 'astronomy'",)),
        (("topics", "--unsigned", "--topic", "astronomy"), 1, ("no topic 'astronomy'",)),
        (("topics", "--nonsense"), 2, ("`quizzer topics --help` shows what it takes",)),
        (("diagnose", "--level", "4"), 2, ("--level: 4 is not from 1 to 3",)),
        (("diagnose", "--level", "x"), 2, ("--level: 'x' is not a whole number",)),
        (("diagnose", "--shape", "ring", "--seed", "3", "--svg", "no/such/folder.svg"), 1, ("cannot be written",)),
        (("explain", "Q402", "more"), 2, ("no room for 'more'",)),
        (("nonsense",), 2, ("`quizzer --help` shows the commands",)),
    ],
)
def test_the_option_parser_s_words_become_a_sentence(monkeypatch, args, code, words):
    told(ran(monkeypatch, *args), code, *words)


def test_a_group_of_commands_alone_shows_its_commands(monkeypatch):
    found = ran(monkeypatch, "paper")
    assert found.code == 2
    assert found.err.startswith("Usage: quizzer paper")
    assert "..." not in found.err.split("Commands:")[1]


def test_the_entries_of_a_topic_and_the_codes_are_listed(bank, monkeypatch):
    found = ran(monkeypatch, "topics", "--topic", "circuits", "--bank", bank)
    assert "circuits/first/series-current: card, published" in found.out
    assert "`quizzer show circuits/first/series-current` shows one." in found.out
    assert '"kind": "card"' in ran(monkeypatch, "topics", "--topic", "circuits", "--bank", bank, "--json").out
    assert "Q402  A proof that sleeps" in ran(monkeypatch, "explain").out


@pytest.mark.parametrize(
    ("name", "sound"),
    [
        ("Priya", True),
        ("O'Brien", True),
        ('Robert"); DROP TABLE trainee; --', True),
        ("Zoë", True),
        ("⚡ Sam", True),
        ("李", True),
        ("x" * 10_000, False),
        ("", False),
        ("   ", False),
        ("a\nb", False),
        ("a\x00b", False),
    ],
)
def test_names_are_kept_as_they_are_or_refused_in_a_sentence(tmp_path, monkeypatch, name, sound):
    store = ("--store", str(tmp_path / "s.db"))
    found = ran(monkeypatch, "trainee", "add", name, *store)
    if not sound:
        told(found, found.code)
        assert found.code in (1, 2)
        return
    assert found.code == 0, found.err
    assert name.strip() in ran(monkeypatch, "trainee", "list", *store).out
    assert f'"name": "{name}"'.replace('"); ', '\\"); ') in ran(monkeypatch, "trainee", "export", name, *store).out


def test_a_trainee_is_erased_only_after_yes_and_then_for_good(bank, tmp_path, monkeypatch):
    store = ("--store", str(tmp_path / "s.db"))
    ran(monkeypatch, "trainee", "add", "Wilhelmina", *store)
    study = ("study", "--topic", "safety", "--trainee", "Wilhelmina", "--bank", bank)
    ran(monkeypatch, *study, *store, *FIXED, typed="ABCD\n1\nq\n")
    assert ran(monkeypatch, "trainee", "erase", "Wilhelmina", *store, typed="no\n").code == 1
    assert ran(monkeypatch, "trainee", "list", *store).out.split()[-1] == "1"
    assert ran(monkeypatch, "trainee", "erase", "Wilhelmina", *store, typed="yes\n").code == 0
    assert "Wilhelmina" not in ran(monkeypatch, "trainee", "list", *store).out
    assert not any(b"Wilhelmina" in path.read_bytes() for path in tmp_path.glob("s.db*"))


def test_a_closed_input_ends_the_session_quietly(bank, tmp_path, monkeypatch):
    found = ran(monkeypatch, "study", "--bank", bank, "--store", str(tmp_path / "s.db"), *FIXED, typed="")
    assert found.code == 0
    assert "No question was answered" in found.out


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"this is a letter, not a database" * 100, ("not",)), (b"SQLite format 3\x00" + b"\x00" * 50, ())],
)
def test_a_file_that_is_no_store_is_refused_and_left_as_it_is(bank, tmp_path, monkeypatch, content, words):
    path = tmp_path / "s.db"
    path.write_bytes(content)
    found = ran(monkeypatch, "study", "--bank", bank, "--store", str(path), *FIXED)
    told(found, 3, *words)
    assert path.read_bytes() == content


@pytest.mark.parametrize("verb", ["info", "check", "backup"])
def test_looking_at_a_store_that_is_not_there_makes_none(monkeypatch, tmp_path, verb):
    path = tmp_path / "mistyped.db"
    more = [str(tmp_path / "copy.db")] if verb == "backup" else []
    told(ran(monkeypatch, "store", verb, *more, "--store", str(path)), 3, "no store at", "check --store")
    assert not list(tmp_path.iterdir())


def test_a_store_of_a_newer_version_is_refused_with_both_numbers(bank, tmp_path, monkeypatch):
    path = tmp_path / "s.db"
    ran(monkeypatch, "study", "--bank", bank, "--store", str(path), *FIXED)
    with sqlite3.connect(path) as db:
        db.execute("UPDATE meta SET value = '99' WHERE key LIKE '%version%'")
    db.close()
    told(ran(monkeypatch, "store", "info", "--store", str(path)), 3, "version 99", f"up to {NEWEST}")


def test_a_locked_store_is_told(bank, tmp_path, monkeypatch):
    path = tmp_path / "s.db"
    ran(monkeypatch, "study", "--bank", bank, "--store", str(path), *FIXED)
    holder = sqlite3.connect(path, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    monkeypatch.setattr("quizzer.store.connection.BUSY_SECONDS", 0.1, raising=False)
    found = ran(monkeypatch, "trainee", "add", "Priya", "--store", str(path))
    holder.close()
    told(found, 3)


@pytest.mark.parametrize("url", ["/no/such/folder/s.db", "mysql://x/y", "postgresql://nobody@127.0.0.1:1/none"])
def test_a_store_that_cannot_be_reached_is_told(monkeypatch, url):
    told(ran(monkeypatch, "store", "info", "--store", url), 3)


def test_a_bank_folder_that_is_not_there_is_told(monkeypatch):
    told(ran(monkeypatch, "topics", "--bank", "/no/such/bank"), 2, "/no/such/bank")


BAD_FILES = {
    "not-toml": (b"[[card]\n", "Q101"),
    "not-utf8": (b'edition = "\xff\xfe"\n', "Q102"),
    "too-large": (b"#" * 50_000_000, "Q103"),
    "nul": (b'edition = "a\x00b"\n', "Q101"),
}


@pytest.mark.parametrize("name", sorted(BAD_FILES))
def test_a_bad_bank_file_is_a_finding_and_its_neighbours_go_on(bank, tmp_path, monkeypatch, name):
    content, code = BAD_FILES[name]
    (tmp_path / "bank" / "design").mkdir()
    (tmp_path / "bank" / "design" / f"{name}.toml").write_bytes(content)
    found = ran(monkeypatch, "bank", "check", bank)
    assert found.code == 1
    assert f"bank/design/{name}.toml" in found.out
    assert code in found.out
    assert "Traceback" not in found.err
    assert ran(monkeypatch, "show", "principles/first/divider", "--bank", bank).code == 0
    assert (
        "question 1 of 3"
        in ran(monkeypatch, "study", "--count", "3", "--bank", bank, "--store", str(tmp_path / "s.db"), *FIXED).out
    )


def test_an_input_that_is_closed_from_the_start_is_no_bug(bank, tmp_path):
    command = f"{sys.executable} -m quizzer study --bank {bank} --store {tmp_path}/s.db 0<&-"
    done = subprocess.run(["/bin/sh", "-c", command], capture_output=True, text=True, check=False, cwd=CHECKOUT)
    assert done.returncode == 0, done.stderr
    assert "No question was answered" in done.stdout


def test_a_reader_that_goes_away_is_no_bug(bank):
    command = f"{sys.executable} -m quizzer show principles/first/divider --solution --bank {bank} | head -1"
    done = subprocess.run(["/bin/sh", "-c", command], capture_output=True, text=True, check=False, cwd=CHECKOUT)
    assert "Traceback" not in done.stderr


def test_a_store_that_is_damaged_is_mended_by_its_backup(bank, tmp_path, monkeypatch):
    store, copy = tmp_path / "s.db", tmp_path / "copy.db"
    where = ("--store", str(store))
    ran(monkeypatch, "study", "--topic", "safety", "--bank", bank, *where, *FIXED, typed="ABCD\n1\nq\n")
    assert ran(monkeypatch, "store", "backup", str(copy), *where).code == 0
    store.write_bytes(store.read_bytes()[:5000])
    told(ran(monkeypatch, "store", "info", *where), 3)
    assert ran(monkeypatch, "store", "restore", str(copy), "--yes", *where).code == 0
    assert ran(monkeypatch, "trainee", "list", *where).out.split()[-1] == "1"
    assert ran(monkeypatch, "store", "check", *where).code == 0


@pytest.mark.parametrize("content", [b"", b"not a store", b"SQLite format 3\x00" + bytes(90)])
def test_a_restore_from_what_is_no_backup_changes_nothing(bank, tmp_path, monkeypatch, content):
    store, copy = tmp_path / "s.db", tmp_path / "copy.db"
    ran(monkeypatch, "study", "--topic", "safety", "--bank", bank, "--store", str(store), *FIXED, typed="ABCD\n1\nq\n")
    copy.write_bytes(content)
    told(ran(monkeypatch, "store", "restore", str(copy), "--yes", "--store", str(store)), 3)
    assert ran(monkeypatch, "trainee", "list", "--store", str(store)).out.split()[-1] == "1"


def test_check_of_a_path_that_is_not_there_is_told(monkeypatch):
    told(ran(monkeypatch, "bank", "check", "/no/such.toml"), 1, "/no/such.toml")


def test_a_bug_is_told_as_one_with_its_traceback(monkeypatch, bank):
    monkeypatch.setattr("quizzer.cli.show.question_named", lambda *_: 1 / 0)
    found = ran(monkeypatch, "show", "principles/first/divider", "--bank", bank)
    assert found.code == 70
    assert "ZeroDivisionError" in found.err
    assert "bug in quizzer" in found.err


def test_a_cable_size_that_the_table_lacks_is_refused_unless_all_of_its_row_is_given(monkeypatch):
    name = "design/loop/loop-impedance-at-design"
    told(ran(monkeypatch, "show", name, "--given", "S=5"), 2, "no row of the table has S=5", "2.5", "S_c, r")
    assert "4 mm²" in ran(monkeypatch, "show", name, "--given", "S=4").out
    whole = [part for text in ("S=5", "S_c=2", "r=12", "r_1=5", "I_t=30") for part in ("--given", text)]
    assert "5 mm²/2 mm²" in ran(monkeypatch, "show", name, *whole).out
