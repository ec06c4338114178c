"""Running a program in a private environment, which is made first if need be.

Read at every start of quizzer: making an environment, which needs much more, is in `setting_up`, opened only when
there is something to make.
"""

import os
import sys

from environment import CHECKOUT, STOPPED, Environment, call_of

CHECKS = (("ruff", "check", "."), ("mypy", "--strict", "quizzer"))


def start(arguments: list[str]) -> int:
    """The exit code of quizzer run with `arguments`, set up first if need be; most systems never return."""
    place = Environment(CHECKOUT, "run")
    return made_ready(place) or replaced_by(place, ["quizzer", *arguments])


def test(arguments: list[str]) -> int:
    """Run every check, then pytest with `arguments`; the exit code is 0 only if all of them were content.

    pytest runs whatever the checks found, and last, so that its closing line ends the output.
    """
    place = Environment(CHECKOUT, "test")
    if code := made_ready(place):
        return code
    os.chdir(CHECKOUT)
    checks = CHECKS
    if arguments[:1] == ["--no-checks"]:  # another Python would find nothing else
        checks, arguments = (), arguments[1:]
    try:
        unhappy = [check[0] for check in checks if called(place, list(check))]
    except KeyboardInterrupt:
        return STOPPED
    sys.stderr.write(f"{' and '.join(unhappy)} found faults: see above\n" if unhappy else "")
    sys.stderr.flush()
    return followed(place, ["pytest", *arguments]) or (1 if unhappy else 0)


def made_ready(place: Environment) -> int:
    """0 once `place` can be used, or the exit code of the reason why not, which has been told."""
    if place.ready():
        return 0
    import setting_up  # here, not above: it costs every start 30 ms

    return setting_up.prepare(place)


def replaced_by(place: Environment, module: list[str]) -> int:
    """Turn this process into `python -m MODULE...`; where the system cannot, the child's exit code."""
    if os.name != "nt":  # there, exec lets the shell go on before the program has ended
        sys.stdout.flush()
        sys.stderr.flush()
        command, variables = call_of(place, module)
        os.execve(command[0], command, variables)
    return followed(place, module)


def called(place: Environment, module: list[str]) -> int:
    """The exit code of `python -m MODULE...`, a child that ends with this process at Ctrl-C."""
    import subprocess  # here, not above: the usual start needs no child

    command, variables = call_of(place, module)
    return subprocess.call(command, env=variables)


def followed(place: Environment, module: list[str]) -> int:
    """The exit code of `python -m MODULE...`, a child that gets Ctrl-C itself and decides what it means.

    A handler that does nothing, and not a caught KeyboardInterrupt, which can come between the child's end and
    the reading of its exit code, and lose the code. Nor an ignored signal: the child would inherit that.
    """
    import signal  # here, not above: the usual start follows nobody

    before = signal.signal(signal.SIGINT, lambda _number, _frame: None)
    try:
        return called(place, module)
    finally:
        signal.signal(signal.SIGINT, before)
