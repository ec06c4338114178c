"""The benchmark tells what broke: a command that fails and a session without answers are no kept promises."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from scripts.bench_parts import processes, report, starts
from scripts.bench_parts.promise import Promise, Stopped, against


def part(*promises: Promise) -> Iterator[Promise]:
    """A part that measures these promises."""
    yield from promises


def with_program(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    """Put another program in quizzer's place."""
    for module in (processes, starts):
        monkeypatch.setattr(module, "PROGRAM", ("-c", text))


def test_promises_are_kept_or_broken_by_their_ratio(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    kept, broken = Promise("a", 1.5, "times b", 2), Promise("c", 2.5, "times d", 2)
    monkeypatch.setattr(report, "PARTS", {"one": lambda: part(kept), "two": lambda: part(kept, broken)})
    assert report.main(["one"]) == 0
    assert capsys.readouterr().out == "kept   a: 1.50 times b (at most 2)\n"
    assert report.main([]) == 1
    assert "BROKEN c: 2.50 times d (at most 2)" in capsys.readouterr().out


def test_a_ratio_that_is_no_number_is_not_kept() -> None:
    assert not Promise("a", float("nan"), "times b", 2).kept


def test_a_part_that_is_not_there_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert report.main(["startz"]) == 2
    assert "there is no part 'startz'" in capsys.readouterr().err


def test_a_command_that_fails_breaks_its_part(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with_program(monkeypatch, "import sys; sys.exit('out of order')")
    assert report.main(["starts"]) == 1
    said = capsys.readouterr().out
    assert said.startswith("BROKEN starts: not measured to its end: Stopped:")
    assert "out of order" in said
    assert "kept" not in said
    assert report.main(["checks"]) == 1
    assert "ended with code 1: out of order" in capsys.readouterr().out


@pytest.mark.parametrize(
    "program",
    [
        "print('Goodbye')",  # ends well, and has asked nothing
        "import sys; sys.exit(3)",
        "print('Enter'); input()",  # one screen, and nothing is kept
    ],
)
def test_a_session_without_its_answers_is_not_measured(
    program: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    with_program(monkeypatch, program)
    with pytest.raises(Stopped, match=r"a session of [01] answers, not 3"):
        starts.session(tmp_path / "s.db", 3)


def test_a_session_whose_answers_are_not_kept_is_not_measured(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    making = "import sqlite3; sqlite3.connect('s.db').execute('CREATE TABLE review (id TEXT)')"
    with_program(monkeypatch, f"{making}\nfor _ in range(3): input('Enter')")
    with pytest.raises(Stopped, match="3 answers were given and 0 are kept"):
        starts.session(tmp_path / "s.db", 3)


def test_a_real_session_is_measured(tmp_path: Path) -> None:
    given, megabytes = starts.session(tmp_path / "s.db", 2)
    assert given >= 2
    assert megabytes > 1


def test_a_ratio_is_that_of_medians() -> None:
    ours, theirs = iter([9.0, 2.0, 3.0]), iter([1.0, 1.0, 9.0])
    assert against(lambda: next(ours), lambda: next(theirs), 3) == 3.0
