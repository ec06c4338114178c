"""A package that is missing or broken, and how its environment is made whole again."""

from __future__ import annotations

import sys
from pathlib import Path

PRIVATE = ".environment"  # of a checkout: made by its own script


def broken(error: ImportError | SyntaxError) -> tuple[str, str] | None:
    """What is broken and how to mend it; None where the fault is in this program itself."""
    if isinstance(error, SyntaxError):
        package = _package_of(error.filename or "")
    else:
        package = (error.name or _package_of(error.path or "")).partition(".")[0]
    if not package or package == "quizzer":
        return None
    return f"the package {package} is missing from its environment, or broken", _mend(Path(sys.prefix))


def _package_of(file: str) -> str:
    """The package of a file among the installed ones; "" for any other."""
    parts = Path(file).parts
    at = parts.index("site-packages") + 1 if "site-packages" in parts else len(parts)
    return parts[at].partition(".")[0] if at < len(parts) else ""


def _mend(prefix: Path) -> str:
    if prefix.parent.name == PRIVATE:
        return f"delete the folder {prefix}: the next start makes it again"
    return "install quizzer again with all that it needs"
