"""What CI looks at once more: a few tests of the browser, alone, and nothing else."""

import re
import subprocess
from pathlib import Path

CI = (Path(__file__).parents[2] / ".ci" / "run").read_text(encoding="utf-8")
BROWSER = "tests/browser/test_keyboard.py::test_paper"
PAGE = "tests/browser/test_every_page.py::test_page[study answered]"


def looked_again(folder: Path, closing: str, code: int = 0) -> tuple[int, list[str]]:
    """The exit code of the second look at a suite that closed with this, and which tests it had again."""
    function = re.search(r"^alone\(\) \{.*?^\}", CI, re.DOTALL | re.MULTILINE)
    assert function
    (folder / "suite").write_text(closing, encoding="utf-8")
    stand_in = folder / "scripts" / "test"
    stand_in.parent.mkdir(exist_ok=True)
    stand_in.write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > had\nexit {code}\n', encoding="utf-8")
    stand_in.chmod(0o755)
    (folder / "had").write_text("", encoding="utf-8")
    called = subprocess.run(
        ["/usr/bin/env", "bash", "-c", f"printed=.\n{function[0]}\nalone"], cwd=folder, capture_output=True, check=False
    )
    return called.returncode, (folder / "had").read_text(encoding="utf-8").splitlines()


def test_few_tests_of_the_browser_are_run_again_and_their_word_counts(tmp_path):
    closing = f"FAILED {PAGE} - TimeoutError: a - b\nCall log:\nERROR {BROWSER} - late\nFAILED {BROWSER} - late\n"
    assert looked_again(tmp_path, closing) == (0, sorted([PAGE, BROWSER]))
    assert looked_again(tmp_path, closing, code=1)[0] == 1


def test_nothing_else_has_a_second_look(tmp_path):
    other = "FAILED tests/recall/test_gain.py::test_order - assert 1 == 2\n"
    many = "".join(f"FAILED {BROWSER}[{number}] - late\n" for number in range(4))
    late = f"FAILED {BROWSER} - late\n"
    uncollected = "ERROR tests/browser/test_keyboard.py - SyntaxError\n"
    stopped = "!!!!!!! stopping after 1 failures !!!!!!!\n"
    crashed = "worker 'gw0' crashed while running it\n"
    for closing in (
        other,
        late + other,
        many,
        uncollected,
        stopped + late,
        crashed + late,
        late + "INTERNALERROR> x\n",
        "Found 2 errors in 1 file\n",
        "",
    ):
        assert looked_again(tmp_path, closing) == (1, [])
