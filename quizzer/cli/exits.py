"""The exit codes of the program."""

FINE = 0
FINDINGS = 1  # findings, or nothing found
USAGE = 2  # the command line does not make sense
STORE = 3  # the store cannot be used
BROKEN = 69  # a package that the program needs is missing or broken
BUG = 70
OUTPUT = 74  # what was worked out cannot be written: a full disk, a closed output
STOPPED = 130  # by Ctrl-C, as a shell counts it
PIPE = 141  # the reader of the output went away, as `head` does: nothing is said, as a shell counts it
