"""The pages of a commissioning while it is played: the job, the circuits by design, the schedule so far."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Paragraph, Points
from quizzer.circuit.commissioning.before import measured_before
from quizzer.circuit.commissioning.job import Cell, Commission, cells_of
from quizzer.circuit.commissioning.state import Record, State
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.installation.checks import Field, check_of, design_ohms
from quizzer.circuit.installation.ways import Way
from quizzer.circuit.testing.instruments import shown

_SAFE = "Isolate, lock, notice, prove - test - prove before a cover comes off. Treat as live until you have done it."
_LIVE = "Live tests are named here, never explained: by trained and authorised people, under a safe system of work."
EXERCISE = "An exercise in this program, and no certificate: your assessor decides whether you are competent."
_LIMITS = (
    "Hold values to: loop 0.8 of the table's limit (conductors were cold; type C half of B; over it, Z_e + 1.2 (R1+R2) "
    "at 20 °C may still pass), in TT 1667 Ω; "
    "insulation 1 MΩ; "
    "RCD 300 ms; bonds about 0.05 Ω; R1+R2 a tenth and 0.05 Ω over design at most; ring r1 and rn alike within "
    "0.05 Ω, r2 1.67 times r1; prospective current under what the devices break."
)
_TYPED = (
    "isolate; lock; prove indicator; prove dead; loads out; null",
    "inspect 0 (intake and board), 1-6 or all: covers come off, so once it is dead",
    "bonds, r1r2, ring, ir, polarity, supply, ze, ipf, zs, rcd, function: all ways, or zs 1-3 6; then you record.",
    "ir 250 5 (at 250 V), loop high, loop no-trip, earth off, earth on",
    "record zs 3 0.84x (x: it fails; ok: a tick; ol: over range; lim: left out, zs 1-8 lim; -: not now)",
    "record rcd 3 28 ok (its time, and its button); or one field: record button 3 lim",
    "note 3 (what is wrong there, from a list; note 3 loose shortens it), strike 3, notes",
    "mend (what you noted and can be put right today), leave 5, leave none, energise",
    "declare, refuse (you sign, or do not); job, details, schedule, q",
)
_TYPED_PERIODIC = (
    "No mend in an inspection: note gives a code instead. declare says satisfactory, refuse says unsatisfactory.",
)
_FOR_DIRECT_CURRENT = (
    "Car charging: RCD type B, or type A with detection of 6 mA d.c. in the charging point. A source behind a device: "
    "one that may be fed from both sides. The makers' instructions and the current standard decide."
)
HEADS: tuple[tuple[str, Field], ...] = (
    ("r1", "r1"),
    ("rn", "rn"),
    ("r2", "r2"),
    ("R1+R2", "R1+R2"),
    ("L-N", "L-N"),
    ("L-E", "L-E"),
    ("pol", "polarity"),
    ("Zs", "Zs"),
    ("RCD", "RCD"),
    ("btn", "button"),
    ("fn", "function"),
)
_BEFORE_VOLTS = 4  # heads that stand before the volts of the insulation test
_CUT_OUT = {False: "100 A", True: "100 A in each line"}
# What network operators declare as the most: one of them, for electrical contractors, 16 kA on one phase (and 25 on
# three), another one 25.9 kA on three.
_MOST_AMPS = {False: 16.0, True: 25.9}  # kA


def job_page(play: Commission, beside: str) -> Page:
    """Cautions, the job, and what is known of the supply."""
    title = "Inspection" if play.periodic else "Commissioning"
    return Page(f"{title}: {play.sound.title}", [*_job(play)], beside)


def _job(play: Commission) -> Iterator[Block]:
    whole = play.sound
    yield Paragraph(_SAFE, "caution", "CAUTION")
    yield Paragraph(_LIVE, "caution", "CAUTION")
    yield Gap()
    yield from supply(play)
    yield Paragraph("all of it, by you.", lead="Still to be measured")
    told = f"{len(whole.ways)} circuits on one board, {whole.temperature} °C. {_asked(play)}"
    yield Paragraph(told, lead="The job")
    if play.limited:
        words = f"Agreed with the client beforehand: the alarms of way {play.limited} are not tested for insulation."
        yield Paragraph(words, lead="Limitation")
    if electronics := [way.number for way in whole.ways if way.volts < 500 and way.number != play.limited]:
        yield Paragraph(f"Electronics of way {electronics[0]} cannot be taken out: insulation at 250 V there.")
    yield Paragraph(_LIMITS)


def supply(play: Commission) -> Iterator[Block]:
    """What the network operator says of the supply, and what was measured of it before."""
    whole = play.sound
    phases = "three-phase, 400/230 V" if whole.three_phase else "single-phase, 230 V"
    loop = f"Z_e at most {whole.declared:g} Ω" if whole.supply.earthing != "TT" else "no earth is provided"
    most = f"prospective current at most {_MOST_AMPS[whole.three_phase]:g} kA, fuse {_CUT_OUT[whole.three_phase]}"
    yield Paragraph(f"{whole.supply.earthing}, {phases}, {loop}, {most}.", lead="The network operator says")
    yield Paragraph(_measured(play), lead="Measured before")


def _measured(play: Commission) -> str:
    """What somebody measured at the origin before: it is told, and proves nothing today."""
    z_e, i_pf = (shown(instrument_for(check_of(field), 500), value) for field, value in measured_before(play).items())
    who = "at the last inspection" if play.periodic else "when the supply was connected"
    earth = "electrode" if play.sound.supply.earthing == "TT" else "Z_e"
    return f"{earth} {z_e}, Ipf {i_pf}, {who}."


def _asked(play: Commission) -> str:
    if play.periodic:
        return "In use for years, and on. Inspect, test, code what you find, and say how it is."
    return "New work, off. Inspect, test, fill in the schedule, have put right what can be, and sign or refuse."


def help_page(play: Commission) -> Page:
    """What can be typed."""
    return Page("What can be typed", [Points([*_TYPED, *(_TYPED_PERIODIC if play.periodic else ())])])


def details_page(play: Commission) -> Page:
    """The schedule of circuit details as the installer wrote it."""
    heads = ("Way", "Serves", "Points", "Cable", "Device", "RCD", "Zs max", "R1+R2")
    rows = [_details(way) for way in _recorded(play)]
    table = DataTable("", heads, rows, right=(2, 6, 7), whole=(0, 3, 4, 5))
    tt = play.sound.supply.earthing == "TT"
    most = "Zs max by the RCD, 50 V / 30 mA" if tt else "Zs max from the table, warm"
    foot = f"{most}; R1+R2 by design at 20 °C. RCDs of 30 mA. By the installer's record."
    notes = [_FOR_DIRECT_CURRENT] if {"car", "solar"} & {way.serves for way in play.sound.ways} else []
    return Page("Schedule of circuit details", [table, *(Paragraph(each) for each in (foot, *notes))])


def _recorded(play: Commission) -> Iterator[Way]:
    """The ways as the record has them: wrong where a record that does not fit is hidden."""
    wrong = {each.way: each for each in play.departures if each.kind.id == "record"}
    for way in play.sound.ways:
        each = wrong.get(way.number)
        changed = each.kind.change(play.sound, way.number, each.throw) if each else None
        yield changed.way(way.number) if changed else way


def _details(way: Way) -> tuple[str, ...]:
    tt = way.planned.supply.earthing == "TT"
    limit = "1667" if tt else f"{way.planned.device.table_limit:.2f}"
    points = str(len(way.planned.points)) if way.serves != "motor" else "1"
    cable = str(way.recorded).removesuffix(" mm²")
    device, rcd = str(way.planned.device), way.rcd_planned or "-"
    return str(way.number), way.name, points, cable, device, rcd, limit, f"{design_ohms(way):.2f}"


def schedule_page(play: Commission, state: State, title: str) -> Page:
    """The schedule of test results as far as it is filled in."""
    return Page(title, [*schedule(play, state.records, state.volts_at)])


def schedule(play: Commission, records: Mapping[Cell, Record], volts_at: Mapping[int, int]) -> Iterator[Block]:
    """The origin in a line, then a row a way; x behind what fails. `volts_at` are those of each insulation test."""
    every = set(cells_of(play))
    origin = [
        f"{field} {_cell(play, cell, records)}" for cell in cells_of(play) if not cell.way for field in [cell.field]
    ]
    yield Paragraph(f"{', '.join(origin)} (Ω; Ipf in A).", lead="Origin")
    rows = []
    for way in play.sound.ways:
        cells = [Cell(way.number, field) for _, field in HEADS]
        texts = [_cell(play, cell, records) if cell in every else "-" for cell in cells]
        volts = _volts(records.get(Cell(way.number, "L-E")), volts_at.get(way.number))
        rows.append((str(way.number), *texts[:_BEFORE_VOLTS], volts, *texts[_BEFORE_VOLTS:]))
    names = [head for head, _ in HEADS]
    heads = ("Way", *names[:_BEFORE_VOLTS], "V", *names[_BEFORE_VOLTS:])
    yield DataTable("", heads, rows, right=tuple(range(1, len(heads))), whole=(0,))
    yield Paragraph(
        "Ω; L-N and L-E in MΩ, tested at V volts d.c.; RCD in ms, btn: its button; pol: polarity; fn: function. "
        "x: fails. LIM: not tested. -: does not apply.",
        "aside",
    )


def _volts(record: Record | None, volts: int | None) -> str:
    """The volts of an insulation test, once its result stands beside them."""
    if record is None:
        return "..."
    return "-" if record.limited or volts is None else str(volts)


def _cell(play: Commission, cell: Cell, records: Mapping[Cell, Record]) -> str:
    record = records.get(cell)
    if record is None:
        return "..."
    if record.limited:
        return "LIM"
    if record.value is None:
        return "ok" if record.passed else "x"
    volts = play.sound.way(cell.way).volts if cell.way else 500
    instrument = instrument_for(check_of(cell.field), volts)
    text = shown(instrument, record.value).removesuffix(instrument.unit).strip()
    short = {"over range (open)": "OL", "open loop": "OL", "over 999 MΩ": ">999", "over 999": ">999", "no trip": "OL"}
    return f"{short.get(text, text)}{'' if record.passed else 'x'}"


def notes_page(said: Mapping[tuple[int, str], str]) -> Page:
    """The departures noted so far, each with what is to be done or its code."""
    points = [f"{'Origin' if not way else f'Way {way}'}: {words}." for (way, _), words in said.items()]
    return Page("Noted", [Points(points) if points else Paragraph("Nothing is noted.")])
