"""The command line: the only room that prints, and the only place where an error becomes words and an exit code."""

from __future__ import annotations

import gc
import io
import os
import sys
from typing import TYPE_CHECKING

from quizzer.cli.exits import BUG, FINDINGS, FINE, STOPPED, STORE, USAGE
from quizzer.errors import BankError, NotFound, QuizzerError, Refused, StoreError, UsageError

if TYPE_CHECKING:
    from typer.exceptions import TyperException

EXIT: dict[type[QuizzerError], int] = {
    UsageError: USAGE,
    StoreError: STORE,
    NotFound: FINDINGS,
    Refused: FINDINGS,
    BankError: FINDINGS,
}


def main(args: list[str] | None = None) -> None:
    """Run a command and exit with its code: 0 fine, 1 findings or nothing found, 2 usage, 3 store, 70 bug."""
    code = run(sys.argv[1:] if args is None else args)
    try:
        sys.stdout.flush()
    except BrokenPipeError:  # the reader went away with the last lines unread; Python would complain while it ends
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    sys.exit(code)


def run(args: list[str]) -> int:
    """Run a command; its exit code."""
    if sys.stdin is None:  # started with its input closed: nothing will be typed
        sys.stdin = io.StringIO()
    # Opening modules makes many objects and drops none: collecting meanwhile costs a tenth of the start.
    gc.disable()
    from typer.exceptions import TyperException

    from quizzer.cli.app import app_for

    try:
        return int(app_for(args[0] if args else "")(args, prog_name="quizzer", standalone_mode=False) or FINE)
    except QuizzerError as error:
        return _tell(error.message, error.mend, EXIT[type(error)])
    except TyperException as error:
        return _misused(error)
    except BrokenPipeError:
        sys.stderr.close()  # the reader went away; Python would complain about it once more while it ends
        return FINE
    except KeyboardInterrupt:
        return STOPPED
    except Exception:
        return _bug()


def _misused(error: TyperException) -> int:
    from quizzer.cli.misuse import is_help, misuse

    if is_help(error):
        print(error.format_message(), file=sys.stderr)
        return USAGE
    return _tell(*misuse(error), USAGE)


def _tell(what: str, mend: str, code: int) -> int:
    encoding = sys.stderr.encoding or "ascii"
    words = f"quizzer: {what}: {mend}." if not what.endswith("?") else f"quizzer: {what} {mend}."
    print(_wrapped(words).encode(encoding, "replace").decode(encoding), file=sys.stderr)
    return code


def _wrapped(words: str) -> str:
    """The words in lines where a terminal would break them inside a word; one line for a file or a program."""
    if not sys.stderr.isatty():
        return words
    from quizzer.cli.screen import look_of
    from quizzer.render.terminal.canvas import Canvas

    page = Canvas(look_of(sys.stderr))
    page.text(words)
    return str(page)


def _bug() -> int:
    import traceback

    traceback.print_exc()
    return _tell("this is a bug in quizzer", "please send the lines above to whoever looks after it", BUG)
