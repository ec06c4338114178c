"""How long a start is felt: whole processes, against showing one question and against opening the libraries alone."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.store import open_store
from scripts.bench_parts.processes import PROGRAM, ended, next_prompt, python, run, started, to_first_prompt, typed
from scripts.bench_parts.promise import Promise, Stopped, against
from scripts.demonstration import WEEKS, Learner

ROUNDS = 15
SHOW, STUDY, OUTLOOK, MEMORY = 1.6, 1.6, 2.5, 1.6
ENTRY = "testing/ring/cross-line-and-protective#5"
ANSWERS = 200
NAME = "Priya (invented)"
SHOWN = "times showing a question"


def measure() -> Iterator[Promise]:
    """Starts of the commands, and the memory of a long session."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        new, old = Path(folder) / "new.db", Path(folder) / "old.db"
        answers = studied(old)
        to_first_prompt("study", store=new)  # makes the store, and the compiled files
        libraries = against(_shown, lambda: python("-c", "import typer, rich, tomllib").seconds, ROUNDS)
        yield Promise("show, a whole process", libraries, "times the libraries alone", SHOW)
        for whose, store in (("somebody new", new), (f"somebody with {answers} answers", old)):
            study = against(lambda store=store: to_first_prompt("study", store=store), _shown, ROUNDS)
            yield Promise(f"study of {whose}, to its first question", study, SHOWN, STUDY)
        for command in (("ready",), ("weak",), ("plan", "--exam", "in 6 weeks")):
            words = (*command, "--trainee", NAME)
            ratio = against(lambda words=words: run(*words, store=old).seconds, _shown, ROUNDS)
            yield Promise(f"{command[0]} of somebody with {answers} answers, a whole process", ratio, SHOWN, OUTLOOK)
        given, megabytes = session(Path(folder) / "long.db", ANSWERS)
        name = f"memory of a session of {given} answers, drills with them"
        yield Promise(name, megabytes / run("show", ENTRY).megabytes, "times that of showing a question", MEMORY)


def studied(store: Path) -> int:
    """Fill a store with what somebody keeps who studied for ten weeks, memories too; how many answers that is."""
    now = datetime.now(UTC)
    with open_store("sqlite://") as fresh:
        person = fresh.add_trainee("studious", NAME, now - timedelta(weeks=2 * WEEKS))
        learner = Learner(fresh, Shelf(shipped()), person.id, Random("ten weeks"))
        for weeks_ago in (WEEKS, 0):
            learner.live(now.date() - timedelta(weeks=weeks_ago))
        return fresh.backup(store).reviews


def session(store: Path, wanted: int) -> tuple[int, float]:
    """Answers given in a session of so many questions, and its megabytes. Raises Stopped when they were not kept."""
    given = 0
    words = (*PROGRAM, "study", "--count", str(wanted), "--new", str(wanted), "--minutes", "1440")
    with started(words, store.parent, store) as process:
        while prompt := next_prompt(process):
            given += prompt.startswith("Enter")
            typed(process, _reply(prompt))
        megabytes = ended(process)
    if process.returncode or given < wanted:
        raise Stopped(f"a session of {given} answers, not {wanted}, with exit code {process.returncode}")
    with closing(sqlite3.connect(store)) as bare:
        ((kept,),) = bare.execute("SELECT count(*) FROM review")
    if kept != given:
        raise Stopped(f"{given} answers were given and {kept} are kept")
    return given, megabytes


def _shown() -> float:
    return run("show", ENTRY).seconds


def _reply(prompt: str) -> str:
    """Something that will do at any prompt of a session."""
    if prompt.startswith("The letters"):
        return "ABCDEFGHIJ"[: ord(prompt[len("The letters A to ")]) - ord("A") + 1]
    return {"Your answer, ": "A", "Your answer a": "5", "How sure?": "1", "Enter": ""}[prompt]
