"""`quizzer bank`: check bank files, start a new one."""

from __future__ import annotations

import gc
import sys
from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.words import count, percent
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, named_banks, open_shelf
from quizzer.cli.screen import look_of, progress, put, put_json, put_page
from quizzer.errors import UsageError
from quizzer.lint.half_right import WANTED
from quizzer.lint.starts import KINDS, start
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.bank.checking import Findings, check


def bank_check(paths: list[Path], as_object: bool, banks: Banks) -> int:
    """Print every finding; 1 when there are any, else 0.

    A warning counts too: it is mended, or accepted in its entry with a reason, and so the shipped bank has none.
    """
    gc.enable()  # a check of a large bank makes and drops many trees
    findings = check(_shelf(paths, banks), paths, _progress)
    if as_object:
        put_json(_as_json(findings))
    else:
        _print(findings)
    return FINDINGS if findings.issues else FINE


def bank_count(paths: list[Path], seeds: int, banks: Banks) -> int:
    """Print how many different questions each diagnose entry gives, made and compared one by one, and their times."""
    from time import process_time  # a second person at work on this machine does not count

    from quizzer.workflows.bank.counting import counted, percentile

    page, different = Canvas(look_of(sys.stdout)), 0
    seconds: list[float] = []
    for each in counted(_shelf(paths, banks), seeds, process_time):
        seconds += each.seconds
        different += each.different
        page.text(f"{each.different:6} of {each.made}  {each.id}", hang=2)
    if seconds:
        p99 = percentile(seconds, 0.99) * 1000
        page.text(
            f"{different} different questions about circuits, counted one by one. 99 in 100 were made within "
            f"{p99:.0f} ms, the slowest within {max(seconds) * 1000:.0f} ms.",
            style="bold",
        )
    put(page)
    return FINE


def bank_cues(paths: list[Path], as_object: bool, banks: Banks) -> int:
    """Print what somebody wins who sees the options alone; 1 when a goal is not met or an entry is flagged, else 0."""
    from quizzer.pages.cues import FLAG, cues_page
    from quizzer.workflows.bank.guessing import BEST_RULE, MODEL_GOAL, cue_figures

    found = cue_figures(_shelf(paths, banks), paths, _progress)
    if as_object:
        kinds = {"all": found.all, **found.by_kind}
        put_json(
            {
                "questions": found.questions,
                "entries": found.all[0].entries,
                "goals": {"best_rule": BEST_RULE, "model": MODEL_GOAL},
                "best_rule": found.best_rule._asdict(),
                "model": found.model._asdict(),
                "rules": {kind: [one._asdict() for one in each] for kind, each in kinds.items()},
                "flagged": [{"code": FLAG, "entry": one.id, "rules": list(one.rules)} for one in found.told],
            }
        )
    else:
        put_page(cues_page(found), plain=False)
    return FINE if found.met else FINDINGS


def new(kind: str) -> None:
    """Print a starting file. Raises UsageError for a kind that there is not."""
    if kind not in KINDS:
        raise UsageError(f"no starting file {kind!r}", mend=f"name one of {', '.join(KINDS)}")
    sys.stdout.write(start(kind))


def _shelf(paths: list[Path], banks: Banks) -> Shelf:
    if not paths or named_banks(banks):
        return open_shelf(banks)
    # A path outside the shipped bank belongs to the bank folder around or in it: the one that holds topics.toml.
    for path in paths:
        for folder in (path.resolve(), path.resolve() / "banks", *path.resolve().parents):
            if (folder / "topics.toml").is_file():
                return Shelf(folder)
    first = paths[0].resolve()
    return Shelf(first if first.is_dir() else first.parent)


def _progress(done: int, files: int) -> None:
    progress("checking file", done, files)


def _as_json(findings: Findings) -> dict[str, object]:
    return {
        "entries": findings.entries,
        "issues": [
            {
                "code": each.code,
                "path": each.place.path,
                "line": each.place.line,
                "key": each.key,
                "what": each.what,
                "mend": each.mend,
                "warning": each.warning,
            }
            for each in findings.issues
        ],
        "over_cautious": findings.over_cautious and findings.over_cautious._asdict(),
    }


def _print(findings: Findings) -> None:
    page = Canvas(look_of(sys.stdout))
    for each in findings.issues:
        kind = "warning " if each.warning else ""
        page.lines.append(f"{each.place}: {kind}{each.code} {each.key}: {each.what}")
        page.text(f"mend: {each.mend}", indent=4)
    errors = sum(not each.warning for each in findings.issues)
    warnings = len(findings.issues) - errors
    page.text(f"{count(findings.entries, 'entry', 'entries')}, {count(errors, 'error')}, {count(warnings, 'warning')}.")
    if found := findings.over_cautious:
        of = f"{found.holding} of {count(found.entries, 'safety-critical entry', 'safety-critical entries')}"
        wanted = f"{percent(found.share)}; {percent(WANTED)} are wanted"
        page.text(f"An over-cautious wrong option stands in {of} with options ({wanted}).")
    if findings.issues:
        page.text(f"`quizzer explain {findings.issues[0].code}` explains a code.")
    put(page)
