"""Run an attack in a process of its own, forked from one that has opened every module, and judge how it ended."""

import contextlib
import gc
import io
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from typing import NamedTuple

from attacking.cases import Case, lay_out

SECONDS, MEGABYTES = 5.0, 400
BARE = 0.5  # seconds of a bare start on a machine for which the limit above is meant
LIMIT_S = 30.0  # for a process that waits for something, of the machine's clock
MISTAKES = ("Traceback (most recent call last)", "this is a bug in quizzer")
FINE = {0, 1, 2, 3, 69, 74, 130, 141}


class Ended(NamedTuple):
    """How a command ended: its code (minus a signal), seconds of work, megabytes of its own, and what it printed."""

    code: int
    seconds: float
    megabytes: float
    printed: str


def failure(case: Case, slow: float = 1.0) -> str:
    """What is wrong with how the program takes the case; empty if nothing is. `slow` stretches the time allowed."""
    folder = tempfile.mkdtemp(prefix="quizzer-attack-")
    try:
        lay_out(case, folder)
        for number, args in enumerate((case.args, *case.then)):
            ended = run(case._replace(args=args, kill=0 if number else case.kill), folder, slow)
            if why := judged(ended, slow, killed=not number and case.kill > 0):
                return f"{' '.join(args)}: {why}"
            if number and ended.code not in (0, 1):
                return f"{' '.join(args)}: exit code {ended.code} after a kill\n{ended.printed[-1500:]}"
    finally:
        os.chmod(folder, 0o700)
        shutil.rmtree(folder, ignore_errors=True)
    return ""


def judged(ended: Ended, slow: float, *, killed: bool = False) -> str:
    """What is wrong with an end."""
    if any(mistake in ended.printed for mistake in MISTAKES):
        return f"a traceback\n{ended.printed[-1500:]}"
    if ended.seconds > SECONDS * slow:
        return f"{ended.seconds:.1f} s of work, {SECONDS * slow:.1f} are allowed"
    if ended.megabytes > MEGABYTES:
        return f"{ended.megabytes:.0f} MB"
    if killed and ended.code == -signal.SIGKILL:
        return ""
    return "" if ended.code in FINE else f"exit code {ended.code}\n{ended.printed[-1500:]}"


def run(case: Case, folder: str, slow: float = 1.0) -> Ended:
    """Run the case's command in the folder."""
    printed = os.path.join(tempfile.gettempdir(), f"quizzer-attack-{os.getpid()}.txt")
    sys.stdout.flush()
    before = _megabytes()
    child = os.fork()
    if child == 0:
        _be(case, folder, printed)
    deadline = time.monotonic() + (case.kill or LIMIT_S * slow)
    status = usage = None
    while status is None:
        pid, found, usage = os.wait4(child, os.WNOHANG)
        if pid:
            status = found
        elif time.monotonic() > deadline:
            os.kill(child, signal.SIGKILL)
            _, status, usage = os.wait4(child, 0)
        else:
            time.sleep(0.002)
    with open(printed, encoding="utf-8", errors="replace") as file:
        said = file.read(200_000)
    code = os.waitstatus_to_exitcode(status)
    return Ended(code, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024 - before, said)


def _megabytes() -> float:
    """What this process holds, which a forked one is counted for from its first moment; 0 where no file tells."""
    if not os.path.exists("/proc/self/statm"):
        return 0.0
    with open("/proc/self/statm", encoding="ascii") as sizes:
        return int(sizes.read().split()[1]) * resource.getpagesize() / 2**20


def _be(case: Case, folder: str, printed: str) -> None:
    """Turn this process into the command, with its output in a file."""
    code = 70
    try:
        os.chdir(folder)
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
        os.environ |= {"HOME": folder, "XDG_DATA_HOME": folder, **case.around}
        error = os.open(printed, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
        os.dup2(error, 2)
        _give_output(case, error)
        encoding = case.around.get("PYTHONIOENCODING", "utf-8")
        sys.stdin = io.StringIO(case.typed)
        sys.stderr = io.TextIOWrapper(os.fdopen(2, "wb", closefd=False), encoding="utf-8", errors="backslashreplace")
        if sys.stdout is not None:
            sys.stdout = io.TextIOWrapper(os.fdopen(1, "wb", closefd=False), encoding=encoding, write_through=True)
        gc.enable()
        from quizzer.cli import main

        main(list(case.args))
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 0 if ended.code is None else 1
    except BaseException:  # noqa: BLE001 - it is printed, and judged as any traceback is
        import traceback

        traceback.print_exc()
    finally:
        for stream in (sys.stdout, sys.stderr):
            with contextlib.suppress(Exception):  # a full disk or a closed pipe was the program's to tell
                stream.flush()
        os._exit(code)


def _give_output(case: Case, error: int) -> None:
    """Point standard output where the case wants it: the same file, a full disk, a pipe nobody reads, nowhere."""
    where = case.around.get("ATTACK_OUTPUT", "")
    if where == "full":
        os.dup2(os.open("/dev/full", os.O_WRONLY), 1)
    elif where == "unread":
        reader, writer = os.pipe()
        os.close(reader)
        os.dup2(writer, 1)
    elif where == "closed":
        os.close(1)
        sys.stdout = None
    else:
        os.dup2(error, 1)
    if where == "readonly" and os.getuid() == 0:
        os.chmod(".", 0o555)  # noqa: S103 - a folder that may only be read is what is tried
        os.setuid(65534)
