"""When a worked solution is shown, opened line by line, opened at one line, or handed over with a mistake in it.

The rule: help early and let it fade, open the line that went wrong, never help who is right and sure, give a mistake to
find only after a success. What is asked with help is a drill: the whole question alone grades the schedule.

Evidence: examples help beginners and hold skilled learners back (Tetzlaff and others 2025, d +.51 and -.43); a step is
learnt that was left open (Renkl, Atkinson and Grosse 2004); in electrical circuits feedback after each step did better
than after the whole (Moreno, Reisslein and Ozogul 2009); predicting each step is remembered better a week later, at
more than twice the time (van den Broek and others 2025); mistakes to find help a week later, once there is some skill
(McLaren, Adams and Mayer 2015). The numbers are a choice of ours; no publication gives them.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Final, Literal

from quizzer.schedule.memory import Memory
from quizzer.values import NamedTuple

Level = Literal["line by line", "open line", "open lines", "whole", "wrong line", "wrong line or none"]
FINDING_LEVELS: Final = frozenset[Level]({"wrong line", "wrong line or none"})


class Fading(NamedTuple):
    """The numbers of the rule.

    After `lapse_days` without it, a miss begins line by line again. A mistake to find is given when the whole was right
    for the time of its repetition in `mistakes_at`; to those with more than `unmarked_from` of the whole sums right
    nobody says whether there is one. At the first meeting a right answer that took more than `too_long` times as long
    as usual is graded as any, and helped as a guess is. `most_levels` are asked of one sum in a session. Where minutes
    are to be kept that is for one sum in `helped_in` questions; for the others it is `most_short`, an open line in
    place of all lines, because what is predicted line by line takes more than twice the time (`scripts/simulate
    fading`). After a right answer help within minutes is as seldom, and with an exam ahead all of it.
    """

    lapse_days: int = 30
    mistakes_at: tuple[int, ...] = (2, 3)
    unmarked_from: float = 0.70
    too_long: float = 1.5
    most_levels: int = 3
    most_short: int = 1
    helped_in: int = 30


FADING: Final = Fading()


class Tried(NamedTuple):
    """A whole question that was answered on a day: the memory before it, whether right, whether more than guessed.

    `share` of the whole questions of this sum were right so far, this one among them; this one took `times` as long as
    it usually does.
    """

    before: Memory | None
    today: date
    right: bool
    sure: bool
    share: float = 0.0
    times: float = 1.0


def first_level(rule: Fading, tried: Tried, *, mistake_shown: bool, short: bool = False) -> Level | None:
    """Where help begins after a whole question; None where there is none to give.

    `mistake_shown` says that a mistake in this sum was given to be found before, `short` that there is time
    for one open line alone.
    """
    before = tried.before
    slow = before is None and tried.times > rule.too_long
    if tried.right and tried.sure and not slow:
        due = before is not None and before.repetition + 1 in rule.mistakes_at
        finding: Level = "wrong line or none" if tried.share > rule.unmarked_from else "wrong line"
        return finding if due and not mistake_shown else None
    if not tried.right and not short and (before is None or (tried.today - before.last).days > rule.lapse_days):
        return "line by line"
    return "open line"


def next_level(level: Level, right: bool, *, first_meeting: bool) -> Level | None:
    """What follows an answer with help: up after a right one, down after a wrong one.

    On the day of the first meeting the sum ends with the whole question; at a review the whole one comes tomorrow. A
    mistake to find is followed by a fresh whole one, so that what is remembered last is right.
    """
    match level:
        case "line by line":
            return "open lines" if right else "open line"
        case "open line" if not right:
            return "line by line"
        case "open lines" if not right:
            return "open line"
        case "open line" | "open lines":
            return "whole" if first_meeting else None
        case "whole":
            return None if right else "open line"
        case "wrong line" | "wrong line or none":
            return "whole"


def line_to_open(errors: Mapping[int, int], failed: int | None, before: int | None, lines: int) -> int:
    """Which of so many lines is left open, from 1: the one that failed just now, else the one with most `errors`.

    The first one where nothing is known; never the same twice running (`before`) where there is another.
    """
    if failed is not None and failed != before:
        return failed
    others = [line for line in range(1, lines + 1) if line != before] or [1]
    return max(others, key=lambda line: (errors.get(line, 0), -line))
