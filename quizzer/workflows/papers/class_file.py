"""What is printed for a class: one file for each variant of print, the list of seats, and the list for markers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.bankfiles.centre_files import Letterhead
from quizzer.paper.record import Paper
from quizzer.paper.seating import Seat
from quizzer.render.csv.csvs import csv_bytes
from quizzer.render.typst.classes import class_pdf
from quizzer.render.typst.papers import SCHEMES
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.seats import seats_table

SEATS = "class.csv"


def class_files(
    paper: Paper, making: Making, seats: Sequence[Seat], head: Letterhead | None, looks: Sequence[str] = ()
) -> Iterator[tuple[str, bytes]]:
    """Each file of the class by its name. The keys lie apart, as mark schemes do.

    Everybody's paper is in their own variant of print, or in each of `looks`.
    """
    for look in looks or dict.fromkeys(seat.look for seat in seats):
        suffix = "" if look == "standard" else f"-{look}"
        inside = [seat for seat in seats if looks or seat.look == look]
        yield f"class{suffix}.pdf", class_pdf(paper, inside, look, making.of, head)
    yield SEATS, seats_table(seats)
    yield f"{SCHEMES}/marker-list.csv", _marker_list(paper, seats)


def _marker_list(paper: Paper, seats: Sequence[Seat]) -> bytes:
    """Whose each serial is, and its keys: the papers themselves do not say."""
    keys = {form.serial: "".join(item.key for item in form.items) for form in paper.forms}
    return csv_bytes(
        ("form", "seat", "name", "keys"), [(seat.serial, seat.number, seat.name, keys[seat.serial]) for seat in seats]
    )
