"""Help that fades, on and off: the program's own sessions over a bank of which every other entry is a sum of lines.

Nothing is presumed of what help teaches: whatever is asked again with help leaves what a plain repeat leaves, and takes
its own time. So this says what help costs, and not what it gains; that is for trials (`quizzer/schedule/fading.py`).
"""

from dataclasses import dataclass, replace
from random import Random

import numpy as np

from quizzer.bankfiles.shelf import Shelf as RealShelf
from quizzer.bankfiles.shelf import shipped
from quizzer.schedule.fading import FADING
from scripts.simulation.running import Setting
from scripts.simulation.sessions import PLAIN, Life

SUM = "design/loop/room-left-for-the-circuit"  # of three lines
LINE_RIGHT = 0.8  # of lines, and of open lines and mistakes to find, are right
WORSE = 0.01  # of recall that help may cost with an exam ahead
OVER = 1.3  # minutes that a session may run over: the question that is open when they end


@dataclass(frozen=True)
class Helped:
    """Mean recall of everything and of the sums alone on the exam day, drills a session, the most minutes over."""

    recall: float
    sums: float
    drills: float
    over: float


class Summing(Life):
    """One learner over such a bank."""

    def __init__(self, setting, fading):
        super().__init__(setting, PLAIN, None, rules=True)
        self.fading, self.lines, self.over = fading, Random(setting.seeds[0]), 0.0
        self.sums = np.arange(setting.entries) % 2 == 1
        template = RealShelf(shipped()).find(SUM)
        self.shelf.put_sums(template, self.sums)

    def good(self, question, known):
        """Whether the answer is right; lines and what else is asked with help by dice of their own."""
        return self.lines.random() < LINE_RIGHT if question.question.exercise else super().good(question, known)

    def ended(self, session, minutes):
        """Remember by how much the minutes were exceeded."""
        self.over = max(self.over, session.minutes() - minutes)


def outcome(setting, fading):
    """What becomes of the learners."""
    found = []
    for seed in setting.seeds:
        life = Summing(replace(setting, seeds=(seed,)), fading)
        life.live()
        recall = life.world.recall(setting.days * life.pace)[0]
        drills = life.at.store.drills / life.sessions
        found.append((recall.mean(), recall[life.sums].mean(), drills, life.over))
    means = np.mean(found, 0)
    return Helped(*(float(each) for each in means[:3]), over=max(each[3] for each in found))


def both(setting):
    """Without help and with it."""
    return outcome(setting, None), outcome(setting, FADING)


def fading_table(workers, seeds):
    """What help costs, by world and minutes; the cells where that is more than is wanted."""
    heads = ("off", "on", "off", "on", "off", "on", "off", "on")
    print(f"{'help with sums':30}{'recall':>16}{'of sums':>16}{'drills':>16}{'min over':>16}")
    print(f"{'':30}{''.join(f'{name:>8}' for name in heads)}", flush=True)
    missed = []
    settings = [Setting(world, minutes, seeds) for minutes in (10, 20) for world in ("exponential", "act-r")]
    for setting, (off, on) in workers.each(both, settings):
        pairs = zip(vars_of(off), vars_of(on), strict=True)
        cells = "".join(f"{was:8.3f}{now:8.3f}" for was, now in pairs)
        name = f"{setting.world}, {setting.minutes} min"
        print(f"{name:30}{cells}", flush=True)
        if on.sums < off.sums - WORSE or on.recall < off.recall - WORSE or on.over > OVER:
            missed.append(f"{name} help {on.sums:.3f} (off {off.sums:.3f}), {on.over:.1f} min over")
    print("drills: repeats, lines and what else is asked with help, a session; min over: the most of all sessions\n")
    return missed


def vars_of(found):
    """The four figures of an outcome."""
    return found.recall, found.sums, found.drills, found.over
