"""What every test shares: one hypothesis profile, the same on every machine and in every run."""

from hypothesis import settings

# Derandomised, so that a red run is red again; no deadline, because a busy machine is not a fault.
settings.register_profile("house", derandomize=True, deadline=None, database=None)
settings.load_profile("house")
