"""The command line: the only room that prints, and the only place where an error becomes words and an exit code."""

from __future__ import annotations

import gc
import os
import sys
from typing import TYPE_CHECKING

from quizzer.characters import shown
from quizzer.cli.exits import BROKEN, BUG, FINDINGS, FINE, OUTPUT, PIPE, STOPPED, STORE, USAGE
from quizzer.cli.started import ASKED_BY, COMPLETION, as_started, program
from quizzer.cli.streams import Unwritable, complain, drop_the_rest, guarded
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
_LONGEST = 1_000  # characters of a sentence: what was typed may be a whole file
_ELSEWHERE = "make room, or send it elsewhere; what was kept before stays kept"


def main(args: list[str] | None = None) -> None:
    """Run a command and exit with its code: the list is in `exits`."""
    # Values are tuples, which seldom lead round in a circle: looking for circles as often as usual finds none.
    gc.set_threshold(20_000, 20, 50)
    code = run(sys.argv[1:] if args is None else args)
    drop_the_rest()
    # The last collection, as the process ends, would look through all that was opened, and free nothing by it.
    gc.freeze()
    sys.exit(code)


def run(args: list[str]) -> int:
    """Run a command; its exit code."""
    # Opening modules makes many objects and drops none: collecting meanwhile costs a tenth of the start.
    gc.disable()
    # The matrices are small: a second thread costs more time in waiting for the first than it saves.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    with guarded():
        try:
            code = _run(args)
            sys.stdout.flush()
        except Unwritable as error:
            return PIPE if error.gone else _tell(f"standard output cannot be written ({error})", _ELSEWHERE, OUTPUT)
        return code


def _run(args: list[str]) -> int:
    try:
        return _called(args)
    except Unwritable:
        raise
    except QuizzerError as error:
        return _tell(error.message, error.mend, EXIT[type(error)])
    except KeyboardInterrupt:
        return STOPPED
    except (ImportError, SyntaxError) as error:
        from quizzer.cli.environment import broken

        return _tell(*told, BROKEN) if (told := broken(error)) else _bug()
    except Exception:
        return _bug()


def _called(args: list[str]) -> int:
    from typer.exceptions import TyperException

    from quizzer.cli.app import app_for

    # A shell completes by the bare name, and finds a command that was typed with its folder by that too.
    name = "quizzer" if args and args[0] in COMPLETION else program()
    app = app_for(args[0] if args else "")
    try:
        return int(app(args, prog_name=name, complete_var=ASKED_BY, standalone_mode=False) or FINE)
    except TyperException as error:
        return _misused(error)


def _misused(error: TyperException) -> int:
    from quizzer.cli.misuse import is_help, misuse

    if is_help(error):
        complain(f"{error.format_message()}\n")
        return USAGE
    return _tell(*misuse(error), USAGE)


def _tell(what: str, mend: str, code: int) -> int:
    what = what if len(what) <= _LONGEST else f"{what[:_LONGEST]}…"
    words = f"quizzer: {what}{'' if what.endswith('?') else ':'} {mend}{'' if mend.endswith('?') else '.'}"
    complain(f"{_wrapped(shown(as_started(words)))}\n")
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

    complain(shown(traceback.format_exc()))
    return _tell("this is a bug in quizzer", "please send the lines above to whoever looks after it", BUG)
