"""What every test shares: one hypothesis profile, and surroundings that say nothing about who started the run."""

import os

from hypothesis import settings

# Derandomised, so that a red run is red again; no deadline, because a busy machine is not a fault.
settings.register_profile("house", derandomize=True, deadline=None, database=None)
settings.load_profile("house")

# Screens name the program as a person started it; a test starts it itself.
os.environ.pop("QUIZZER_STARTED_AS", None)
