"""Questions about a wired circuit, its readings and its faults."""
