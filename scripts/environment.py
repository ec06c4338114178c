"""Where a checkout keeps its private Python environments, whether one is ready, and the command that runs in it.

Read at every start of quizzer, so nothing is imported here but what the interpreter has loaded already.
"""

import os
import sys

CHECKOUT = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))

# One environment for each Python that is used, so that two of them, or two systems that share a folder, do
# not keep rebuilding each other's. abiflags tells a free-threaded build apart.
PYTHON = f"{sys.implementation.cache_tag}{getattr(sys, 'abiflags', '')}-{sys.platform}"

STOPPED = 130


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


def call_of(place: Environment, module: list[str]) -> tuple[list[str], dict[str, str]]:
    """The command line and the variables that run a module in `place`, with this checkout as its only path.

    -P keeps the folder one happens to stand in off the path: a stray random.py there must not be imported.
    """
    variables = {**os.environ, "PYTHONPATH": place.checkout}
    variables.pop("PYTHONHOME", None)
    if module[0] == "quizzer":  # the tests are not told: a screen names the command alike wherever they run
        variables["QUIZZER_STARTED_AS"] = started_as()
    return [python_in(place.folder), "-P", "-m", *module], variables


def started_as() -> str:
    """What was typed to start this script: its name where the path knows it, else where it is."""
    folder, name = os.path.split(sys.argv[0])
    return name if folder in os.environ.get("PATH", "").split(os.pathsep) else sys.argv[0]
