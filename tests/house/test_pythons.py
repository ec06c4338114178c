"""The same questions, with the same words and figures, on every Python that is promised, found here and set up.

`scripts/test-pythons` sets the others up, has them compared here (`QUIZZER_TEST_PYTHONS`), and runs on each the screens
that are kept under tests/golden.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from environment import CHECKOUT, python_in
from pythons import PROMISED, found, running

from tests.house.questions_digest import QUESTIONS

SCRIPT = Path(CHECKOUT) / "tests" / "house" / "questions_digest.py"


def ready() -> dict[str, str]:
    """The interpreters of finished environments, by version; this Python's own is always among them."""
    home = Path(CHECKOUT) / ".environment"
    folders = {version: home.glob(f"*-cpython-{version.replace('.', '')}-*") for version in PROMISED}
    there = {
        version: sorted(one for one in kept if (one / "made-from.txt").exists()) for version, kept in folders.items()
    }
    return {version: python_in(str(kept[-1])) for version, kept in there.items() if kept}


def digest(python: str, questions: int) -> str:
    """The digest that an interpreter prints."""
    command = [python, "-P", str(SCRIPT), str(questions)]
    ended = subprocess.run(
        command, env={**os.environ, "PYTHONPATH": CHECKOUT}, capture_output=True, text=True, check=False
    )
    assert ended.returncode == 0, ended.stderr
    return ended.stdout.strip()


def test_five_hundred_questions_are_the_same_on_every_python() -> None:
    if not os.environ.get("QUIZZER_TEST_PYTHONS"):
        pytest.skip("scripts/test-pythons sets the others up and compares them")
    there = ready()
    if len(there) < 2:
        pytest.skip(f"only Python {running()} is found here")
    digests = {version: digest(python, QUESTIONS) for version, python in there.items()}
    assert len(set(digests.values())) == 1, digests


def test_the_digest_sees_another_question() -> None:
    assert len({digest(sys.executable, count) for count in (3, 4)}) == 2


def test_a_python_is_found_by_its_version_in_the_folders_of_a_version_manager(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, says in (("3.12.1", "3 12 1 final"), ("3.12.10", "3 12 10 final"), ("3.13.0rc1", "3 13 0 candidate")):
        python = tmp_path / "versions" / name / "bin" / f"python{name[:4]}"
        python.parent.mkdir(parents=True)
        python.write_text(f"#!/bin/sh\necho {says}\n", encoding="utf-8")
        python.chmod(0o755)
    monkeypatch.setenv("PYENV_ROOT", str(tmp_path))
    monkeypatch.setenv("PATH", "/nowhere")
    assert found("3.12") == str(tmp_path / "versions" / "3.12.10" / "bin" / "python3.12")
    assert (found("3.13"), found("3.14")) == (None, None)
