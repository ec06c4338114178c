"""The pages at the end of a commissioning: the verdict on one screen, the marks with their reasons, the paper."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Heading, PageBreak, Paragraph, Points
from quizzer.blocks.words import NOT_PASSED, PASSED, capital
from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.marking import NEEDED, PARTS, FieldMark, MarkedCommission, Part, perfect_records
from quizzer.circuit.commissioning.state import State
from quizzer.circuit.installation.placing import KINDS
from quizzer.pages.commission import EXERCISE, schedule, supply

_PARTS: dict[Part, str] = {
    "complete": "fields filled in and tested",
    "values": "values as the instruments read",
    "judged": "judgements against the limit",
    "departures": "departures found, none invented",
    "remedies": "what has to be done",
    "declaration": "signed or refused rightly",
}
_CODES = "codes"
_FILLED_BY = (
    "A test fills in its fields: rcd both RCD (its time) and button, ring r1, rn and r2, ir L-N and L-E, supply volts, "
    "bonds water and gas."
)


def end_page(play: Commission, found: MarkedCommission, late: bool) -> Page:
    """The verdict and what each part earned: it stands on a screen of 24 lines."""
    return Page("How it ended", [*_end(play, found, late)])


def _end(play: Commission, found: MarkedCommission, late: bool) -> Iterator[Block]:
    yield _verdict(found, late)
    if found.stopped:
        yield Paragraph("No result counts after that. It can be begun again, and nothing of it is told until then.")
    else:
        yield Points([f"{_name(play, part)}: {right} of {of}" for part in PARTS for right, of in [found.counted(part)]])
        share = f"{NEEDED * 100:.0f} %"
        yield Paragraph(f"A pass asks for every field, every departure and the right end, and {share} of the rest.")
    yield Gap()
    yield Paragraph(EXERCISE)


def _name(play: Commission, part: Part) -> str:
    return capital(_CODES if play.periodic and part == "remedies" else _PARTS[part])


def _verdict(found: MarkedCommission, late: bool) -> Paragraph:
    if found.stopped:
        return Paragraph(f"STOPPED FOR SAFETY: {found.stopped}.", "wrong")
    if found.passed:
        return Paragraph(f"{PASSED}{': nothing was lost' if found.full else ''}.", "right")
    return Paragraph(f"{NOT_PASSED}{': the time was up' if late else ''}.", "wrong")


def marks_page(play: Commission, found: MarkedCommission) -> Page:
    """What was lost, each with its reason; what was found."""
    return Page("Mark scheme", [*_marks(play, found)])


def _marks(play: Commission, found: MarkedCommission) -> Iterator[Block]:
    for part in PARTS:
        right, of = found.counted(part)
        lost = _lost([mark for mark in found.marks if mark.part == part and not mark.right])
        yield Heading(f"{_name(play, part)}: {right} of {of}")
        if lost:
            yield Points(lost)
        if part == "complete" and lost:
            yield Paragraph(_FILLED_BY)
        earned = [mark for mark in found.marks if mark.part == part and mark.right]
        if earned and part in {"remedies", "declaration"}:
            yield Points([f"Right: {mark.of}: {mark.why}." for mark in earned])


def _lost(marks: list[FieldMark]) -> list[str]:
    """What was lost, with its reason; the fields of a way that were lost for one reason together."""
    together: dict[tuple[str, str], list[str]] = {}
    for mark in marks:
        where, _, field = mark.of.rpartition(" ") if mark.part == "complete" else (mark.of, "", "")
        together.setdefault((where, mark.why), []).append(field)
    return [
        f"{capital(where)}{' ' if any(fields) else ''}{', '.join(filter(None, fields))}: {why}."
        for (where, why), fields in together.items()
    ]


def replay_page(state: State) -> Page:
    """Each thing done, in order."""
    said = [capital(step.say) if step.say.endswith((".", "!")) else f"{capital(step.say)}." for step in state.steps]
    return Page("Step by step", [Points(said, ordered=True) if said else Paragraph("Nothing was done.")])


def paper_page(play: Commission, state: State, found: MarkedCommission, beside: str) -> Page:
    """The filled schedule, a perfect one beside it, and the marks, for paper."""
    return Page(f"Schedule of test results: {play.sound.title}", [*_paper(play, state, found)], beside)


def _paper(play: Commission, state: State, found: MarkedCommission) -> Iterator[Block]:
    yield Paragraph(EXERCISE, "caution", "EXERCISE")
    yield from supply(play)
    yield Heading("As it was filled in")
    yield from schedule(play, state.records, state.volts_at)
    says = {kind.id: kind.say for kind in KINDS}
    noted = [
        f"{f'Way {note.way}' if note.way else 'Origin'}: {says[note.kind]}; {note.answer}." for note in state.notes
    ]
    if noted:
        yield Points(noted)
    yield from _end(play, found, late=False)
    yield PageBreak()
    yield Heading("As it should have been")
    yield Paragraph(EXERCISE, "caution", "EXERCISE")
    if found.stopped:
        yield Paragraph("It was stopped: a perfect one is shown once it was played to its end.")
        return
    records = {cell: truth.record for cell, truth in perfect_records(play, state).items()}
    yield from schedule(play, records, {way.number: way.volts for way in play.sound.ways})
    yield from _marks(play, found)
