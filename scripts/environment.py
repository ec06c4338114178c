"""Where a checkout keeps its private Python environments, whether one is ready, and how a program runs in it.

Read at every start of quizzer, so nothing is imported here but what the interpreter has loaded already:
making an environment, which needs much more, is in `setting_up`, opened only when there is something to make.
"""

import os
import sys

CHECKOUT = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))

# One environment for each Python that is used, so that two of them, or two systems that share a folder, do
# not keep rebuilding each other's. abiflags tells a free-threaded build apart.
PYTHON = f"{sys.implementation.cache_tag}{getattr(sys, 'abiflags', '')}-{sys.platform}"

STOPPED = 130
CHECKS = (("ruff", "check", "."), ("mypy", "--strict", "quizzer"))


class Environment:
    """One private environment: where it is, and what must be in it. `kind` is "run" or "test"."""

    def __init__(self, checkout: str, kind: str) -> None:
        self.checkout = checkout
        self.kind = kind
        self.home = os.path.join(checkout, ".environment")
        self.folder = os.path.join(self.home, f"{kind}-{PYTHON}")
        self.requirements = os.path.join(checkout, "scripts", "requirements", f"{kind}.txt")

    def stamp(self) -> str:
        """What a finished environment says it was made from: the Python and the whole list of packages.

        The text itself and not a digest of it: that is exact, and quicker than loading a digest library.
        """
        with open(self.requirements, encoding="utf-8") as listing:
            return f"{PYTHON}\n{listing.read()}"

    def ready(self) -> bool:
        """True if the environment is whole and made from today's list of packages."""
        try:
            with open(stamp_in(self.folder), encoding="utf-8") as file:
                return file.read() == self.stamp() and os.access(python_in(self.folder), os.X_OK)
        except OSError:  # not there, or not to be read: setting up will tell which
            return False


def stamp_in(folder: str) -> str:
    """The path of the stamp, the last file written into an environment."""
    return os.path.join(folder, "made-from.txt")


def python_in(folder: str) -> str:
    """The path of an environment's interpreter."""
    inside = ("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")
    return os.path.join(folder, *inside)


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


def call_of(place: Environment, module: list[str]) -> tuple[list[str], dict[str, str]]:
    """The command line and the variables that run a module in `place`, with this checkout as its only path.

    -P keeps the folder one happens to stand in off the path: a stray random.py there must not be imported.
    """
    variables = {**os.environ, "PYTHONPATH": place.checkout, "QUIZZER_STARTED_AS": started_as()}
    variables.pop("PYTHONHOME", None)
    return [python_in(place.folder), "-P", "-m", *module], variables


def started_as() -> str:
    """What was typed to start this script: its name where the path knows it, else where it is."""
    folder, name = os.path.split(sys.argv[0])
    return name if folder in os.environ.get("PATH", "").split(os.pathsep) else sys.argv[0]
