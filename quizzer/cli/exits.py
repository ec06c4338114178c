"""The exit codes of the program."""

FINE = 0
FINDINGS = 1  # findings, or nothing found
USAGE = 2  # the command line does not make sense
STORE = 3  # the store cannot be used
BUG = 70
STOPPED = 130  # by Ctrl-C, as a shell counts it
