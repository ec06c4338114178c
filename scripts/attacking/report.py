"""The attack itself: cases of every kind from a seed until the time is up, failures kept, counts printed."""

import argparse
import importlib
import os
import pkgutil
import subprocess
import sys
import time
from collections import Counter
from random import Random

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.realpath(__file__))))

from attacking.cases import keep
from attacking.running import BARE, failure
from attacking.samples import CHECKOUT, KINDS, sound

CORPUS = CHECKOUT / "tests" / "attack" / "corpus"


def main() -> int:
    """0 if nothing fell, else 1."""
    wish = _wish()
    slow = slowness()
    _open_everything()
    files = sound()
    deadline = time.monotonic() + wish.minutes * 60
    tried: Counter[str] = Counter()
    fell: Counter[str] = Counter()
    number = 0
    while time.monotonic() < deadline:
        case = KINDS[number % len(KINDS)](files, Random(f"{wish.seed}#{number}"))
        number += 1
        tried[case.kind] += 1
        if why := failure(case, slow):
            fell[case.kind] += 1
            print(f"{keep(case, why.splitlines()[0], str(CORPUS))}\n   {why}", flush=True)
    print(f"Seed {wish.seed}, {wish.minutes:g} minutes; a start takes {slow:.1f} times what the limits are meant for.")
    for kind, count in sorted(tried.items()):
        print(f"{kind:10} {count:6} tried {fell[kind]:4} fell")
    print(f"{'all':10} {sum(tried.values()):6} tried {sum(fell.values()):4} fell")
    return 1 if fell else 0


def slowness() -> float:
    """How many times longer a bare start takes here than on the machine the limits are meant for, 1 or more."""
    began = time.monotonic()
    subprocess.run([sys.executable, "-P", "-m", "quizzer", "--help"], stdout=subprocess.DEVNULL, check=True)
    return max(1.0, (time.monotonic() - began) / BARE)


def _open_everything() -> None:
    """Open every module once, so that each fork has what commands open late."""
    import quizzer

    for module in pkgutil.walk_packages(quizzer.__path__, "quizzer."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


def _wish() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="scripts/attack", description=__doc__)
    parser.add_argument("--minutes", type=float, default=1.0)
    parser.add_argument("--seed", default="1")
    return parser.parse_args()


if __name__ == "__main__":
    sys.exit(main())
