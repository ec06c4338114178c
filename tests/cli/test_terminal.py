"""A session at a real terminal: what is typed ahead is kept, and no Enter skips what has to be read."""

import os
import subprocess
import sys

import pytest

from tests.sitting import small_bank

pty = pytest.importorskip("pty", reason="only POSIX has terminals of this kind")


def typed_ahead(keys, *args):
    """What a terminal shows when all the keys are pressed before the program asks."""
    ours, theirs = pty.openpty()
    os.write(ours, keys.encode())
    command = [sys.executable, "-m", "quizzer", *args]
    with subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs) as process:
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
        "A\n1\n\nq\n", "study", "--count", "2", "--topic", "circuits", "--bank", str(bank), "--store", str(store)
    )
    assert "Type 1, 2 or 3" not in shown
    assert "Enter to go on" in shown
    assert "1 question" in shown.split("Session over")[1]
