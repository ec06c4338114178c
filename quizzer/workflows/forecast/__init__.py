"""What is weak, the mark to expect, the plan, and what was done so far."""
