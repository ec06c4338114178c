"""A whole installation drawn by dice: its circuits, board, bonds and supply, and what can be wrong with it."""
