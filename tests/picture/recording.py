"""Drawings as they were once looked at. QUIZZER_ACCEPT=1 records anew."""

import os
from pathlib import Path

PICTURES = Path(__file__).parent.parent / "golden" / "pictures"


def as_recorded(kind: str, text: str) -> None:
    """Fail where the drawing of a kind is another than the recorded one."""
    path = PICTURES / f"{kind}.svg"
    if os.environ.get("QUIZZER_ACCEPT"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert path.read_text(encoding="utf-8") == text
