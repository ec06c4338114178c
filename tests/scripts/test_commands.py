"""scripts/quizzer and scripts/test as a person starts them, on a checkout whose environment is a stand-in."""

import ast
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from environment import CHECKOUT, Environment, python_in, stamp_in

SCRIPTS = Path(CHECKOUT) / "scripts"

# Says that it runs, then waits; Ctrl-C ends it with a code of its own.
PATIENT = f"""#!{sys.executable}
import sys, time
try:
    print(sys.argv[3], flush=True)
    time.sleep(30)
except KeyboardInterrupt:
    print("I was told", flush=True)
    sys.exit(9)
"""

# Answers like `python -P -m MODULE ...`: says what it was asked, and ends with the code that CODES gives.
STAND_IN = f"""#!{sys.executable}
import os, sys
module = sys.argv[3]
print(module, *sys.argv[4:], "flags:" + sys.argv[1], "path:" + os.environ["PYTHONPATH"], flush=True)
sys.exit(int(dict(pair.split("=") for pair in os.environ.get("CODES", "").split()).get(module, 0)))
"""


@pytest.fixture(autouse=True)
def _same_python(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the `python3` of a script's first line the one that runs the tests, whose environments these are."""
    programs = tmp_path / "programs"
    programs.mkdir()
    (programs / "python3").symlink_to(getattr(sys, "_base_executable", sys.executable))
    monkeypatch.setenv("PATH", f"{programs}{os.pathsep}{os.environ.get('PATH', os.defpath)}")


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A checkout with the real scripts and two ready environments that only pretend."""
    folder = tmp_path / "a checkout"  # with a space: people have them
    shutil.copytree(SCRIPTS, folder / "scripts")
    (folder / "scripts" / "requirements").mkdir(parents=True, exist_ok=True)
    for kind in ("run", "test"):
        place = Environment(str(folder), kind)
        Path(place.requirements).write_text("alpha==1.0\n", encoding="utf-8")
        python = Path(python_in(place.folder))
        python.parent.mkdir(parents=True)
        python.write_text(STAND_IN, encoding="utf-8")
        python.chmod(0o755)
        Path(stamp_in(place.folder)).write_text(place.stamp(), encoding="utf-8")
    return folder


def run(*command: str | Path, codes: str = "", cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    variables = {**os.environ, "CODES": codes, "PYTHONHOME": "", "PYTHONPATH": "/nowhere"}
    return subprocess.run(
        [str(part) for part in command], capture_output=True, text=True, env=variables, cwd=cwd, check=False
    )


def test_quizzer_runs_in_its_environment_from_any_folder(checkout: Path, tmp_path: Path) -> None:
    done = run(checkout / "scripts" / "quizzer", "show", "a b", "--json", cwd=tmp_path)
    assert done.stdout == f"quizzer show a b --json flags:-P path:{checkout}\n"
    assert (done.returncode, done.stderr) == (0, "")


def test_quizzer_needs_no_run_bit_and_may_be_linked_to(checkout: Path, tmp_path: Path) -> None:
    link = tmp_path / "quizzer"
    link.symlink_to(checkout / "scripts" / "quizzer")
    (checkout / "scripts" / "quizzer").chmod(0o644)
    for script in (checkout / "scripts" / "quizzer", link):
        assert run(sys.executable, script, "topics").stdout.startswith("quizzer topics ")


@pytest.mark.parametrize("code", [0, 1, 3, 70])
def test_quizzer_passes_the_exit_code_on(checkout: Path, code: int) -> None:
    assert run(checkout / "scripts" / "quizzer", codes=f"quizzer={code}").returncode == code


def test_where_exec_is_missing_a_child_does_the_same(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from running import followed

    monkeypatch.setenv("CODES", "quizzer=3")
    assert followed(Environment(str(checkout), "run"), ["quizzer", "topics"]) == 3


def interrupted(command: list[str], checkout: Path) -> tuple[int, str]:
    """The exit code and the words of a command that gets Ctrl-C, as a terminal sends it, once it runs."""
    for kind in ("run", "test"):
        Path(python_in(Environment(str(checkout), kind).folder)).write_text(PATIENT, encoding="utf-8")
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, start_new_session=True) as process:
        assert process.stdout is not None
        first = process.stdout.readline()
        os.killpg(process.pid, signal.SIGINT)
        said = first + process.communicate(timeout=20)[0]
    return process.returncode, said


def test_ctrl_c_is_the_programs_own_business(checkout: Path) -> None:
    assert interrupted([str(checkout / "scripts" / "quizzer")], checkout) == (9, "quizzer\nI was told\n")


def test_ctrl_c_is_the_programs_own_business_where_exec_is_missing(checkout: Path) -> None:
    program = """
import sys
sys.path.insert(0, sys.argv[1] + "/scripts")
from environment import Environment
from running import followed
sys.exit(followed(Environment(sys.argv[1], "run"), ["quizzer"]))
"""
    command = [sys.executable, "-c", program, str(checkout)]
    assert interrupted(command, checkout) == (9, "quizzer\nI was told\n")


def test_ctrl_c_during_a_check_stops_the_suite(checkout: Path) -> None:
    assert interrupted([str(checkout / "scripts" / "test")], checkout) == (130, "ruff\nI was told\n")


def test_the_suite_runs_every_check_and_pytest_last(checkout: Path) -> None:
    done = run(checkout / "scripts" / "test", "-k", "rooms")
    assert [line.split(" flags")[0] for line in done.stdout.splitlines()] == [
        "ruff check .",
        "mypy --strict quizzer",
        "pytest -k rooms",
    ]
    assert done.returncode == 0


@pytest.mark.parametrize(
    ("codes", "code", "words"),
    [
        ("ruff=1", 1, "ruff found faults"),
        ("mypy=2", 1, "mypy found faults"),
        ("ruff=1 mypy=1", 1, "ruff and mypy found faults"),
        ("pytest=1", 1, ""),
        ("pytest=5", 5, ""),
        ("ruff=1 pytest=2", 2, "ruff found faults"),
    ],
)
def test_the_suite_is_honest_about_what_failed(checkout: Path, codes: str, code: int, words: str) -> None:
    done = run(checkout / "scripts" / "test", codes=codes)
    assert done.returncode == code
    assert words in done.stderr
    assert done.stdout.splitlines()[-1].startswith("pytest"), "pytest's closing line ends the output"


@pytest.mark.parametrize("script", ["quizzer", "test"])
@pytest.mark.parametrize("version", [(2, 7, 18), (3, 6, 15), (3, 10, 13)])
def test_an_old_python_is_refused_in_one_sentence(script: str, version: tuple[int, int, int]) -> None:
    program = f"""
import runpy, sys
sys.version_info = {(*version, "final", 0)}
sys.modules["environment"] = None      # the check comes before anything that an old Python cannot read
runpy.run_path({str(SCRIPTS / script)!r}, run_name="__main__")
"""
    done = run(sys.executable, "-S", "-c", program)
    assert done.returncode == 2
    assert f" Python 3.11 or newer, and this is Python {version[0]}.{version[1]}:" in done.stderr
    assert done.stderr.count("\n") == 1


@pytest.mark.parametrize("script", ["quizzer", "test"])
def test_an_old_python_can_read_the_scripts(script: str) -> None:
    text = (SCRIPTS / script).read_bytes().decode("ascii")
    too_new = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.FunctionDef, ast.Starred)
    tree = ast.parse(text, feature_version=(3, 4))
    assert not [node for node in ast.walk(tree) if isinstance(node, too_new)]


SUITE = "test --numprocesses 2 --dist loadfile"
CI_STEPS = ("test-postgres --install", "test-pythons", f"{SUITE} -k rooms")
# Says its name and its words, waits for a moment or for Ctrl-C, and closes with a line of its own.
STEP = f"""#!{sys.executable}
import os, sys, time
name = os.path.basename(sys.argv[0])
try:
    print(name, *sys.argv[1:], flush=True)
    open(name + " has begun", "w").close()
    time.sleep(float(os.environ.get("NAP", "0")))
except KeyboardInterrupt:
    print(name, "was told", flush=True)
    sys.exit(9)
print(name, "has ended", flush=True)
sys.exit(7 if name == os.environ.get("FAILING") else 0)
"""
continuous_integration = pytest.mark.skipif(os.name == "nt", reason="continuous integration is a shell script")


@pytest.fixture
def steps(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The command of continuous integration in a checkout whose steps are stand-ins."""
    monkeypatch.setenv("TSC", "one that is there")  # so that none is fetched
    for name in (".ci", "scripts"):
        (tmp_path / name).mkdir()
    shutil.copy(Path(CHECKOUT) / ".ci" / "run", tmp_path / ".ci" / "run")
    for step in CI_STEPS:
        script = tmp_path / "scripts" / step.split()[0]
        script.write_text(STEP, encoding="utf-8")
        script.chmod(0o755)
    return tmp_path / ".ci" / "run"


@continuous_integration
@pytest.mark.parametrize("failing", [None, *CI_STEPS])
def test_continuous_integration_runs_every_step_ends_with_the_suite_and_fails_if_one_does(
    steps: Path, monkeypatch: pytest.MonkeyPatch, failing: str | None
) -> None:
    monkeypatch.setenv("FAILING", failing.split()[0] if failing else "")
    ended = subprocess.run([steps, "-k", "rooms"], capture_output=True, text=True, check=False)
    said = [line for line in ended.stdout.splitlines() if "ended with" not in line]
    assert said[:2] == [f"{SUITE} -k rooms", "test has ended"], "the suite's output comes as it is printed"
    others = [line for step in CI_STEPS[:2] for line in (step, f"{step.split()[0]} has ended")]
    assert said[2:-1] == others, "what ran beside it comes whole afterwards"
    assert said[-1] == "test has ended", "and the suite's closing line last"
    assert ended.returncode == (7 if failing else 0)
    assert ("ended with 7" in ended.stdout) is (failing in CI_STEPS[:2])


@continuous_integration
@pytest.mark.parametrize(("number", "at_a_terminal"), [("SIGINT", True), ("SIGINT", False), ("SIGTERM", False)])
def test_ctrl_c_ends_every_step_of_continuous_integration(
    steps: Path, monkeypatch: pytest.MonkeyPatch, number: str, at_a_terminal: bool
) -> None:
    monkeypatch.setenv("NAP", "30")
    with subprocess.Popen([steps], stdout=subprocess.PIPE, text=True, start_new_session=True) as process:
        assert process.stdout is not None
        first = process.stdout.readline()
        begun = steps.parents[1] / "test-postgres has begun"
        while not begun.exists() and process.poll() is None:
            time.sleep(0.05)
        (os.killpg if at_a_terminal else os.kill)(process.pid, getattr(signal, number))
        said = first + process.communicate(timeout=20)[0]
    assert said.splitlines() == [SUITE, "test was told", "test-postgres --install", "test-postgres was told"]
    assert process.returncode == 130
