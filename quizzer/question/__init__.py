"""A question from an entry and a seed, and a mark from a question and a reply."""
