"""The quick commands never open a heavy library: here those libraries cannot be imported at all."""

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
HEAVY = (
    "sqlmodel",
    "sqlalchemy",
    "pydantic",
    "pint",
    "typst",
    "numpy",
    "lxml",
    "highspy",
    "starlette",
    "cv2",
    "openpyxl",
)
COUNTING = tuple(name for name in HEAVY if name != "numpy")  # what estimates do without

PROGRAM = """
import sys
for name in {heavy!r}:
    sys.modules[name] = None        # importing it now raises ModuleNotFoundError
from quizzer.cli import main
main({arguments})
"""


def run_without(
    names: tuple[str, ...], *arguments: str, store: Path | None = None, typed: str = ""
) -> subprocess.CompletedProcess[str]:
    """What `quizzer ARGUMENTS` does where these libraries are out of reach."""
    program = PROGRAM.format(heavy=names, arguments=list(arguments))
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=CHECKOUT,
        input=typed,
        capture_output=True,
        encoding="utf-8",
        check=False,
        env={**os.environ, "QUIZZER_STORE": str(store or "")},
    )


def shipped_id(kind: str) -> str:
    """The first template or card of the shipped bank."""
    for path in sorted((CHECKOUT / "banks").glob("*/*.toml")):
        for entry in tomllib.loads(path.read_text(encoding="utf-8")).get(kind, ()):
            return f"{path.parent.name}/{path.stem}/{entry['id']}"
    raise AssertionError(f"the shipped bank has no {kind}")


def lint_code() -> str:
    """One of the codes that lint can give."""
    texts = [path.read_text(encoding="utf-8") for path in sorted((CHECKOUT / "quizzer" / "lint").glob("*.py"))]
    return min(code for text in texts for code in re.findall(r'"([A-Z]\d{3})"', text))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--help",), "study"),
        (("study", "--help"), "--exam"),
        (("topics",), "three-phase"),
        (("topics", "--json"), '"topic"'),
        (("show", shipped_id("template") + "#7"), ""),
        (("show", shipped_id("template"), "--solution", "--json"), '"working"'),
        (("show", shipped_id("card") + "#7"), ""),
        (("explain", lint_code()), lint_code()),
    ],
)
def test_a_quick_command_opens_nothing_heavy(arguments: tuple[str, ...], words: str) -> None:
    done = run_without(HEAVY, *arguments)
    assert done.stderr == ""
    assert done.returncode == 0
    assert done.stdout.strip()
    assert words in done.stdout


def test_a_session_and_the_care_of_a_store_open_nothing_heavy(tmp_path: Path) -> None:
    store, backup = tmp_path / "s.db", tmp_path / "s.bak"
    for arguments, typed, words in (
        (("study", "--plain", "--count", "1"), "A\n1\n\n" * 9, "How sure?"),
        (("trainee", "list"), "", "local trainee"),
        (("store", "check"), "", ""),
        (("store", "backup", str(backup)), "", ""),
        (("store", "info"), "", "1"),
        (("store", "restore", str(backup)), "yes\n", ""),
        (("group", "list"), "", ""),
    ):
        done = run_without(HEAVY, *arguments, store=store, typed=typed)
        assert (done.stderr, done.returncode) == ("", 0), arguments
        assert words in done.stdout


@pytest.mark.parametrize(
    "arguments", [("ready",), ("weak",), ("plan", "--exam", "in 6 weeks"), ("diagnose", "--assessed", "--count", "1")]
)
def test_an_outlook_or_a_diagnosis_opens_at_most_what_it_counts_with(
    arguments: tuple[str, ...], tmp_path: Path
) -> None:
    done = run_without(COUNTING, *arguments, store=tmp_path / "s.db", typed="\nq\n\n")
    assert (done.stderr, done.returncode) == ("", 0)
    assert done.stdout.strip()


def test_a_command_that_needs_a_heavy_library_would_be_found(tmp_path: Path) -> None:
    done = run_without(HEAVY, "weak", store=tmp_path / "s.db")
    assert done.returncode != 0
    assert "the package numpy is missing" in done.stderr
