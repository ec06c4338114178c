"""`quizzer web`: the page in a browser of this computer."""

from __future__ import annotations

import errno
import hashlib
import os
import socket
import sys
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import NamedTuple

from quizzer.cli.opening import Banks, open_world, store_url
from quizzer.cli.screen import tell
from quizzer.errors import Refused, UsageError
from quizzer.workflows.study.person import who

HOST = "127.0.0.1"
PORT = 8417  # always the same: what a browser keeps belongs to an address with its port
_QUEUE = 64
_GREETING_SECONDS = 2.0


class WebOptions(NamedTuple):
    """The options of the command."""

    trainee: str | None
    port: int
    no_open: bool
    bank: Banks
    store: str | None
    now: str | None
    seed: int | None


def web(wishes: WebOptions) -> None:
    """Serve the page to this computer until Ctrl-C."""
    if not 1 <= wishes.port <= 65535:
        raise UsageError(f"--port {wishes.port} is no port", mend="give a number from 1 to 65535, such as 8417")
    with open_world(wishes.bank, wishes.store, wishes.now, wishes.seed) as world, _listening(wishes.port) as listener:
        # Opened here, not above: --help and every other command do without a server.
        from quizzer.web.assets import Assets
        from quizzer.web.serving import serve
        from quizzer.web.session import Sessions
        from quizzer.web.visit import WebSite

        trainee = who(world, wishes.trainee)
        sessions = Sessions(trainee.id, wishes.port, world.now, _who_is_in(wishes.store, wishes.port))
        sessions.only({one.id for one in world.store.trainees()})
        site = WebSite(world, f"http://{HOST}:{wishes.port}", sessions, Assets())
        _say_where(f"{site.address}/enter?key={sessions.key()}", open_it=not wishes.no_open)
        serve(site, listener)
    tell("Stopped. Every answer that arrived is kept.")


def _who_is_in(store: str | None, port: int) -> Path | None:
    """The file that keeps who is in: beside the store, or for one on a server in the user's own folder."""
    from quizzer.store.place import default_url, file_of, read_url, shown

    url = read_url(store_url(store))
    if file := file_of(url):
        return file.with_name(f"{file.name}.signed-in-{port}.json")
    if url.kind == "sqlite":
        return None  # a store in memory ends with the program, and whoever was in with it
    name = hashlib.sha256(shown(url).encode()).hexdigest()[:16]
    return Path(default_url()).with_name(f"{name}.signed-in-{port}.json")


def _listening(port: int) -> socket.socket:
    """The port, taken before anybody is told of it. Raises Refused."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name != "nt":  # there it would let two programs have one port
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((HOST, port))
        listener.listen(_QUEUE)
    except OSError as error:
        listener.close()
        raise _refused(port, error) from None
    return listener


def _refused(port: int, error: OSError) -> Refused:
    if error.errno == errno.EADDRINUSE and _is_quizzer(port):
        return Refused(
            f"`quizzer web` runs already, at http://{HOST}:{port}",
            mend="use that one, or stop it with Ctrl-C where it was started, or start this one with another --port",
        )
    if error.errno == errno.EADDRINUSE:
        return Refused(f"port {port} is used by another program", mend="name another: `quizzer web --port 8418`")
    return Refused(f"port {port} cannot be opened ({error.strerror})", mend="name another: `quizzer web --port 8418`")


def _is_quizzer(port: int) -> bool:
    """Whether what has the port says that it is this program."""
    asking = HTTPConnection(HOST, port, timeout=_GREETING_SECONDS)
    try:
        asking.request("GET", "/hello")
        return asking.getresponse().read(20) == b"quizzer"
    except (OSError, HTTPException):
        return False
    finally:
        asking.close()


def _say_where(link: str, *, open_it: bool) -> None:
    opened = open_it and _opened(link)
    tell("Studying in a browser of this computer, until Ctrl-C. This link lets one browser in, once:")
    sys.stdout.write(f"{link}\n")  # in one line, to be copied or clicked
    sys.stdout.flush()
    if open_it and not opened:
        tell("No browser was found to open it with: open the link yourself.")


def _opened(link: str) -> bool:
    """Whether a browser with a window took the link: one of the terminal would take the terminal."""
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return False
    import webbrowser  # only who wants one needs it

    return webbrowser.open(link)
