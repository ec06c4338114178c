"""The pages of documentation in the order their commands are run, and what is typed at the commands that ask.

Shared by scripts/readme, which writes their output, and the test that holds the pages to it.
"""

# A later page may use what the commands of an earlier one have made.
PAGES = ("README.md", *(f"quizzer/guide/{name}.md" for name in ("trainee", "tutor", "author", "measures")))

TYPED = {
    "scripts/quizzer study": "q\n",
    "scripts/quizzer study --count 1 --topic design/loop --now 2026-11-25T07:00 --seed 7": "1.37\n2\nq\n",
    "scripts/quizzer sit mock --form B --trainee Tomasz": "\nC\nf\nu\nq\n",
}
