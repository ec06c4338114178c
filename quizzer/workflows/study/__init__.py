"""A study session: what is asked, in what order, and what it leads to."""
