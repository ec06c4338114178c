"""A page on a terminal: lines of text, few emphases, and words alone for screen readers."""
