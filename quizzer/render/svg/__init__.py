"""Plots as SVG in black and greys."""
