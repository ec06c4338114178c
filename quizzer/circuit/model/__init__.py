"""A wired circuit drawn by dice, and the faults it can have."""
