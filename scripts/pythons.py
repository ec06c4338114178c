"""Which of the Pythons that are promised this machine has, in PATH or in the version folders of a version manager."""

import glob
import os
import re
import shutil
import subprocess
import sys

PROMISED = ("3.11", "3.12", "3.13", "3.14")
PATIENCE_S = 20
# Only one that can make an environment is of use, and only a final release is promised.
ASK = "import sys, venv, ensurepip, sqlite3; print(*sys.version_info[:4])"


def running() -> str:
    """The version of this Python, as `3.11`."""
    return f"{sys.version_info[0]}.{sys.version_info[1]}"


def found(version: str) -> str | None:
    """The path of a Python of that version that works; None if there is none here."""
    return next((path for path in _candidates(version) if _works(path, version)), None)


def _candidates(version: str) -> list[str]:
    in_path = shutil.which(f"python{version}")
    root = os.environ.get("PYENV_ROOT") or os.path.join(os.path.expanduser("~"), ".pyenv")
    kept = glob.glob(os.path.join(root, "versions", f"{version}.*", "bin", f"python{version}"))
    newest = sorted(kept, key=lambda path: [int(part) for part in re.findall(r"\d+", path)], reverse=True)
    return [*newest, *([in_path] if in_path else [])]


def _works(path: str, version: str) -> bool:
    try:
        said = subprocess.run([path, "-I", "-c", ASK], capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return said.returncode == 0 and said.stdout.split()[:2] == version.split(".") and "final" in said.stdout
