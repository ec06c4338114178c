"""Fault finding on a circuit that is drawn."""
