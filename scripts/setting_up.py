"""Making a private environment: one at a time, in a side folder, renamed when it is whole.

So it can be stopped at any moment, even by a power cut: what was half made has another name, and the next run
throws it away. All that is said goes to standard error; standard output belongs to the program that follows.
"""

import contextlib
import importlib.util
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator

from environment import STOPPED, Environment, python_in, stamp_in
from guards import locked, say, stoppable
from trouble import NO_VENV, Trouble, trouble_of_output, trouble_of_system

# A step makes its part of the environment in the side folder it is given.
Step = Callable[[Environment, str], None]

PAUSE_S = 0.2
PATIENCE_S = 5.0


def prepare(place: Environment, steps: tuple[Step, ...] = ()) -> int:
    """0 once `place` is ready, or the exit code of a failure that has been told.

    `steps` stand in for the real ones in tests.
    """
    try:
        with stoppable(), locked(place.home):
            if not place.ready():
                make(place, steps or (make_python, install))
    except KeyboardInterrupt:
        say("\nStopped. Nothing is left half made: give the same command again to go on.")
        return STOPPED
    except Trouble as trouble:
        return told(trouble)
    except OSError as error:
        return told(trouble_of_system(error))
    return 0


def told(trouble: Trouble) -> int:
    """The exit code of `trouble`, whose sentence has been said."""
    say(str(trouble))
    return trouble.code


def make(place: Environment, steps: tuple[Step, ...]) -> None:
    """Make the environment in a side folder, stamp it, and give it its name. The lock must be held."""
    began = time.monotonic()
    say(opening(place))
    sweep(place)
    side = os.path.join(place.home, f"making-{os.getpid()}")
    stamp = place.stamp()
    try:
        for step in steps:
            step(place, side)
        with open(stamp_in(side), "w", encoding="utf-8", newline="") as file:
            file.write(stamp)
        give_name(side, place)
    finally:
        shutil.rmtree(side, ignore_errors=True)
    say(f"Ready after {time.monotonic() - began:.0f} seconds; from now on this command starts at once.")


def opening(place: Environment) -> str:
    """The first words: what is about to happen, and that it is safe to stop."""
    why = "The list of packages has changed" if os.path.exists(place.folder) else "First use here"
    what = "the program" if place.kind == "run" else "the tests"
    return (
        f"{why}: making a private Python environment for {what} in {place.home}\n"
        "Nothing else on this machine is changed. Ctrl-C stops it safely; the same command starts it again."
    )


def sweep(place: Environment) -> None:
    """Throw away what stopped runs left: with the lock held, no half-made folder can belong to anyone."""
    for name in os.listdir(place.home):
        if name.startswith(("making-", "old-")):
            shutil.rmtree(os.path.join(place.home, name), ignore_errors=True)


def give_name(side: str, place: Environment) -> None:
    """Put the finished side folder in its place, and an older one out of the way."""
    old = os.path.join(place.home, f"old-{os.getpid()}")
    if os.path.exists(place.folder):
        patiently_rename(place.folder, old)
    patiently_rename(side, place.folder)
    shutil.rmtree(old, ignore_errors=True)


def patiently_rename(source: str, target: str) -> None:
    """Rename a folder; on Windows a virus scanner may hold a new file for a moment, so try for a while."""
    deadline = time.monotonic() + PATIENCE_S
    while True:
        try:
            os.rename(source, target)
        except PermissionError:
            if os.name != "nt" or time.monotonic() > deadline:
                raise
            time.sleep(PAUSE_S)
        else:
            return


def make_python(place: Environment, side: str) -> None:
    """Step 1: an interpreter with pip, in the side folder."""
    if not (importlib.util.find_spec("venv") and importlib.util.find_spec("ensurepip")):
        raise Trouble(*NO_VENV)
    say("1 of 3: a private copy of Python (a few seconds)")
    listen([sys.executable, "-I", "-m", "venv", side], place, "w")


def install(place: Environment, side: str) -> None:
    """Steps 2 and 3: fetch the pinned packages, then unpack them, counting aloud."""
    total, count = packages_in(place), 0

    def tell(line: str) -> None:
        nonlocal total, count
        first, second = (*line.split(" "), "")[:2]
        if first == "Ignoring":
            total -= 1  # meant for another system
        elif first in ("Collecting", "Processing"):  # from the index, or from a folder of this machine
            count += 1
            say(f"   {count:2} of {total}  {os.path.basename(second)}")
        elif first == "Installing":
            say("3 of 3: unpacking them (half a minute on a slow disk)")

    say("2 of 3: fetching the packages (a minute or so, by your network)")
    listen([python_in(side), *PIP, "--requirement", place.requirements], place, "a", tell)


PIP = (
    *("-I", "-m", "pip", "install"),
    "--no-deps",  # every package is in the list; one that is not must be missed, not fetched unpinned
    "--no-compile",  # a third of the time, for files mostly never opened; Python compiles the others as it meets them
    "--no-input",
    "--no-warn-script-location",
    "--disable-pip-version-check",
    *("--progress-bar", "off"),
    *("--retries", "2"),
)


def packages_in(place: Environment) -> int:
    """How many packages the requirement file names."""
    with open(place.requirements, encoding="utf-8") as listing:
        return sum(1 for line in listing if "==" in line and not line.startswith("#"))


def unsaid(_line: str) -> None:
    """Nothing: the line is in the log for whoever needs it."""


def listen(command: list[str], place: Environment, mode: str, tell: Callable[[str], None] = unsaid) -> None:
    """Run a command, keep what it prints in the log and hand on each line; Trouble if it fails."""
    path = os.path.join(place.home, "setting-up.log")
    heard: list[str] = []
    with open(path, mode, encoding="utf-8") as log, started(command) as child:
        for line in child.stdout or ():
            log.write(line)
            heard.append(line)
            tell(line.strip())
    if child.returncode:
        raise trouble_of_output("".join(heard), path)


@contextlib.contextmanager
def started(command: list[str]) -> Iterator[subprocess.Popen[str]]:
    """A child with its output in one pipe; if this process must stop, it and all its own children go first.

    It has a process group to itself, so that nothing goes on writing into a folder that is being thrown away.
    """
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        env=plain_variables(),
        process_group=0,
    ) as child:
        try:
            yield child
        except BaseException:
            if sys.platform == "win32":
                child.kill()
            else:
                os.killpg(child.pid, signal.SIGKILL)
            raise


def plain_variables() -> dict[str, str]:
    """The variables for pip: the person's own, without those that would send packages elsewhere."""
    kept = {name: value for name, value in os.environ.items() if name not in ("PIP_TARGET", "PIP_PREFIX")}
    return {**kept, "PIP_USER": "0", "PYTHONIOENCODING": "utf-8"}
