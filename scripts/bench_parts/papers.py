"""Papers: forms of a pool of 1,500 against chance and a greedy choice, and marking and reporting 200 scripts."""

from __future__ import annotations

import csv
import json
import sqlite3
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from math import fsum
from pathlib import Path
from random import Random
from statistics import mean

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.paper.assembly import assemble
from quizzer.paper.curves import chances, gap
from quizzer.paper.pool import Candidate
from quizzer.paper.reading_load import EVEN, uneven
from quizzer.render.typst.measuring import heights
from quizzer.workflows.papers.kept_questions import kept_question, kept_questions
from quizzer.workflows.papers.papers import Order, make_paper
from scripts.bench_parts.processes import python, run
from scripts.bench_parts.promise import Promise, Stopped, seconds

POOL, FORMS, CLOSE, CHANCES = 1_500, 4, 0.05, 200
SEEDS = (1, 2, 3)
PRINTED = ("wiring-regulations", "testing-and-faults")
ASSEMBLY, MARKED, REPORTED = 4.0, 6.0, 6.0
SCRIPTS, ALONE = 200, "times a start and sqlite3 alone with the same rows"
QUOTAS = (8, 7, 6, 6, 5, 5, 5, 4, 4, 4, 3, 3)


def measure() -> Iterator[Promise]:
    """How even the forms are and how long that takes, also as printed; marking; a report."""
    yield from _assembly()
    yield from _printed()
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        yield from _marking(Path(folder))


def pool() -> list[Candidate]:
    """An invented pool: twelve topics, three levels, difficulties drawn."""
    dice = Random(7)
    return [
        Candidate(
            f"topic-{at % 12}/file/entry-{at}",
            dice.choice(("recall", "apply", "analyse")),
            dice.random() < 0.3,
            False,
            0.35 + 0.55 * dice.random(),
            False,
            frozenset({f"word-{at}"}),
            frozenset(),
            (),
        )
        for at in range(POOL)
    ]


def _assembly() -> Iterator[Promise]:
    """Spread in marks of ours, beside that of a greedy choice and of chance (mean of 200). The optimum is 0."""
    candidates = pool()
    sections = tuple(
        SectionPlan(f"s{at}", f"Section {at}", (f"topic-{at}",), questions, {}, (0, questions), False, False)
        for at, questions in enumerate(QUOTAS)
    )
    plan = Blueprint("bench", "Bench", 120, 36, (), sections)
    reading = [one._replace(load=words, lines=lines) for one, (words, lines) in zip(candidates, _loads(), strict=True)]
    begun = time.perf_counter()
    found = [assemble(plan, reading, frozenset(), FORMS, Random(seed).random) for seed in SEEDS]
    middle = time.perf_counter()
    dice = Random(2)
    chance = mean(_spread(_chance(candidates, dice)) for _ in range(CHANCES))
    ended = time.perf_counter()
    beside = f"of a mark apart (the optimum is 0; greedy {_spread(_greedy(candidates)):.2f}, chance {chance:.2f})"
    name = f"{FORMS} forms of {sum(QUOTAS)} from {POOL:,}"
    yield Promise(f"{name}, the worst of {len(SEEDS)} seeds", max(one.gap for one in found), beside, CLOSE)
    words, lines = (
        max(uneven([sum(each(reading[at.candidate]) for at in form) for form in one.forms]) for one in found)
        for each in (lambda one: one.load, lambda one: one.lines)
    )
    yield Promise(f"{name}, words and lines", max(words, lines), "of the mean apart", EVEN)
    dealt = f"times dealing and weighing {CHANCES} sets by chance"
    yield Promise(f"{name}, the time", (middle - begun) / len(SEEDS) / (ended - middle), dealt, ASSEMBLY)


def _loads() -> list[tuple[float, float]]:
    """Words and lines of the pool: most questions are short, a few have a picture or a record sheet."""
    dice = Random(11)
    return [(15 + 60 * dice.random() ** 2, 6 + 16 * dice.random() ** 4) for _ in range(POOL)]


def _printed() -> Iterator[Promise]:
    """Forms of the shipped bank as Typst lays them out: how far apart they are in height, cover and foot left out."""
    shelf, today = Shelf(shipped()), date(2026, 12, 1)
    for name in PRINTED:
        order = Order(FORMS, 0, 1, "", signed_only=False)
        paper = make_paper(shelf, blueprint(shelf, name), order, today, {}, ()).paper
        kept = kept_questions(paper)
        high = []
        for form in paper.forms:
            asked = [each for item in form.items if (each := kept_question(paper, kept, item))]
            measured = heights(paper, form, asked, "standard")
            high.append(fsum(map(fsum, (*measured.questions, measured.heads))))
        yield Promise(f"{FORMS} printed forms of {name}, lines", uneven(high), "of the mean apart", EVEN)


def _by_topic(candidates: list[Candidate]) -> list[list[Candidate]]:
    return [[one for one in candidates if one.id.startswith(f"topic-{at}/")] for at in range(len(QUOTAS))]


def _chance(candidates: list[Candidate], dice: Random) -> list[list[Candidate]]:
    forms: list[list[Candidate]] = [[] for _ in range(FORMS)]
    for topic, questions in zip(_by_topic(candidates), QUOTAS, strict=True):
        drawn = dice.sample(topic, questions * FORMS)
        for at, one in enumerate(drawn):
            forms[at % FORMS].append(one)
    return forms


def _greedy(candidates: list[Candidate]) -> list[list[Candidate]]:
    """The hardest that is left always goes to the form that is easiest so far."""
    forms: list[list[Candidate]] = [[] for _ in range(FORMS)]
    for topic, questions in zip(_by_topic(candidates), QUOTAS, strict=True):
        room = dict.fromkeys(range(FORMS), questions)
        for one in sorted(topic[: questions * FORMS], key=lambda each: each.facility):
            at = max((at for at in room if room[at]), key=lambda at: sum(each.facility for each in forms[at]))
            forms[at].append(one)
            room[at] -= 1
    return forms


def _spread(forms: list[list[Candidate]]) -> float:
    return gap(
        [[sum(column) for column in zip(*(chances(one.facility) for one in form), strict=True)] for form in forms]
    )


def _marking(place: Path) -> Iterator[Promise]:
    """Marking and reporting scripts, as whole commands, beside a start that keeps or reads the same rows alone."""
    store = place / "s.db"
    run("paper", "make", "wiring-regulations", "--forms", "4", "--seed", "1", "--out", "mock", cwd=place, store=store)
    _write_answers(place)
    marking = run("paper", "mark", "mock", "--answers", "answers.csv", "--add", cwd=place, store=store).seconds
    with closing(sqlite3.connect(store)) as bare:
        ((scripts,),) = bare.execute("SELECT count(*) FROM script")
    if scripts != SCRIPTS:
        raise Stopped(f"{scripts} scripts are kept, not {SCRIPTS}")
    start = min(python("-c", "import typer, rich, tomllib, numpy").seconds for _ in range(3))
    kept, read = _by_sqlite_alone(store, place / "bare.db")
    yield Promise(f"marking {SCRIPTS} scripts of 60", marking / (start + kept), ALONE, MARKED)
    reporting = run("paper", "report", "mock", cwd=place, store=store).seconds
    yield Promise(f"the group's report of {SCRIPTS} scripts", reporting / (start + read), ALONE, REPORTED)


def _write_answers(place: Path) -> None:
    record = json.loads((place / "mock" / "paper.json").read_text(encoding="utf-8"))
    with (place / "answers.csv").open("w", encoding="utf-8", newline="") as stream:
        rows = csv.writer(stream)
        rows.writerow(["name", "form", "answers"])
        dice = Random(3)
        for at in range(SCRIPTS):
            form = record["forms"][at % 4]
            answers = "".join(item["key"] if dice.random() < 0.7 else "A" for item in form["items"])
            rows.writerow([f"Person {at}", form["letter"], answers])


def _by_sqlite_alone(store: Path, new: Path) -> tuple[float, float]:
    """Seconds to keep every row of the store in another one, with its tables and indexes, and to read them all."""
    with closing(sqlite3.connect(store)) as old, closing(sqlite3.connect(new, isolation_level=None)) as bare:
        for (text,) in old.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type DESC"):
            bare.execute(text)
        rows = {table: old.execute(f"SELECT * FROM {table}").fetchall() for table in ("review", "memory", "script")}  # noqa: S608
        kept = seconds(lambda: _keep(bare, rows))
        read = seconds(lambda: [bare.execute(f"SELECT * FROM {table}").fetchall() for table in rows])  # noqa: S608
    return kept, read


def _keep(bare: sqlite3.Connection, rows: dict[str, list[tuple[object, ...]]]) -> None:
    bare.execute("BEGIN")
    for table, some in rows.items():
        bare.executemany(f"INSERT INTO {table} VALUES ({', '.join('?' * len(some[0]))})", some)  # noqa: S608
    bare.execute("COMMIT")
