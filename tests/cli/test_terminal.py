"""A session at a real terminal: what is typed ahead is kept, and no Enter skips what has to be read."""

import os
import re
import subprocess
import sys

import pytest

from tests.sitting import small_bank

termios = pytest.importorskip("termios", reason="only POSIX has terminals of this kind")
pty = pytest.importorskip("pty", reason="only POSIX has terminals of this kind")

FIRST = "\n\n"  # Enter at what the first start asks where the bank plans no paper: when, and how long


def typed_ahead(keys, *args, lines=24):
    """What a terminal of so many lines shows when all the keys are pressed before the program asks."""
    ours, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (lines, 80))
    os.write(ours, keys.encode())
    command = [sys.executable, "-m", "quizzer", *args]
    # pytest's own readline sets these two, and they go before the terminal's size.
    env = {name: value for name, value in os.environ.items() if name not in {"LINES", "COLUMNS"}}
    with subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs, env=env) as process:
        os.close(theirs)
        shown = b""
        try:
            while part := os.read(ours, 4096):
                shown += part
        except OSError:  # Linux says so when the program has ended
            pass
        assert process.wait(timeout=20) == 0
    os.close(ours)
    return shown.decode()


def test_keys_typed_ahead_answer_and_go_on(tmp_path):
    bank, store = small_bank(tmp_path / "bank"), tmp_path / "s.db"
    shown = typed_ahead(
        f"{FIRST}A\n1\n\nq\n",
        "study",
        "--count",
        "2",
        "--topic",
        "circuits",
        "--bank",
        str(bank),
        "--store",
        str(store),
    )
    assert "Type 1, 2 or 3" not in shown
    assert "Enter to go on" in shown
    assert "1 question" in shown.split("Session over")[1]
    assert "help): A\r\n" in shown
    assert "guessing: 1\r\n" in shown
    assert not re.search(r": (RIGHT|WRONG)", shown)


@pytest.mark.parametrize(("lines", "waits"), [(8, True), (60, False)])
def test_no_page_scrolls_its_own_top_away(tmp_path, lines, waits):
    bank, store = small_bank(tmp_path / "bank"), tmp_path / "s.db"
    typed = FIRST + ("\nA1\n\n\n\n\n\nq\n" if waits else "A1\n\nq\n")
    shown = typed_ahead(
        typed,
        "study",
        "--count",
        "1",
        "--topic",
        "circuits",
        "--bank",
        str(bank),
        "--store",
        str(store),
        lines=lines,
    )
    assert ("Enter for the rest" in shown) == waits


def test_a_list_of_faults_takes_a_number_before_its_rest_and_q_leaves_a_page_and_not_the_exercise():
    starter = ("diagnose", "--shape", "star-delta", "--level", "1", "--seed", "2")
    shown = typed_ahead("name\n7\ntests\nq\noperate\nq\nq\n", *starter)
    opening, _, rest = shown.partition("What do you do? ")
    assert len(opening[opening.index("Diagnosis: ") :].splitlines()) <= 23  # with the prompt
    named, _, listed = rest.partition("Named: the start button S1 does not close.")
    assert named.count("A number, or Enter for the rest: 7") == 1
    assert "Which number?" not in named
    assert "Enter for the rest: q" in listed
    assert "Operated: " in listed
    assert "Left before the end." in listed


def test_a_word_typed_at_the_rest_of_a_page_is_kept_for_the_prompt_and_enter_does_not_leave_after_the_verdict():
    starter = ("diagnose", "--shape", "star-delta", "--level", "1", "--seed", "2")
    shown = typed_ahead("tests\noperate\nisolate\ndisconnect\n\nnonsense\nagain\nq\nq\n", *starter)
    assert "Enter for the rest: operate" in shown
    assert "What do you do? operate" in shown
    assert "Operated: " in shown.partition("What do you do? operate")[2]
    assert shown.count("Type again (begin it anew), or q to leave: ") == 3
    assert "It begins anew" in shown.partition("or q to leave: again")[2]
