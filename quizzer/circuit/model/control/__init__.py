"""Starters of motors: what is wired in their control and power circuits, and how contactors and the motor stand."""
