"""`scripts/quizzer web` as a process: its link, its port, a second one, no browser, and its end."""

import socket
import subprocess
import sys

import httpx
import pytest

from tests.web.serving import CHECKOUT, Server, free_port, surroundings

COMMAND = (sys.executable, "-P", "-m", "quizzer", "web")


def asked(*options, **more):
    """What the command says when it does not stay."""
    command, where = [*COMMAND, *options], surroundings(**more)
    done = subprocess.run(command, capture_output=True, text=True, cwd=CHECKOUT, env=where, timeout=60, check=False)
    return done.returncode, done.stdout, " ".join(done.stderr.split())


@pytest.fixture
def server(tmp_path):
    found = Server(tmp_path / "s.db").start()
    yield found
    if found.process:
        found.kill()


def test_it_serves_until_it_is_told_to_stop(server):
    assert httpx.get(f"{server.address}/hello").text == "quizzer"
    assert httpx.get(f"{server.address}/study").status_code == 401
    said = server.stop()
    assert "Stopped. Every answer that arrived is kept." in said
    assert "Traceback" not in said
    assert server.code == 0


def test_a_restart_signs_nobody_out(server):
    with httpx.Client() as browser:
        browser.get(server.link)
        server.kill()
        server.start()
        assert browser.get(f"{server.address}/more").status_code == 200
    assert httpx.get(f"{server.address}/more").status_code == 401


def test_a_second_one_says_where_the_first_is(server, tmp_path):
    code, out, said = asked("--port", str(server.port), "--store", str(tmp_path / "s.db"))
    assert (code, out) == (1, "")
    assert said.startswith(f"quizzer: `quizzer web` runs already, at {server.address}: use that one")


def test_a_port_of_another_program_is_named_with_what_to_do(tmp_path):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        code, _, said = asked("--port", str(port), "--store", str(tmp_path / "s.db"))
    assert code == 1
    assert said == f"quizzer: port {port} is used by another program: name another: `quizzer web --port 8418`."


@pytest.mark.parametrize("port", ["0", "70000", "-1"])
def test_what_is_no_port_is_refused(tmp_path, port):
    code, _, said = asked("--port", port, "--store", str(tmp_path / "s.db"))
    assert code == 2
    assert "is no port: give a number from 1 to 65535" in said


def test_somebody_who_is_not_there_is_refused_before_anything_is_served(tmp_path):
    code, out, said = asked("--trainee", "Nobody", "--port", str(free_port()), "--store", str(tmp_path / "s.db"))
    assert (code, out) == (1, "")
    assert "no trainee 'Nobody'" in said


def test_without_a_screen_the_link_is_left_to_the_person(tmp_path):
    command = [*COMMAND, "--port", str(free_port()), "--store", str(tmp_path / "s.db")]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=CHECKOUT, env=surroundings()
    ) as process:
        lines = []
        while "open the link" not in " ".join(lines):
            lines.append(process.stdout.readline())
            assert lines[-1], lines
        process.kill()
    assert "No browser was found to open it with" in " ".join("".join(lines).split())
    assert sum(line.startswith("http://127.0.0.1:") for line in lines) == 1, "the link stands in one line, to be copied"
