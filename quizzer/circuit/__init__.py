"""A wired circuit, a hidden fault, and what instruments read of it."""
