"""Groups and the tables that people come in."""
