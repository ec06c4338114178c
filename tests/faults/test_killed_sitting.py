"""A sitting killed at any moment: every answer that was acknowledged is there, and it goes on with the time used."""

import os
import re
import subprocess
import sys
import time
from pathlib import Path
from random import Random

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import to_json
from quizzer.store import open_store
from tests.exam import bank_of_cards, paper_of

KILLS = 15
KEPT = 60  # the most answers that are waited for before a kill: by count, for a busy machine keeps few in a moment
CARDS = 60
CHECKOUT = Path(__file__).parent.parent.parent
ACKNOWLEDGED = re.compile(r"^Kept: [A-D]\.$", re.MULTILINE)
READ = {"encoding": "utf-8", "errors": "replace"}


def killed_sitting(folder: Path, run: int, dice: Random) -> dict[int, str]:
    """Go on with the sitting, kill it, and say which answers it had acknowledged."""
    shown, typed = folder / "shown.txt", folder / "typed.txt"
    steps = [(dice.randrange(CARDS), "ABCD"[dice.randrange(4)]) for _ in range(4000)]
    typed.write_text("\n" + "".join(f"{at + 1}\n{letter}\n" for at, letter in steps))
    command = [
        sys.executable,
        "-m",
        "quizzer",
        "sit",
        str(folder / "paper.json"),
        "--form",
        "A",
        "--bank",
        str(folder / "bank"),
        "--store",
        str(folder / "s.db"),
    ]
    with shown.open("wb") as out, typed.open("rb") as lines:
        child = subprocess.Popen(command, stdin=lines, stdout=out, stderr=out, cwd=CHECKOUT, env={**os.environ})
        if run % 5:
            wanted = dice.random() * KEPT
            while len(ACKNOWLEDGED.findall(shown.read_text(**READ))) < wanted and child.poll() is None:
                time.sleep(0.005)
            time.sleep(1.1 if run == 1 else dice.random() * 0.02)  # once long enough that a second is counted
        else:
            time.sleep(dice.random() * 0.8)
        child.kill()
        child.wait()
    text = shown.read_text(**READ)
    assert "Traceback" not in text
    said = len(ACKNOWLEDGED.findall(text))
    return dict(steps[:said])


def test_kills_lose_no_acknowledged_answer_and_no_time(tmp_path):
    bank_of_cards(tmp_path / "bank", CARDS)
    paper = paper_of(Shelf(tmp_path / "bank"), cards=CARDS)._replace(minutes=600)
    (tmp_path / "paper.json").write_text(to_json(paper), encoding="utf-8")
    dice, expected, seconds, turns = Random("kills of a sitting"), ["-"] * CARDS, 0, 0
    for run in range(KILLS):
        for at, letter in killed_sitting(tmp_path, run, dice).items():
            expected[at] = letter
        with open_store(str(tmp_path / "s.db")) as store:
            assert store.check() == ()
            sittings = store.papers.sittings(paper.id)
        if not sittings:
            continue
        (kept,) = sittings
        # One more answer may be kept, whose word had not reached the screen when the process died.
        assert sum(one != other for one, other in zip(kept.answers, expected, strict=True)) <= 1, run
        assert kept.seconds >= seconds
        expected, seconds, turns = list(kept.answers), kept.seconds, kept.turn
    assert turns > 20 * KILLS  # the kills did meet sittings at work
    assert seconds > 0
