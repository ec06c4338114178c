"""A diagnosis that is played: what can be done, what stops it, the repair and its retest."""
