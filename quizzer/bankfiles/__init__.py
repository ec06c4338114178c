"""Where bank files lie, and opening them: the only room that does."""
