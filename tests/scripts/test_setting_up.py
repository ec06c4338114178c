"""An environment is made once, whole or not at all, whatever stops it; here with steps that fetch nothing."""

import errno
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from environment import CHECKOUT, PYTHON, Environment, python_in
from guards import locked
from setting_up import Step, packages_in, prepare
from trouble import BUG, MENDABLE, Trouble, trouble_of_output

PINS = "alpha==1.0\nbeta==2.0 ; sys_platform == 'win32'\n"


@pytest.fixture
def place(tmp_path: Path) -> Environment:
    (tmp_path / "scripts" / "requirements").mkdir(parents=True)
    (tmp_path / "scripts" / "requirements" / "run.txt").write_text(PINS, encoding="utf-8")
    return Environment(str(tmp_path), "run")


def python_step(_place: Environment, side: str) -> None:
    """Stands in for making an interpreter."""
    path = Path(python_in(side))
    path.parent.mkdir(parents=True)
    path.touch(mode=0o755)


def package_step(_place: Environment, side: str) -> None:
    """Stands in for pip."""
    (Path(side) / "package.py").write_text("", encoding="utf-8")


def raising(error: BaseException) -> Step:
    def step(_place: Environment, _side: str) -> None:
        raise error

    return step


def names_in(place: Environment) -> set[str]:
    return {path.name for path in Path(place.home).iterdir()}


STEPS = (python_step, package_step)
WHOLE = {"lock", f"run-{PYTHON}"}


def test_a_finished_environment_is_ready_and_leaves_nothing_beside_it(place: Environment) -> None:
    assert not place.ready()
    assert prepare(place, STEPS) == 0
    assert place.ready()
    assert names_in(place) == WHOLE
    assert (Path(place.folder) / "package.py").exists()


def test_a_ready_environment_is_left_alone(place: Environment) -> None:
    prepare(place, STEPS)
    assert prepare(place, (raising(AssertionError("made again")),)) == 0


def test_another_list_of_packages_makes_it_anew(place: Environment) -> None:
    prepare(place, STEPS)
    (Path(place.folder) / "left-from-before").touch()
    Path(place.requirements).write_text(PINS + "gamma==3.0\n", encoding="utf-8")
    assert not place.ready()
    assert prepare(place, STEPS) == 0
    assert place.ready()
    assert not (Path(place.folder) / "left-from-before").exists()
    assert names_in(place) == WHOLE


def test_an_environment_whose_python_is_gone_is_made_anew(place: Environment) -> None:
    prepare(place, STEPS)
    Path(python_in(place.folder)).unlink()
    assert not place.ready()
    assert prepare(place, STEPS) == 0
    assert place.ready()


def test_the_environment_of_another_python_is_another_folder(
    place: Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    prepare(place, STEPS)
    monkeypatch.setattr("environment.PYTHON", "cpython-399-linux")
    other = Environment(place.checkout, "run")
    assert not other.ready()
    assert place.folder != other.folder


@pytest.mark.parametrize(
    ("error", "code", "words"),
    [
        (KeyboardInterrupt(), 130, "give the same command again"),
        (Trouble("the sky fell", "hold it up"), MENDABLE, "To mend it: hold it up."),
        (OSError(errno.ENOSPC, "No space left on device"), MENDABLE, "the disk is full"),
        (OSError(errno.EACCES, "Permission denied", "/x"), MENDABLE, "may not be written to (/x)"),
        (OSError(errno.EIO, "Input/output error"), BUG, "the system said: Input/output error"),
    ],
)
def test_a_step_that_is_stopped_says_so_and_the_next_run_succeeds(
    place: Environment, capsys: pytest.CaptureFixture[str], error: BaseException, code: int, words: str
) -> None:
    assert prepare(place, (python_step, raising(error))) == code
    said = capsys.readouterr()
    assert words in said.err
    assert said.out == "", "standard output belongs to the program"
    assert names_in(place) == {"lock"}
    assert prepare(place, STEPS) == 0
    assert place.ready()


def test_a_stop_while_the_old_one_is_moved_away_loses_nothing_but_time(
    place: Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    prepare(place, STEPS)
    Path(place.requirements).write_text("alpha==1.1\n", encoding="utf-8")

    def rename_then_stop(source: str, target: str) -> None:
        Path(source).rename(target)
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr("setting_up.patiently_rename", rename_then_stop)
        assert prepare(place, STEPS) == 130
    assert not place.ready()
    assert prepare(place, STEPS) == 0
    assert names_in(place) == WHOLE


def test_a_checkout_that_cannot_be_written_to_is_told_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / ".environment").write_text("a file where the folder should be", encoding="utf-8")
    place = Environment(str(tmp_path), "run")
    assert not place.ready()
    assert prepare(place, STEPS) == BUG
    assert "quizzer could not be set up" in capsys.readouterr().err


# Two lines of many: without a network pip also says that it found no such version, which is not the reason.
OFFLINE_PIP = """\
WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(': Failed to establish a new
connection: [Errno -3] Temporary failure in name resolution')': /simple/alpha/
ERROR: No matching distribution found for alpha==1.0
"""


@pytest.mark.parametrize(
    ("output", "code", "words"),
    [
        (
            "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device",
            2,
            "disk is full",
        ),
        (
            OFFLINE_PIP,
            2,
            "index cannot be reached",
        ),
        ("ERROR: No matching distribution found for alpha==1.0", 2, "no build for this Python"),
        ("The virtual environment was not created because ensurepip is not available.", 2, "venv module"),
        ("PermissionError: [Errno 13] Permission denied: '/x'", 2, "may not be written to"),
        ("something\nit broke in a new way\n\n", 70, "last words were: it broke in a new way"),
        ("", 70, "it said nothing"),
    ],
)
def test_what_a_failed_step_printed_becomes_one_sentence_and_its_mend(output: str, code: int, words: str) -> None:
    trouble = trouble_of_output(output, "folder/setting-up.log")
    assert words in str(trouble)
    assert "To mend it: " in str(trouble)
    assert "folder/setting-up.log" in str(trouble)
    assert trouble.code == code


def test_a_real_command_that_fails_is_told_and_kept_in_the_log(
    place: Environment, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("setting_up.sys.executable", sys.executable)
    monkeypatch.setattr("setting_up.PIP", ("-c", "print('No space left on device'); raise SystemExit(1)"))

    def borrowed_python(_place: Environment, side: str) -> None:
        path = Path(python_in(side))
        path.parent.mkdir(parents=True)
        path.symlink_to(sys.executable)

    from setting_up import install

    assert prepare(place, (borrowed_python, install)) == MENDABLE
    assert "the disk is full" in capsys.readouterr().err
    assert (Path(place.home) / "setting-up.log").read_text(encoding="utf-8").startswith("No space left")


def test_packages_are_counted_without_comments(place: Environment) -> None:
    Path(place.requirements).write_text("# made with x==1\n" + PINS, encoding="utf-8")
    assert packages_in(place) == 2


# ---- several processes -------------------------------------------------------------------------------------

DRIVER = """
import pathlib, sys, time
sys.path.insert(0, sys.argv[1])
from environment import Environment, python_in
from setting_up import prepare
place = Environment(sys.argv[2], "run")
def slow(place, side):
    path = pathlib.Path(python_in(side))
    path.parent.mkdir(parents=True)
    path.touch(mode=0o755)
    with open(sys.argv[2] + "/builds", "a") as log:
        log.write("made\\n")
    time.sleep(float(sys.argv[3]))
sys.exit(prepare(place, (slow,)))
"""


def starting(place: Environment, seconds: float) -> subprocess.Popen[str]:
    """A process that makes the environment, and takes `seconds` over it."""
    command = [sys.executable, "-c", DRIVER, f"{CHECKOUT}/scripts", place.checkout, str(seconds)]
    return subprocess.Popen(command, stderr=subprocess.PIPE, text=True)


def wait_until_making(place: Environment) -> None:
    deadline = time.monotonic() + 20
    while not (Path(place.checkout) / "builds").exists():
        assert time.monotonic() < deadline, "the process never began"
        time.sleep(0.01)


def test_first_runs_at_the_same_time_make_it_once(place: Environment) -> None:
    processes = [starting(place, 0.3) for _ in range(3)]
    ends = [process.communicate(timeout=30)[1] for process in processes]
    assert [process.returncode for process in processes] == [0, 0, 0]
    assert (Path(place.checkout) / "builds").read_text(encoding="utf-8") == "made\n"
    assert sum("First use here" in end for end in ends) == 1
    assert place.ready()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_stopped_process_cleans_up(place: Environment, number: signal.Signals) -> None:
    with starting(place, 30) as process:
        wait_until_making(place)
        process.send_signal(number)
        _, said = process.communicate(timeout=20)
    assert process.returncode == 130
    assert "Stopped. Nothing is left half made" in said
    assert names_in(place) == {"lock"}


def test_a_killed_process_leaves_nothing_that_the_next_one_trips_over(place: Environment) -> None:
    with starting(place, 30) as process:
        wait_until_making(place)
        process.kill()
    assert any(name.startswith("making-") for name in names_in(place)), "the test should leave something"
    assert prepare(place, STEPS) == 0
    assert names_in(place) == WHOLE
    assert place.ready()


def test_whoever_comes_second_says_that_it_waits(place: Environment) -> None:
    with locked(place.home):
        process = starting(place, 0)
        assert process.stderr is not None
        assert "waiting for it to finish" in process.stderr.readline()
    process.communicate(timeout=20)
    assert process.returncode == 0
    assert place.ready()
