"""Every command in the README and in the guides is run, in a copy of the checkout, and prints what the page says.

How a page is read: `console.py`. What a command needs besides its words stands in the tables below, and a row
that no longer belongs to any command of the pages fails, as a command that is not run would.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from readme_commands import PAGES, TYPED

from tests.house.console import Command, commands_in, first_missing

CHECKOUT = Path(__file__).parents[2]
COMMANDS = [(page, command) for page in PAGES for command in commands_in((CHECKOUT / page).read_text(encoding="utf-8"))]

# An exit code other than 0.
CODES: dict[str, int] = {}

# Commands that cannot run inside the suite, each with the test that runs it and says so in its text.
RUN_BY = {
    "scripts/test": "tests/scripts/test_commands.py",
    "scripts/quizzer web": "tests/web/test_command.py",
    "pip install .": "tests/house/test_wheel.py",
}

SECONDS = 300  # the first command that finds no environment makes one


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy to run in, so that no command changes the real one; it shares the private environments."""
    copy = tmp_path_factory.mktemp("readme") / "checkout"
    left_out = shutil.ignore_patterns(".*", "__pycache__")
    shutil.copytree(CHECKOUT, copy, ignore=left_out)
    (CHECKOUT / ".environment").mkdir(exist_ok=True)
    (copy / ".environment").symlink_to(CHECKOUT / ".environment")
    return copy


@pytest.fixture(scope="module")
def programs(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the names that a person's path has: python, and quizzer as if installed."""
    folder = tmp_path_factory.mktemp("programs")
    python = Path(getattr(sys, "_base_executable", sys.executable))
    for name in ("python", "python3"):
        (folder / name).symlink_to(python)
    (folder / "quizzer").symlink_to(checkout / "scripts" / "quizzer")
    return folder


def run(text: str, checkout: Path, programs: Path, typed: str) -> subprocess.CompletedProcess[str]:
    """A command line, as a shell in the checkout runs it, with a store of its own."""
    away = ("PYTHONPATH", "NO_COLOR", "QUIZZER_STORE", "TERM")
    variables = {name: value for name, value in os.environ.items() if name not in away}
    variables |= {
        "PATH": f"{programs}{os.pathsep}{variables.get('PATH', os.defpath)}",
        "QUIZZER_STORE": str(checkout.parent / "study.db"),
        "COLUMNS": "80",
        "PYTHONIOENCODING": "utf-8",
    }
    return subprocess.run(
        ["/bin/sh", "-c", text],
        cwd=checkout,
        env=variables,
        input=typed,
        capture_output=True,
        encoding="utf-8",
        timeout=SECONDS,
        check=False,
    )


@pytest.mark.parametrize(
    "command",
    [pytest.param(command, id=f"{page}:{command.line}: {command.text}") for page, command in COMMANDS],
)
def test_a_command_does_as_its_page_says(command: Command, checkout: Path, programs: Path) -> None:
    if command.text in RUN_BY:
        proof = (CHECKOUT / RUN_BY[command.text]).read_text(encoding="utf-8")
        assert command.text in proof, f"{RUN_BY[command.text]} does not say that it runs `{command.text}`"
        return
    done = run(command.text, checkout, programs, TYPED.get(command.text, ""))
    assert done.returncode == CODES.get(command.text, 0), done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert first_missing(command.shown, done.stdout) is None, done.stdout


def test_the_readme_has_the_two_commands() -> None:
    assert {"scripts/quizzer study", "scripts/test"} <= {command.text for page, command in COMMANDS if page == PAGES[0]}


def test_every_guide_is_among_the_pages() -> None:
    guides = {f"quizzer/guide/{path.name}" for path in (CHECKOUT / "quizzer" / "guide").glob("*.md")}
    assert guides == set(PAGES[1:])


def test_no_row_of_the_tables_is_left_over() -> None:
    assert {*TYPED, *CODES, *RUN_BY} - {command.text for _, command in COMMANDS} == set()


# ---- the checker itself ----------------------------------------------------------------------------------

PAGE = """
```console
$ one --first
printed
...
last
$ two \\
    --second
```
```toml
$ not a command
```
```console
$ three
```
"""


def test_commands_are_found_with_their_lines_and_output() -> None:
    assert commands_in(PAGE) == [
        Command(3, "one --first", ("printed", "...", "last")),
        Command(7, "two --second", ()),
        Command(14, "three", ()),
    ]


def test_a_block_that_begins_without_a_command_is_refused() -> None:
    with pytest.raises(ValueError, match="line 2: a console block begins with a command, not with 'x'"):
        commands_in("```console\nx\n```")


@pytest.mark.parametrize(
    ("shown", "printed", "missing"),
    [
        (("a", "b"), "a\nb\n", None),
        (("a  ", "", "b", ""), "\na\n\nb  \n\n", None),
        (("a", "...", "d"), "a\nb\nc\nd\n", None),
        (("...", "d"), "a\nd\n", None),
        (("a", "..."), "a\nd\n", None),
        (("a", "..."), "a\n", None),
        ((), "anything", None),
        (("a", "c"), "a\nb\n", "c"),
        (("a", "b"), "a\nx\nb\n", "b"),
        (("b", "...", "a"), "b\nb\n", "a"),
        (("...", "b", "...", "a"), "a\nb\n", "a"),
        (("a",), "a\nb\n", "(the end, where it printed 'b')"),
        (("a",), "", "a"),
    ],
)
def test_output_that_differs_is_found(shown: tuple[str, ...], printed: str, missing: str | None) -> None:
    assert first_missing(shown, printed) == missing


def test_a_command_that_fails_would_be_found(checkout: Path, programs: Path) -> None:
    with pytest.raises(AssertionError):
        test_a_command_does_as_its_page_says(Command(1, "quizzer nonsense", ()), checkout, programs)
    with pytest.raises(AssertionError, match="something else"):
        test_a_command_does_as_its_page_says(Command(1, "echo something else", ("something",)), checkout, programs)
