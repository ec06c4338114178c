"""`quizzer web` as a person starts it: a process with a store of its own."""

import os
import signal
import socket
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

CHECKOUT = Path(__file__).parents[2]
_SECONDS = 60.0  # a busy machine may take that long to end


@dataclass
class Server:
    """`quizzer web` as a process, on a port that stays its own over restarts."""

    store: Path
    options: tuple[str, ...] = ()
    port: int = 0
    link: str = ""
    process: subprocess.Popen | None = field(default=None, repr=False)
    code: int | None = None

    @property
    def address(self) -> str:
        """Where its pages are."""
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> "Server":
        """Start it, and wait for its link."""
        self.port = self.port or free_port()
        command = [sys.executable, "-P", "-m", "quizzer", "web", "--port", str(self.port), "--no-open"]
        command += ["--store", str(self.store), *self.options]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=CHECKOUT, env=surroundings()
        )
        said = ""
        while "/enter?key=" not in said:
            line = self.process.stdout.readline()
            assert line, f"the server ended: {said}"
            said += line
        self.link = line.strip()
        return self

    def stop(self) -> str:
        """End it as Ctrl-C does; its last words."""
        return self._end(signal.SIGINT)

    def kill(self) -> None:
        """End it without a word."""
        self._end(signal.SIGKILL)

    def _end(self, how: int) -> str:
        if self.process is None:
            return ""
        self.process.send_signal(how)
        try:
            said = self.process.communicate(timeout=_SECONDS)[0]
        except subprocess.TimeoutExpired:
            self.process.kill()
            raise
        finally:
            self.code, self.process = self.process.poll(), None
        return said


def surroundings(**more: str) -> dict[str, str]:
    """The environment of a process of the checkout, without a screen to open a window on."""
    away = ("DISPLAY", "WAYLAND_DISPLAY")
    kept = {name: value for name, value in os.environ.items() if name not in away}
    return {**kept, "PYTHONPATH": str(CHECKOUT), "PYTHONUNBUFFERED": "1", **more}


def free_port() -> int:
    """A port that nobody uses just now."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]
