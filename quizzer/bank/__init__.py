"""Bank text to frozen entries: templates, cards, tables and cautions, with a line for every complaint."""
