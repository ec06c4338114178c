"""The quick commands never open a heavy library: here those libraries cannot be imported at all."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
HEAVY = ("sqlmodel", "sqlalchemy", "pint", "typst", "numpy", "lxml", "highspy")

PROGRAM = """
import sys
for name in {heavy}:
    sys.modules[name] = None        # importing it now raises ModuleNotFoundError
from quizzer.cli import main
main({arguments})
"""


def run_without_heavy(*arguments: str) -> subprocess.CompletedProcess[str]:
    """What `quizzer ARGUMENTS` does where the heavy libraries are out of reach."""
    program = PROGRAM.format(heavy=HEAVY, arguments=list(arguments))
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=CHECKOUT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
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
    done = run_without_heavy(*arguments)
    assert done.stderr == ""
    assert done.returncode == 0
    assert done.stdout.strip()
    assert words in done.stdout


def test_a_command_that_needs_a_heavy_library_would_be_found() -> None:
    done = run_without_heavy("study")
    assert done.returncode != 0
    assert "ModuleNotFoundError" in done.stderr
