"""What a centre has printed on its papers, as data for the templates."""

from __future__ import annotations

from datetime import date
from typing import Any, Protocol

from quizzer.bank.centres import Centre
from quizzer.errors import Refused
from quizzer.render.typst.typesetting import pdf

_ANY_DAY = date(2000, 1, 1)


class Headed(Protocol):
    """A centre and its logo: `kind` is svg or png, "" without one."""

    @property
    def centre(self) -> Centre:
        """What the centre says."""

    @property
    def logo(self) -> bytes:
        """The logo's file."""

    @property
    def kind(self) -> str:
        """The kind of that file."""


def head_words(head: Headed | None) -> dict[str, Any]:
    """The centre under the key `centre`; nothing without one. Raises Refused for a logo that cannot be drawn."""
    if head is None:
        return {}
    words = {"centre": head.centre._asdict() | {"logo": list(head.logo), "kind": head.kind}}
    if head.logo:
        from typst import TypstError  # here: only what prints needs it

        try:
            pdf("letterhead", words, _ANY_DAY)
        except TypstError as error:
            what = f"the logo {head.centre.logo!r} cannot be drawn ({str(error).splitlines()[0]:.120})"
            raise Refused(what, mend="save it as a plain SVG with its words as paths, or as a PNG") from None
    return words
