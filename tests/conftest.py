"""What every test shares: one hypothesis profile, one thread of arithmetic, and nothing said about who started it."""

import gc
import os

from hypothesis import settings

# Derandomised, so that a red run is red again; no deadline, because a busy machine is not a fault.
settings.register_profile("house", derandomize=True, deadline=None, database=None)
settings.load_profile("house")

# Screens name the program as a person started it; a test starts it itself.
os.environ.pop("QUIZZER_STARTED_AS", None)

# Numpy's matrices here are small: a second thread only waits for the first, at five times the processor's time. Read
# when numpy is first imported, and inherited by every program that a test starts.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def pytest_collection_finish() -> None:
    """What is there before the first test stays to the last: rubbish is not looked for in it, and not as often."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 50)
