"""A text as a square code that a camera reads."""

from __future__ import annotations

import io


def code_svg(text: str) -> str:
    """The code as a drawing, without a margin: what prints it leaves white around it."""
    import segno  # here: only what prints a sheet needs it

    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(out, kind="svg", border=0, xmldecl=False, svgns=True)
    return out.getvalue().decode()
