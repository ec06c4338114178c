"""What is typed at the commands of the README that ask; shared by scripts/readme and the test that runs them."""

TYPED = {
    "scripts/quizzer study": "q\n",
    "scripts/quizzer study --count 1 --topic design/loop --now 2026-11-25T07:00 --seed 7": "1.37\n2\nq\n",
    "scripts/quizzer sit mock --form B --trainee Tomasz": "\nC\nf\nu\nq\n",
}
