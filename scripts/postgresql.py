"""A private PostgreSQL for one run of tests: its own cluster in its own folder, on a socket there and nowhere else."""

import contextlib
import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator

FOLDERS = ("/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/usr/local/pgsql/bin", "/opt/homebrew/opt/postgresql*/bin")
PATIENCE_S = 60
USER = "quizzer"
MISSING = (
    "The programs of a PostgreSQL server (initdb, postgres) are not on this machine.\n"
    "To mend it: install them (on Debian and Ubuntu: apt install postgresql), then give the same command again.\n"
)


def binaries() -> str | None:
    """The folder of the newest server here; None if there is none."""
    folders = [folder for pattern in FOLDERS for folder in glob.glob(pattern) if _whole(folder)]
    newest = sorted(folders, key=lambda folder: [int(part) for part in re.findall(r"\d+", folder)])
    in_path = shutil.which("initdb")
    beside = os.path.dirname(os.path.realpath(in_path)) if in_path else ""
    return newest[-1] if newest else beside if _whole(beside) else None


def install() -> None:
    """Fetch Debian's server, as root; elsewhere, or without a network, nothing comes of it."""
    if hasattr(os, "getuid") and os.getuid() == 0 and shutil.which("apt-get"):
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for command in (["apt-get", "-q", "update"], ["apt-get", "-q", "-y", "install", "postgresql"]):
            subprocess.run(command, env=quiet, stdout=sys.stderr, check=False)


@contextlib.contextmanager
def server(folder: str) -> Iterator[str]:
    """The URL of a new, empty database of a server that is stopped, and its files removed, afterwards.

    `folder` holds the server's programs. The server will not run as root, so root's runs as another user.
    """
    home = tempfile.mkdtemp(prefix="quizzer-pg-", dir="/tmp")
    data = os.path.join(home, "data")
    os.mkdir(data, 0o700)
    user = _somebody(data, home)
    try:
        _run([*user, os.path.join(folder, "initdb"), "-D", data, "-U", USER, "-A", "trust", "-E", "UTF8", "--no-sync"])
        settings = ["-k", home, "-c", "listen_addresses=", "-c", "fsync=off", "-c", "max_connections=50"]
        with open(os.path.join(home, "log"), "wb") as log:
            child = subprocess.Popen(
                [*user, os.path.join(folder, "postgres"), "-D", data, *settings], cwd=home, stdout=log, stderr=log
            )
        try:
            _wait(child, home, os.path.join(folder, "pg_isready"))
            yield f"postgresql://{USER}@/postgres?host={home}"
        finally:
            child.terminate()  # `setpriv` has become the server itself, so this is the server's own number
            child.wait(PATIENCE_S)
    finally:
        shutil.rmtree(home, ignore_errors=True)


def _whole(folder: str) -> bool:
    return bool(folder) and all(os.access(os.path.join(folder, one), os.X_OK) for one in ("initdb", "postgres"))


def _somebody(data: str, home: str) -> list[str]:
    """The words that start a command as an ordinary user; none are needed by one who is that already."""
    if os.getuid() != 0:
        return []
    import pwd

    names = {one.pw_name for one in pwd.getpwall()}
    name = "postgres" if "postgres" in names else "nobody"
    one = pwd.getpwnam(name)
    for path in (home, data):
        os.chown(path, one.pw_uid, one.pw_gid)
    return ["setpriv", f"--reuid={one.pw_uid}", f"--regid={one.pw_gid}", "--clear-groups"]


def _run(command: list[str]) -> None:
    made = subprocess.run(command, cwd="/", stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    if made.returncode:
        raise RuntimeError(made.stdout.decode("utf-8", "replace"))


def _wait(child: subprocess.Popen[bytes], home: str, asks: str) -> None:
    """Return once the server answers. Raises RuntimeError, with what it said, if it ends or never does."""
    deadline = time.monotonic() + PATIENCE_S
    while subprocess.run([asks, "-q", "-h", home], check=False).returncode:
        if child.poll() is not None or time.monotonic() > deadline:
            with open(os.path.join(home, "log"), encoding="utf-8", errors="replace") as log:
                raise RuntimeError(f"the server did not start:\n{log.read()}")
        time.sleep(0.1)
