"""Parallel forms from a blueprint and a pool of entries, and the record of a paper. Pure."""
