"""The sentences for a set-up that failed: what happened, and what mends it."""

import errno

MENDABLE = 2  # the person can put it right, as with a wrong command line
BUG = 70

FULL = ("the disk is full", "free some space (400 MB is plenty), then give the same command again")
OFFLINE = (
    "the package index cannot be reached",
    "connect to the network (or set the proxy, in HTTPS_PROXY), then give the same command again",
)
FORBIDDEN = (
    "a folder of the checkout may not be written to",
    "close any quizzer that is running, and give yourself the right to write there or use a copy of your own",
)
NO_BUILD = (
    "a pinned package has no build for this Python or this system",
    "use CPython 3.11 to 3.14 on Linux, macOS or Windows",
)
NO_VENV = (
    "this Python came without its venv module",
    "install it (on Debian and Ubuntu: apt install python3-venv), or use the Python from python.org",
)

# Words of pip and of the system, first match wins: a full disk can also show up as a broken download.
WORDS = (
    (("No space left", "Errno 28", "not enough space", "Disk quota exceeded"), FULL),
    (("ensurepip is not available", "No module named ensurepip", "No module named venv"), NO_VENV),
    (
        (
            "Connection",
            "NewConnectionError",
            "Name or service not known",
            "name resolution",
            "getaddrinfo failed",
            "Network is unreachable",
            "timed out",
            "ProxyError",
            "SSLError",
            "CERTIFICATE_VERIFY_FAILED",
        ),
        OFFLINE,
    ),
    (("Permission denied", "Errno 13", "Access is denied", "Read-only file system"), FORBIDDEN),
    (("No matching distribution", "Failed building wheel", "Failed to build"), NO_BUILD),
)

ERRNOS = {
    errno.ENOSPC: FULL,
    errno.EDQUOT: FULL,
    errno.EACCES: FORBIDDEN,
    errno.EPERM: FORBIDDEN,
    errno.EROFS: FORBIDDEN,
}


class Trouble(Exception):
    """Set-up cannot go on: a sentence, its mend, and the exit code."""

    def __init__(self, what: str, mend: str, code: int = MENDABLE) -> None:
        super().__init__(f"quizzer could not be set up: {what}.\nTo mend it: {mend}.")
        self.code = code


def trouble_of_output(output: str, log: str) -> Trouble:
    """What a failed step's `output` means; `log` is the file that keeps all of it."""
    for words, (what, mend) in WORDS:
        if any(word in output for word in words):
            return Trouble(what, f"{mend} (the whole story is in {log})")
    last = next((line for line in reversed(output.splitlines()) if line.strip()), "it said nothing")
    what = f"a step failed, and its last words were: {last.strip()}"
    return Trouble(what, f"send {log} with your report", BUG)


def trouble_of_system(error: OSError) -> Trouble:
    """What the system's refusal means."""
    where = f" ({error.filename})" if error.filename else ""
    if error.errno in ERRNOS:
        what, mend = ERRNOS[error.errno]
        return Trouble(what + where, mend)
    return Trouble(f"the system said: {error.strerror or error}{where}", "give the same command again", BUG)
