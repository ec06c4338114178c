"""What a commissioning is worth: each field, each judgement, each departure and the declaration, with reasons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import inf
from typing import Literal, NamedTuple

from quizzer.circuit.commissioning.job import Cell, Commission, cells_of
from quizzer.circuit.commissioning.measuring import ShownTest, passes, shown_of
from quizzer.circuit.commissioning.showing import live_alone
from quizzer.circuit.commissioning.state import Note, Record, State, installation_now, present
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.commissioning.valuing import valued
from quizzer.circuit.installation.checks import TICKS, Field, check_of
from quizzer.circuit.installation.departures import Departure, codes_of
from quizzer.circuit.installation.limits import held, passes_warm
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.testing.instruments import doubt

Part = Literal["complete", "values", "judged", "departures", "remedies", "declaration"]
PARTS: tuple[Part, ...] = ("complete", "values", "judged", "departures", "remedies", "declaration")
NEEDED = 0.9  # the share of values, of judgements and of remedies that a pass asks for
_UNPROVED = "found without proof: nothing that was read or seen shows it"
_LIVE: tuple[Field, ...] = ("Zs", "RCD", "button", "function")


class FieldMark(NamedTuple):
    """One thing that was marked: which part it belongs to, whether it is right, what it is of, and why."""

    part: Part
    right: bool
    of: str
    why: str


class MarkedCommission(NamedTuple):
    """Every mark. `passed` is the whole, `full` that nothing was lost."""

    marks: tuple[FieldMark, ...]
    stopped: str
    passed: bool

    @property
    def full(self) -> bool:
        """Whether every mark was earned."""
        return self.passed and all(mark.right for mark in self.marks)

    def counted(self, part: Part) -> tuple[int, int]:
        """The marks earned of a part, and how many there are."""
        of_part = [mark for mark in self.marks if mark.part == part]
        return sum(mark.right for mark in of_part), len(of_part)


def marked(play: Commission, state: State) -> MarkedCommission:
    """The marks of a commissioning as it stands; what was stopped, or not ended, does not pass."""
    true = perfect_records(play, state)
    marks = (*_cells(play, state, true), *_departures(play, state), *_declared(play, state))
    found = MarkedCommission(marks, state.stopped, passed=False)
    return found._replace(passed=not state.stopped and bool(state.ended) and _enough(found))


def _enough(found: MarkedCommission) -> bool:
    shares = {part: found.counted(part) for part in PARTS}
    strict = all(
        right == of for part, (right, of) in shares.items() if part in {"complete", "departures", "declaration"}
    )
    return strict and all(right >= NEEDED * of for right, of in shares.values())


class Truth(NamedTuple):
    """What belongs in a field, and whether the installation meets its limit there; None where accuracy decides."""

    record: Record
    judged: bool | None


def perfect_records(play: Commission, state: State, ways: frozenset[int] | None = None) -> dict[Cell, Truth]:
    """What belongs in each field as the installation is now, read with the instruments set as they should be.

    Of all ways, or of those named.
    """
    whole, shown_by = installation_now(play, state), dict[tuple[int, str], ShownTest]()
    found, all_off = {}, _all_off(play, whole)
    for cell in cells_of(play):
        if ways is not None and cell.way not in ways:
            continue
        check = check_of(cell.field)
        key = cell.way, check
        if key not in shown_by:
            right = State(
                loads_out=True, nulled=True, earth_off=True, trips=_high(whole, cell), volts=_volts(whole, cell)
            )
            shown_by[key] = shown_of(play, right, whole, cell.way, check)
        found[cell] = _truth(play, whole, cell, shown_by[key])
    # What was on when it was found may have been tried before it was switched off for good.
    tried = state.done if play.periodic else frozenset()
    left = {cell: _left_out(play, cell, truth, found, all_off=all_off) for cell, truth in found.items()}
    return {cell: found[cell] if (cell.way, check_of(cell.field)) in tried else left[cell] for cell in found}


def _high(whole: Installation, cell: Cell) -> bool:
    return cell.way == 0 or not whole.way(cell.way).rcd


def _volts(whole: Installation, cell: Cell) -> int:
    return whole.way(cell.way).volts if cell.way else 500


def _truth(play: Commission, whole: Installation, cell: Cell, found: ShownTest) -> Truth:
    value, right = found.values[cell.field], passes(whole, cell, found.values)
    if cell.field in TICKS:
        return Truth(Record(None, right), right)
    limit = held(whole, cell.way, cell.field, found.values).bound
    instrument = instrument_for(check_of(cell.field), _volts(whole, cell))
    scaled, bound = value * instrument.scale, limit * instrument.scale
    unsure = value < inf and abs(scaled - bound) <= doubt(instrument, scaled)
    if cell.field == "Zs" and not right and value < inf:  # the longer way may still pass it
        unsure |= passes_warm(whole, cell.way, _highest_r1r2(play, whole, cell.way))
    return Truth(Record(value, right), None if unsure else right)


def _highest_r1r2(play: Commission, whole: Installation, number: int) -> float:
    state = State(loads_out=True, nulled=True)
    return shown_of(play, state, whole, number, "r1r2").values["R1+R2"]


def _left_out(play: Commission, cell: Cell, truth: Truth, found: Mapping[Cell, Truth], *, all_off: bool) -> Truth:
    """A field that cannot be, or by agreement is not, filled with a result."""
    limited = Truth(Record(None, passed=False, limited=True), None)
    if cell.way and cell.way == play.limited and cell.field in {"L-N", "L-E"}:
        return limited
    if cell.way and cell.field in _LIVE and (all_off or _stays_off(play, cell.way, found)):
        return limited
    return truth


def _all_off(play: Commission, whole: Installation) -> bool:
    """Whether nothing may be energised for its live tests: the neutral of the supply, or its earth, has failed.

    Its earth as high current reads it, which is what decides while it is played.
    """
    high = shown_of(play, State(earth_off=True, trips=True), whole, 0, "ze")
    return whole.neutral_lost or not passes(whole, Cell(0, "Ze"), high.values)


def _stays_off(play: Commission, way: int, found: Mapping[Cell, Truth]) -> bool:
    """Whether a way must not be energised for its live tests: one of its dead tests has failed."""
    fields: tuple[Field, ...] = ("R1+R2", "polarity", "L-N", "L-E")
    cells = [Cell(way, field) for field in fields if Cell(way, field) in found]
    return any(not found[cell].record.passed for cell in cells if not (way == play.limited and cell.field[:2] == "L-"))


def _cells(play: Commission, state: State, true: Mapping[Cell, Truth]) -> Iterator[FieldMark]:
    whole = installation_now(play, state)
    for cell, truth in true.items():
        of = f"{f'way {cell.way}' if cell.way else 'origin'} {cell.field}"
        record = state.records.get(cell)
        taken = (cell.way, check_of(cell.field)) in state.done or (record is not None and record.limited)
        yield FieldMark(
            "complete", record is not None and taken, of, "not filled in" if record is None else "not tested"
        )
        if record is None:
            continue
        right, why = valued(play, state, cell, record, truth.record)
        yield FieldMark("values", right, of, why)
        if not truth.record.limited and not record.limited:
            agrees = truth.judged is None or record.passed == truth.judged
            yield FieldMark("judged", agrees, of, _judgement_words(whole, cell, true))


def _judgement_words(whole: Installation, cell: Cell, true: Mapping[Cell, Truth]) -> str:
    judged = true[cell].judged
    if cell.field in TICKS:
        return "it is as it should be" if judged else "it is not as it should be"
    values = {other.field: each.record.value or 0.0 for other, each in true.items() if other.way == cell.way}
    return f"{'meets' if judged else 'fails'} its limit: {held(whole, cell.way, cell.field, values).words}"


def _departures(play: Commission, state: State) -> Iterator[FieldMark]:
    """Each departure found or missed, each remedy or code, and each that was invented."""
    there, used = play.everything if state.struck else play.departures, set()
    all_off = _all_off(play, installation_now(play, state))
    for each in there:
        naming = _naming(state, each)
        if not naming and all_off and live_alone(play, state, each):
            continue  # nobody could find it
        why = _UNPROVED if naming and each.key not in state.shown else f"missed: {each.kind.why}"
        yield FieldMark("departures", bool(naming) and each.key in state.shown, _of(each), why)
        used.update(naming)
        if naming:
            yield _answered(play, each, naming[0])
    for note in state.notes:
        if note not in used:
            where = f"way {note.way}" if note.way else "origin"
            yield FieldMark("departures", right=False, of=f"{where}: {note.kind}", why="invented: it is not there")


def _naming(state: State, each: Departure) -> list[Note]:
    """The notes that name it: what lies between two ways may be named at both."""
    return [note for note in state.notes if note.kind == each.kind.id and note.way in each.ways]


def _answered(play: Commission, each: Departure, note: Note) -> FieldMark:
    if play.periodic:
        codes = codes_of(each, play.sound)
        return FieldMark("remedies", note.answer in codes, _of(each), f"{' or '.join(codes)}: {each.kind.why}")
    return FieldMark("remedies", note.answer == each.kind.remedy, _of(each), each.kind.remedy)


def _code(play: Commission, state: State, each: Departure) -> str:
    """The code it was given, where that is one of those that a report may give it; else the first of those."""
    codes = codes_of(each, play.sound)
    given = [note.answer for note in _naming(state, each) if note.answer in codes]
    return given[0] if given else codes[0]


def _of(each: Departure) -> str:
    return f"{f'way {each.way}' if each.way else 'origin'}: {each.kind.say}"


def _declared(play: Commission, state: State) -> Iterator[FieldMark]:
    """Whether it was rightly declared or refused; of a report, rightly called satisfactory or not."""
    there = present(play, state)
    if play.periodic:
        bad = any(_code(play, state, each) != "C3" for each in there)
        why = "any C1, C2 or FI makes it unsatisfactory; C3 alone does not"
        right = state.ended == ("refused" if bad else "declared")
        yield FieldMark("declaration", right, "the outcome", why)
        return
    words = "; ".join(_of(each) for each in there)
    why = f"not put right: {words}" if there else "everything is put right and proved"
    yield FieldMark("declaration", state.ended == ("refused" if there else "declared"), "the declaration", why)
