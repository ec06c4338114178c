"""Papers, reports and packages for other systems: what leaves the program as PDF, CSV or XML."""
