"""Papers: forms of a pool of 1,500 against chance and a greedy choice, and marking and reporting 200 scripts."""

from __future__ import annotations

import csv
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random
from statistics import mean

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.paper.assembly import assemble
from quizzer.paper.curves import chances, gap
from quizzer.paper.pool import Candidate

POOL, FORMS, CLOSE, SECONDS, MARKED = 1_500, 4, 0.05, 5.0, 2.0
QUOTAS = (8, 7, 6, 6, 5, 5, 5, 4, 4, 4, 3, 3)
CHECKOUT = Path(__file__).resolve().parent.parent.parent


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


def assembly() -> tuple[float, float, float, float]:
    """Spread in marks of ours, of a greedy choice and of chance (mean of 200), and our seconds. The optimum is 0."""
    candidates = pool()
    sections = tuple(
        SectionPlan(f"s{at}", f"Section {at}", (f"topic-{at}",), questions, {}, (0, questions), False, False)
        for at, questions in enumerate(QUOTAS)
    )
    start = time.perf_counter()
    found = assemble(
        Blueprint("bench", "Bench", 120, 36, (), sections), candidates, frozenset(), FORMS, Random(1).random
    )
    seconds = time.perf_counter() - start
    dice = Random(2)
    return (
        found.gap,
        _spread(_greedy(candidates)),
        mean(_spread(_chance(candidates, dice)) for _ in range(200)),
        seconds,
    )


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


def marking() -> list[tuple[str, float, float]]:
    """Seconds of marking and of reporting 200 scripts of 60, as whole commands."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        place = Path(folder)
        _run(place, "paper", "make", "wiring-regulations", "--forms", "4", "--seed", "1", "--out", "mock")
        record = json.loads((place / "mock" / "paper.json").read_text(encoding="utf-8"))
        with (place / "answers.csv").open("w", encoding="utf-8", newline="") as stream:
            rows = csv.writer(stream)
            rows.writerow(["name", "form", "answers"])
            dice = Random(3)
            for at in range(200):
                form = record["forms"][at % 4]
                answers = "".join(item["key"] if dice.random() < 0.7 else "A" for item in form["items"])
                rows.writerow([f"Person {at}", form["letter"], answers])
        return [
            (
                "marking 200 scripts of 60",
                _run(place, "paper", "mark", "mock", "--answers", "answers.csv", "--add"),
                MARKED,
            ),
            ("the group's report of 200 scripts", _run(place, "paper", "report", "mock"), MARKED),
        ]


def _run(place: Path, *words: str) -> float:
    env = {**os.environ, "PYTHONPATH": str(CHECKOUT), "QUIZZER_STORE": str(place / "s.db")}
    start = time.perf_counter()
    command = [sys.executable, "-P", "-m", "quizzer", *words]
    subprocess.run(command, cwd=place, stdout=subprocess.DEVNULL, check=True, env=env)
    return time.perf_counter() - start
