"""An installation being inspected, tested and put on record: what is done, in which order, and what it is worth."""
