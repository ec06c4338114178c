"""The tables of scripts/simulate: the program itself, session by session, beside the reference rules and the bounds."""

import argparse
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace

import numpy as np

from scripts.simulation import running, sessions
from scripts.simulation.fading import fading_table
from scripts.simulation.frontier import frontier
from scripts.simulation.running import Setting
from scripts.simulation.sessions import GAINS, PLAIN

SEEDS = tuple(range(9000, 9040))  # fresh: nothing was tuned on them
WORLDS, MINUTES = ("exponential", "act-r"), (10, 20, 40)
OTHERS = 45  # who studied the same entries before
WORSE, CASE_WORSE, ONE_WORSE = 0.005, 0.01, 0.06
# The least that is wanted on the exam day, from own answers alone and after others, by world and minutes.
WANTED = {
    ("exponential", 10): (0.28, 0.31),
    ("exponential", 20): (0.56, 0.60),
    ("exponential", 40): (0.975, 0.975),
    ("act-r", 10): (0.23, 0.33),
    ("act-r", 20): (0.47, 0.52),
    ("act-r", 40): (0.79, 0.79),
}
# Of whoever knows the world and how hard each entry is.
BOUND = {
    ("exponential", 10): 0.342,
    ("exponential", 20): 0.625,
    ("exponential", 40): 0.983,
    ("act-r", 10): 0.359,
    ("act-r", 20): 0.570,
    ("act-r", 40): 0.824,
}
CASES = {
    "30 % of the days missed": {"missed": 0.3},
    "people who differ": {"differ": True},
    "slips .1, guesses .25": {"slip": 0.1, "lucky": 0.25},
    "irregular sessions": {"irregular": True},
    "forgets twice as fast": {"pace": 2.0},
    'always "certain"': {"certain": True},
    "others unrelated": {"unrelated": True},
    "joins 10 days before": {"days": 10},
}
PARTS = ("exam", "rules", "cases", "long", "fading")


def main(parts, seeds):
    """Print the tables; 1 if something that is wanted is missed, else 0."""
    print(f"{len(seeds)} fresh learners, 300 entries, 42 days; mean recall of all entries on the exam day\n")
    missed = []
    with Workers() as workers:
        for part in parts:
            missed += TABLES[part](workers, seeds)
    print("missed: " + ("; ".join(missed) or "nothing"))
    return 1 if missed else 0


class Workers:
    """A process for each world, as what others tell of its entries is worked out once in it."""

    def __enter__(self):
        self._pools = {world: ProcessPoolExecutor(1) for world in WORLDS}
        return self

    def __exit__(self, *_):
        for pool in self._pools.values():
            pool.shutdown(cancel_futures=True)

    def each(self, row, settings):
        """What comes of `row(setting)` for each of the settings, in their order, as it comes."""
        waiting = [(setting, self._pools[setting.world].submit(row, setting)) for setting in settings]
        for setting, found in waiting:
            yield setting, found.result()


def rows_of(setting):
    """Recall by learner: plain SM-2, rule s, the program's plain rule, by gain alone, by gain after others."""
    found = [running.run(setting, policy) for policy in ("plain", "rule s")]
    found += [sessions.run(setting, policy) for policy in (PLAIN, GAINS)]
    return [*found, sessions.run(replace(setting, others=OTHERS), GAINS)]


NAMES = ("SM-2", "rule s", "plain", "own", f"+{OTHERS}")


def head(title, names):
    """The heading of a table."""
    print(f"{title:42}{''.join(f'{name:>8}' for name in names)}", flush=True)


def exam_table(workers, seeds):
    """By world and minutes; what is wanted and missed."""
    head("exam day", (*NAMES, "se", "se", "wanted", "", "bound", "by gain", "", "idle"))
    missed = []
    settings = [Setting(world, minutes, seeds) for minutes in MINUTES for world in WORLDS]
    for setting, found in workers.each(rows_of, settings):
        cell = (setting.world, setting.minutes)
        means = [one.exam.mean() for one in found]
        errors = [(one.exam - found[0].exam).std() / len(seeds) ** 0.5 for one in found[3:]]
        shown = [*means, *errors, *WANTED[cell], BOUND[cell], *(one.by_gain for one in found[3:]), found[3].idle]
        print(f"{f'{cell[0]}, {cell[1]} min':42}{''.join(f'{number:8.3f}' for number in shown)}", flush=True)
        least = max(means[0], means[2]) - WORSE
        for name, mean, wanted in zip(("alone", f"after {OTHERS}"), means[3:], WANTED[cell], strict=True):
            if mean < max(least, wanted):
                missed.append(f"{cell[0]} {cell[1]} min {name} {mean:.3f} (wanted {max(least, wanted):.3f})")
    print("plain: the program with its gate shut; own: from own answers alone; +45: after 45 who studied the same")
    print("se: of the two, minus SM-2, paired; by gain: share of sessions; idle: minutes left of a session\n")
    return missed


def rules_of(setting):
    """The program without a paper and without safety-critical entries: plain, own, after others."""
    found = [sessions.run(setting, policy, rules=False) for policy in (PLAIN, GAINS)]
    return [*found, sessions.run(replace(setting, others=OTHERS), GAINS, rules=False)]


def rules_table(workers, seeds):
    """What breadth and safety cost."""
    head("without the rules of breadth and safety", NAMES[2:])
    for setting, found in workers.each(rules_of, [Setting(world, 20, seeds) for world in WORLDS]):
        means = "".join(f"{one.exam.mean():8.3f}" for one in found)
        print(f"{f'{setting.world}, {setting.minutes} min':42}{means}", flush=True)
    print()
    return []


def case_table(workers, seeds):
    """Other learners at 20 minutes; the cells where ours is worse."""
    head("other learners, 20 min", (*NAMES, "se", "se", "worst"))
    missed = []
    settings = {replace(Setting(world, 20, seeds), **case): name for name, case in CASES.items() for world in WORLDS}
    for setting, found in workers.each(rows_of, list(settings)):
        means = [one.exam.mean() for one in found]
        errors = [(one.exam - found[2].exam).std() / len(seeds) ** 0.5 for one in found[3:]]
        worst = min((one.exam - found[0].exam).min() for one in found[3:])
        name = f"{settings[setting]}, {setting.world}"
        print(f"{name:42}{''.join(f'{mean:8.3f}' for mean in (*means, *errors, worst))}", flush=True)
        if min(means[3:]) < means[2] - CASE_WORSE:
            missed.append(f"{name} {min(means[3:]):.3f} (plain {means[2]:.3f})")
        if worst < -ONE_WORSE:
            missed.append(f"{name}: one learner {worst:.3f} below SM-2")
    print("se: of the two, minus the plain rule, paired; worst: the learner who lost most against SM-2\n")
    return missed


def long_of(setting):
    """Recall after 18 months of ten minutes a week: the references and the program."""
    found = [running.run(setting, policy).end for policy in ("plain", "rule s")]
    return [float(np.mean(end)) for end in (*found, sessions.run(setting, PLAIN).end, sessions.run(setting, GAINS).end)]


def long_table(workers, seeds):
    """After 18 months."""
    head("18 months of 10 min a week, after 20 min", NAMES[:4])
    for setting, means in workers.each(long_of, [Setting(world, 20, seeds, long=True) for world in WORLDS]):
        print(f"{setting.world:42}{''.join(f'{mean:8.3f}' for mean in means)}", flush=True)
    print()
    return []


def bound_table():
    """The most of whoever knows the world but not how hard each entry is (up to six reviews an entry)."""
    for world in WORLDS:
        for minutes in MINUTES[:2]:
            print(f"{world}, {minutes} min: nobody who is not told exceeds {frontier(world, minutes):.3f}")
    return 0


TABLES = {
    "exam": exam_table,
    "rules": rules_table,
    "cases": case_table,
    "long": long_table,
    "fading": fading_table,
}

if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="scripts/simulate", description=__doc__)
    parser.add_argument("parts", nargs="*", choices=[*PARTS, []], help="which tables; all when none is named")
    parser.add_argument("--learners", type=int, default=len(SEEDS), help="how many of the fresh learners")
    parser.add_argument("--bound", action="store_true", help="only the bounds of whoever is not told")
    wishes = parser.parse_args()
    if wishes.bound:
        sys.exit(bound_table())
    sys.exit(main(wishes.parts or PARTS, SEEDS[: max(1, min(wishes.learners, len(SEEDS)))]))
