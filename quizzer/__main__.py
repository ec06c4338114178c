"""`python -m quizzer` is the command `quizzer`."""

from quizzer.cli import main

main()
