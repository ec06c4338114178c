"""`pip install .` gives a program that finds its own bank, from any folder.

The wheel is built and installed into an environment of its own. Nothing is
fetched for it: the libraries are those of the environment that runs the tests, made visible by a path file.
"""

import json
import os
import shutil
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check")
BIN = "Scripts" if os.name == "nt" else "bin"


def must(*command: str | Path) -> None:
    """Run a command that has to succeed."""
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    must(*PIP, "wheel", "--no-deps", "--no-index", "--no-build-isolation", "--wheel-dir", folder, CHECKOUT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh environment with the wheel in it."""
    folder = tmp_path_factory.mktemp("installed") / "environment"
    venv.create(folder, with_pip=False, symlinks=os.name != "nt")
    must(*PIP, "--python", folder, "install", "--no-deps", "--no-index", wheel)
    (site,) = folder.glob("Lib/site-packages" if os.name == "nt" else "lib/python*/site-packages")
    paths = sorted({sysconfig.get_path("purelib"), sysconfig.get_path("platlib")})
    (site / "borrowed.pth").write_text("\n".join(paths), encoding="utf-8")
    return folder


def run(environment: Path, cwd: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The installed console script, with no path to the checkout."""
    variables = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    command = [str(environment / BIN / "quizzer"), *arguments]
    return subprocess.run(command, cwd=cwd, env=variables, capture_output=True, encoding="utf-8", check=False)


def files_under(folder: str) -> set[str]:
    """Every file of a folder of the checkout but what Python writes itself."""
    paths = [path for path in (CHECKOUT / folder).rglob("*") if path.is_file()]
    return {path.relative_to(CHECKOUT).as_posix() for path in paths if "__pycache__" not in path.parts}


def test_the_wheel_holds_every_file_of_the_bank_and_the_package(wheel: Path) -> None:
    banks, package = files_under("banks"), files_under("quizzer")
    assert len(banks) > 13
    assert "quizzer/py.typed" in package
    held = {name for name in zipfile.ZipFile(wheel).namelist() if name.startswith("quizzer/")}
    assert held == {f"quizzer/{name}" for name in banks} | package


def test_the_wheel_holds_the_package_and_nothing_beside_it(wheel: Path) -> None:
    tops = {name.partition("/")[0] for name in zipfile.ZipFile(wheel).namelist()}
    assert tops == {"quizzer", "quizzer-0.1.0.dist-info"}


def test_the_installed_program_finds_its_bank_from_another_folder(installed: Path, tmp_path: Path) -> None:
    done = run(installed, tmp_path, "topics", "--json")
    assert done.stderr == ""
    assert done.returncode == 0
    topics = json.loads(done.stdout)
    assert sum(topic["templates"] + topic["cards"] for topic in topics) > 0


def test_an_installation_without_its_bank_would_be_found(installed: Path, tmp_path: Path) -> None:
    bare = tmp_path / "bare"
    shutil.copytree(installed, bare, symlinks=True)
    (banks,) = {path.resolve() for path in bare.glob("[Ll]ib*/**/quizzer/banks")}  # lib64 is lib again
    shutil.rmtree(banks)
    python = bare / BIN / ("python.exe" if os.name == "nt" else "python")
    variables = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [python, "-m", "quizzer", "topics"], cwd=tmp_path, env=variables, capture_output=True, check=False
    )
    assert done.returncode != 0
