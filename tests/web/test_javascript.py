"""The page's own modules: small, typed, and without a word of HTML that no policy has seen."""

import re
import shutil
import subprocess
from os import environ
from pathlib import Path

import pytest

import quizzer
from quizzer.web.assets import Assets

MODULES = Path(quizzer.__file__).parent / "web" / "static" / "js"
OURS = sorted(MODULES.glob("*.js"))
PHONE = "phone.js status.js db.js outbox.js packs.js repeats.js reply.js html.js"
PHONE_BYTES = 10_000  # of what a session loads, each file compressed for itself
EVERY_BYTES = 14_600  # with what is seldom read (sum, files, older, dispute), the clock of a paper and the worker
MOST_LINES, MOST_IN_ALL = 190, 700  # of a module; of all that a session loads, with comments


def code_of(path: Path) -> list[str]:
    """The lines of a module that are neither empty nor comment."""
    text = re.sub(r"/\*[\s\S]*?\*/", "", path.read_text(encoding="utf-8"))
    return [line for line in text.splitlines() if line.strip() and not line.strip().startswith("//")]


def test_no_module_is_long():
    sizes = {path.name: len(path.read_text(encoding="utf-8").splitlines()) for path in OURS}
    assert {name: size for name, size in sizes.items() if size > MOST_LINES} == {}
    assert sum(sizes[name] for name in PHONE.split()) <= MOST_IN_ALL
    assert sum(len(code_of(MODULES / name)) for name in (*PHONE.split(), "sw.js")) <= MOST_IN_ALL


def test_what_a_session_loads_is_small():
    assets = Assets()
    packed = {path.name: len(assets.find(assets.version, f"js/{path.name}").packed) for path in OURS}
    assert sum(packed[name] for name in PHONE.split()) <= PHONE_BYTES, packed
    assert sum(packed.values()) <= EVERY_BYTES, packed
    for name in packed:
        sent = assets.find(assets.version, f"js/{name}").plain.decode()
        assert "/*" not in re.sub(r"\[[^\]\n]*\]", "", sent), "comments are not sent"
        assert not re.search(r"^//|[;,{] // ", sent, re.MULTILINE)


def test_the_modules_hold_under_a_type_checker():
    checker = environ.get("TSC") or shutil.which("tsc")
    if checker is None:
        pytest.skip(
            "no TypeScript here, so types are not checked: `npm install --global typescript`, or name tsc in TSC"
        )
    done = subprocess.run(
        [checker, "-p", MODULES / "tsconfig.json"], capture_output=True, encoding="utf-8", check=False
    )
    assert (done.returncode, done.stdout) == (0, "")


@pytest.mark.parametrize(
    "word", ["innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function"]
)
def test_html_is_made_in_one_place_only(word):
    found = [path.name for path in OURS if word in path.read_text(encoding="utf-8")]
    assert found == (["html.js"] if word == "innerHTML" else [])


def test_nothing_is_asked_of_anybody_else():
    for path in OURS:
        assert not re.search(r"https?://(?!www\.w3\.org)", path.read_text(encoding="utf-8")), path.name
