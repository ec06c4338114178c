"""A finished environment that lost a package says which and how to mend it."""

import subprocess
import sys
from pathlib import Path

import pytest

from quizzer.cli.environment import broken
from quizzer.cli.exits import BROKEN, BUG

CHECKOUT = Path(__file__).parents[2]


def without(package, *args):
    """A command in a process that cannot import the package."""
    program = f"import sys; sys.modules[{package!r}] = None; from quizzer.cli import main; main({list(args)!r})"
    return subprocess.run(
        [sys.executable, "-P", "-c", program],
        check=False,
        capture_output=True,
        text=True,
        timeout=60,
        cwd=CHECKOUT,
        env={"PYTHONPATH": str(CHECKOUT)},
    )


@pytest.mark.parametrize(
    ("package", "args"),
    [
        ("typer", ("topics",)),
        ("dateutil", ("plan", "--exam", "in 3 days")),
    ],
)
def test_a_missing_package_is_named_with_its_mend(package, args, tmp_path):
    found = without(package, *args, *(("--store", str(tmp_path / "s.db")) if package == "dateutil" else ()))
    assert found.returncode == BROKEN, found.stderr
    assert f"the package {package} is missing from its environment, or broken" in found.stderr
    assert len(found.stderr.splitlines()) == 1


def test_a_missing_part_of_the_program_itself_is_a_bug():
    found = without("quizzer.cli.topics", "topics")
    assert found.returncode == BUG
    assert "this is a bug" in found.stderr


def test_the_private_environment_of_a_checkout_is_deleted_and_another_one_installed(monkeypatch):
    missing = ModuleNotFoundError("No module named 'typer'", name="typer")
    monkeypatch.setattr(sys, "prefix", "/home/kim/quizzer/.environment/run-x")
    assert "delete the folder /home/kim/quizzer/.environment/run-x" in broken(missing)[1].replace("\\", "/")
    monkeypatch.setattr(sys, "prefix", "/usr")
    assert "install quizzer again" in broken(missing)[1]


def test_a_package_cut_off_in_the_middle_is_broken_and_a_file_of_ours_is_not():
    cut = SyntaxError("never closed", ("/usr/lib/python3/site-packages/typer/main.py", 3, 1, "x = ("))
    assert "the package typer" in broken(cut)[0]
    assert broken(SyntaxError("never closed", ("/home/kim/quizzer/cli/app.py", 3, 1, "x = ("))) is None
