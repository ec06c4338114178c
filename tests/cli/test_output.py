"""Output: what cannot be written ends in a sentence and a code, and nothing that steers a terminal is sent."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.characters import STEERING, shown, steering
from quizzer.cli.exits import OUTPUT, PIPE
from quizzer.cli.screen import as_json
from quizzer.render.terminal.canvas import Canvas, Look
from tests.cli.running import ran
from tests.sitting import small_bank

CHECKOUT = Path(__file__).parents[2]
posix = pytest.mark.skipif(os.name != "posix", reason="a shell of POSIX closes and pipes")


@pytest.fixture
def bank(tmp_path):
    return small_bank(tmp_path / "bank")


def shell(words, bank):
    """What a shell's command ends with; `$q` is the program and `$b` a small bank."""
    python = f"{sys.executable} -P -m quizzer"
    env = os.environ | {"q": python, "b": str(bank), "PYTHONPATH": str(CHECKOUT)}
    return subprocess.run(["bash", "-c", words], check=False, env=env, capture_output=True, text=True, timeout=60)


@posix
@pytest.mark.parametrize("command", ["topics --bank $b", "--help", "topics --json --bank $b"])
@pytest.mark.parametrize(
    ("into", "why"),
    [(">&-", "it is closed"), (">/dev/full", "No space left"), (">&- 2>&-", ""), (">/dev/full 2>&1", "")],
)
def test_output_that_cannot_be_written_is_told_in_one_sentence(command, into, why, bank):
    found = shell(f"$q {command} {into}", bank)
    assert found.returncode == OUTPUT
    assert "Traceback" not in found.stderr
    assert why in found.stderr
    assert len(found.stderr.splitlines()) == bool(why)


@posix
@pytest.mark.parametrize("command", ["topics --bank $b", "--help"])
def test_a_reader_that_goes_away_ends_the_command_without_a_word(command, bank):
    found = shell(f"(sleep 1; $q {command}) | true; exit ${{PIPESTATUS[0]}}", bank)
    assert (found.returncode, found.stderr) == (PIPE, "")


@posix
def test_a_refusal_keeps_its_code_when_nobody_can_be_told(bank):
    assert shell("$q nonsense 2>&-", bank).returncode == 2
    assert shell("$q nonsense 2>/dev/full", bank).returncode == 2


@posix
@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-16", "punycode"])
def test_any_encoding_is_written_in(encoding, bank):
    found = shell(
        f"PYTHONIOENCODING={encoding} $q topics --bank $b | tail -c 1 >/dev/null; exit ${{PIPESTATUS[0]}}", bank
    )
    assert (found.returncode, found.stderr) == (0, "")


@posix
def test_an_encoding_that_takes_no_text_is_told(bank):
    assert shell("PYTHONIOENCODING=idna $q topics --bank $b", bank).returncode == OUTPUT


@posix
def test_input_that_is_closed_ends_a_session_as_its_end_does(bank, tmp_path):
    found = shell(f"$q study --bank $b --store {tmp_path}/s.db <&-", bank)
    assert (found.returncode, found.stderr) == (0, "")


HOSTILE = "\x1b[31mred\x1b[2J\x07\x9b1A\u202eright\u2066\udcff\x7f\r"


def test_an_argument_is_shown_and_not_sent(monkeypatch, tmp_path):
    for args in (
        ("store", "info", "--store", str(tmp_path / HOSTILE / "x")),
        (HOSTILE,),
        ("show", HOSTILE),
        ("topics", f"--{HOSTILE}"),
        ("explain", HOSTILE),
        ("topics", "--bank", HOSTILE),
        ("study", "--now", HOSTILE),
        ("paper", "print", HOSTILE),
        ("plan", "--days", HOSTILE, "--store", str(tmp_path / "s.db")),
    ):
        found = ran(monkeypatch, *args)
        assert found.code in {1, 2, 3}, found.err
        assert not steering(found.err + found.out), args


@given(st.text(st.characters(codec=None), max_size=60), st.booleans(), st.booleans())
def test_whatever_is_laid_out_steers_nothing_but_its_own_emphases(words, colour, plain):
    look = Look(colour=colour, plain=plain)
    page = Canvas(look)
    page.text(words, style="bold")
    page.heading(words, words)
    page.lines.append(words)
    page.lines.append(page.styled(words, "wrong"))
    sent = str(page)
    for code in ("1", "1;31", "0"):
        sent = sent.replace(f"\x1b[{code}m", "") if colour else sent
    assert not steering(sent)


@given(
    st.recursive(st.text(st.characters(codec=None)), lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner))
)
def test_json_reads_back_as_it_was_and_steers_nothing(value):
    text = as_json(value)
    assert json.loads(text) == value
    assert not steering(text)


@given(st.text(st.characters(codec=None)))
def test_text_without_such_characters_is_left_as_it_is(words):
    assert not steering(shown(words))
    assert shown(STEERING.sub("", words)) == STEERING.sub("", words)
