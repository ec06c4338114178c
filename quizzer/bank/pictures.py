"""The picture of an entry as its author wrote it: a kind, what it is told with {holes}, and what it is for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Literal

from quizzer.bank.bounds import said
from quizzer.bank.fields import Fields
from quizzer.bank.fitting_pictures import FITTING
from quizzer.bank.network_pictures import NETWORK
from quizzer.bank.picture_arguments import Argument
from quizzer.bank.wiring_pictures import WIRING
from quizzer.bank.wording import Wording, wording
from quizzer.values import NamedTuple

KINDS: Mapping[str, Mapping[str, Argument]] = {**NETWORK, **WIRING, **FITTING}
USES = ("shows", "needed")
Use = Literal["shows", "needed"]


class AskedPicture(NamedTuple):
    """A picture: `told` has a wording, or a list of them, by the name of the argument.

    `needed` to answer, or else it shows the text again.
    """

    kind: str
    told: Mapping[str, Wording | tuple[Wording, ...]]
    needed: bool

    @property
    def names(self) -> frozenset[str]:
        """Every name that has a hole."""
        listed = [(each,) if isinstance(each, Wording) else each for each in self.told.values()]
        return frozenset[str]().union(*(part.names for parts in listed for part in parts))


def read_picture(fields: Fields, holes: Collection[str]) -> AskedPicture | None:
    """The picture of an entry, None where it has none; `holes` are the names that may be filled in.

    Those are givens and words: a picture is never told what has to be worked out.
    """
    if not fields.has("picture"):
        return None
    inner = fields.table("picture")
    kind, use = inner.choice("kind", sorted(KINDS)), inner.choice("use", USES, "shows")
    known = KINDS.get(kind, {})
    told = {
        name: _told(inner, name, argument) for name, argument in known.items() if argument.needed or inner.has(name)
    }
    if known:
        inner.done()
    asked = AskedPicture(kind, told, use == "needed")
    for name in sorted(asked.names - set(holes)):
        inner.complain("Q671", "", f"{{{name}}} is neither given nor a word", "a picture is told only what is given")
    return asked


def _told(fields: Fields, name: str, argument: Argument) -> Wording | tuple[Wording, ...]:
    if argument.many:
        texts = fields.texts(name, 1)
        if texts and not argument.fewest <= len(texts) <= argument.most:
            what = f"{len(texts)} of {name}"
            fields.complain("Q672", name, what, f"have {argument.fewest} to {argument.most}")
        return tuple(wording(each) for each in texts)
    text = fields.text(name)
    if argument.allowed and text and "{" not in text and text not in argument.allowed:
        fields.complain("Q107", name, f"{name} is {said(text)}", "write one of " + ", ".join(argument.allowed))
    return wording(text)
