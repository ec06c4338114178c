"""The whole fading of three sums: on a terminal, held to recorded screens, and the same words on paper.

First meeting: missed, then line by line (one line wrong), that line open, and whole; the next day right, a mistake
to find, and a fresh whole sum. QUIZZER_ACCEPT=1 records anew.
"""

import os
from itertools import count
from pathlib import Path

import pytest

from quizzer.blocks.page import Page
from quizzer.pages.question import question_page, solution
from quizzer.question.exercises.making import lines_for
from quizzer.workflows.exercises import neighbours_in, question_of
from quizzer.workflows.study.helping import line_of
from tests.cli.running import ran
from tests.pages.reading import on_terminal, read_back
from tests.shippedbank import SHELF
from tests.sitting import SHARED

GOLDEN = Path(__file__).parent.parent / "golden"
NEAR = neighbours_in(SHELF)
SUMS = {
    "loop": "design/loop/room-left-for-the-circuit",
    "heater": "three-phase/power/star-heater-power",
    "supply": "testing/loop/loop-raised-to-running-temperature",
}
FIRST, SECOND = 1, 51  # the seeds that the two sessions count from
WRONG_LINE = 2


def bank_of(root, id):
    """The shipped bank with this one sum alone."""
    folder, _, name = id.rpartition("/")
    text = (SHARED / f"{folder}.toml").read_text(encoding="utf-8")
    top, *parts = text.split("[[template]]\n")
    (part,) = (each for each in parts if each.split("\n", 1)[0].split('"')[1] == name)
    path = root / f"{folder}.toml"
    path.parent.mkdir(parents=True)
    path.write_text(f"{top}[[template]]\n{part}", encoding="utf-8")
    for each in ("topics.toml", "cautions.toml", "slips.toml", "tables"):
        (root / each).symlink_to(SHARED / each)
    return root


def asked(id):
    """What is asked of the sum on the two days, in order."""
    entry, lines = SHELF.find(id), len(SHELF.find(id).steps)
    seeds = count(FIRST)
    first, of_lines = next(seeds), next(seeds)
    day_one = [
        question_of(NEAR, entry, first),
        *(question_of(NEAR, entry, of_lines, f"next-line:{at}") for at in range(1, lines + 1)),
        question_of(NEAR, entry, next(seeds), f"missing-line:{WRONG_LINE}"),
        question_of(NEAR, entry, next(seeds)),
    ]
    missed = day_one[0].option(wrong_of(day_one[0])) if day_one[0].options else None
    own = {WRONG_LINE, line_of(entry, missed.slip if missed else None)}  # where they went wrong themselves
    able = [line for line in sorted(own - {None}) if line - 1 in lines_for(entry, "wrong-line")]
    hidden = f"wrong-line:{able[0]}" if able else "wrong-line"
    day_two = [("", SECOND), (hidden, SECOND + 1), ("", SECOND + 2)]
    return day_one, [question_of(NEAR, entry, seed, exercise) for exercise, seed in day_two]


def wrong_of(question):
    if question.kind == "number":
        return "123456"
    return next(option.label for option in question.options if option.label != question.key)


def typed(questions, missed):
    """What is typed: wrong where the places say so, how sure where the whole is asked, and Enter to go on."""
    lines = []
    for at, question in enumerate(questions):
        lines.append(wrong_of(question) if at in missed else question.key.split(" ")[0])
        lines += ["" if question.exercise else ("3" if at in missed else "1"), *([] if question.exercise else [""])]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("name", SUMS)
def test_the_whole_fading_is_as_recorded(name, tmp_path, monkeypatch):
    bank = bank_of(tmp_path / "banks", SUMS[name])
    one, two = asked(SUMS[name])
    out = ""
    for day, seed, questions, missed in (("25", FIRST, one, {0, WRONG_LINE}), ("26", SECOND, two, set())):
        where = ("--bank", str(bank), "--store", str(tmp_path / "s.db"))
        when = ("--now", f"2026-11-{day}T07:00+00:00", "--seed", str(seed))
        found = ran(monkeypatch, "study", "--count", "1", *where, *when, typed=typed(questions, missed))
        assert found.code == 0, found.err
        assert max(map(len, found.out.split("\n"))) <= 80
        out += found.out
    recorded = GOLDEN / f"fading-{name}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        recorded.write_text(out, encoding="utf-8")
    assert out == recorded.read_text(encoding="utf-8")
    shown = [f"line {at} of {len(one) - 3}" for at in range(1, len(one) - 2)]
    for words in (*shown, "one line open", "once more", "find the mistake"):
        assert words in out
    assert out.count("RIGHT.") == len(one) + len(two) - 2


@pytest.mark.parametrize("name", SUMS)
def test_paper_says_the_same_words(name):
    for question in [each for day in asked(SUMS[name]) for each in day]:
        for page in (question_page(question, "Fading", question.name), Page("Solved", [*solution(question)])):
            assert read_back(page, "paper") == on_terminal(page), question.name
