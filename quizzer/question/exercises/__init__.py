"""What else can be asked of a working: a line left open, the next line, a wrong line, the first line, the size."""
