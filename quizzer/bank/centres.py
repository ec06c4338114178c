"""What a centre has printed on its papers: its name, address and logo, and what it tells its candidates."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse

MOST_BOXES, MOST_LINES, LONGEST_LINE = 12, 8, 160


class Centre(NamedTuple):
    """A centre's `centre.toml`: texts are "" and lists empty where it says nothing.

    `logo` is the name of a file beside it; `title` stands in place of the paper's own, `permitted` in place of the
    blueprint's; `instructions` come after those of the program; `candidate_number` is a number of boxes. `banks` are
    the folders of questions that it uses, where nobody names others.
    """

    name: str
    address: str
    logo: str
    title: str
    candidate_number: int
    instructions: tuple[str, ...]
    permitted: tuple[str, ...]
    banks: tuple[str, ...] = ()


def read_centre(notes: Notes) -> Centre:
    """The centre of a file's text; complaints go to its list."""
    top = Fields(parse(notes), (), notes)
    centre = Centre(
        name=top.text("name"),
        address=top.text("address", ""),
        logo=top.text("logo", ""),
        title=top.text("title", ""),
        candidate_number=top.whole("candidate_number", 0, MOST_BOXES, 0),
        instructions=top.texts("instructions"),
        permitted=top.texts("permitted"),
        banks=top.texts("banks"),
    )
    top.done()
    lines = (("name", centre.name), ("address", centre.address), ("title", centre.title))
    listed = [(key, line) for key in ("instructions", "permitted") for line in getattr(centre, key)]
    for key, line in (*lines, *listed):
        if len(line) > LONGEST_LINE:
            top.complain("Q113", key, f"{key} has {len(line)} characters", f"write {LONGEST_LINE} at most in a line")
    for key in ("instructions", "permitted"):
        if len(getattr(centre, key)) > MOST_LINES:
            top.complain("Q113", key, f"{key} has more than {MOST_LINES} lines", f"write {MOST_LINES} at most")
    return centre
