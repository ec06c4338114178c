"""What once fell in an attack stands: every kept case is run again, and a fault in the watching would be seen."""

import sys
from pathlib import Path

import pytest

pytest.importorskip("resource", reason="each case runs in a forked process, with limits of its own")

from attacking.cases import Case, from_text, to_text
from attacking.running import Ended, failure, judged, run

CORPUS = Path(__file__).parent / "corpus"
SLOW = 6.0  # the suite shares its machine


@pytest.mark.parametrize("path", sorted(CORPUS.glob("*.json")), ids=lambda path: path.stem)
def test_what_fell_once_stands(path: Path) -> None:
    assert failure(from_text(path.read_text(encoding="utf-8")), SLOW) == ""


def test_a_case_reads_back_as_it_was_kept() -> None:
    case = Case("bank", ("topics",), {"a/b": b"\0\xff"}, "x\n", {"COLUMNS": "1"}, 0.5, (("store", "check"),))
    assert from_text(to_text(case, "why")) == case


def test_a_command_says_what_it_says_to_a_person(tmp_path: Path) -> None:
    ended = run(Case("around", ("explain", "no-such-code"), {}), str(tmp_path))
    assert (ended.code, "no-such-code" in ended.printed) == (1, True)


@pytest.mark.parametrize(
    ("ended", "says"),
    [
        (Ended(70, 1, 100, ""), "exit code 70"),
        (Ended(-11, 1, 100, ""), "exit code -11"),
        (Ended(1, 1, 100, "Traceback (most recent call last):\n"), "a traceback"),
        (Ended(0, 5.1, 100, ""), "5.1 s of work"),
        (Ended(0, 1, 401, ""), "401 MB"),
        (Ended(-9, 1, 100, ""), "exit code -9"),
        (Ended(0, 1, 100, ""), ""),
    ],
)
def test_a_failure_is_told_from_a_good_end(ended: Ended, says: str) -> None:
    assert judged(ended, 1.0).startswith(says)
    assert bool(judged(ended, 1.0)) is bool(says)


def test_a_crash_of_the_program_is_a_failure(monkeypatch: pytest.MonkeyPatch) -> None:
    import quizzer.cli

    monkeypatch.setattr(quizzer.cli, "run", lambda _args: 1 // 0)
    assert "a traceback" in failure(Case("around", ("topics",), {}))
    assert sys.stdout is not None
