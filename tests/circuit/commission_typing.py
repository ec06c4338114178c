"""A command of a commissioning as a person would type it."""

from math import inf

from quizzer.circuit.commissioning.job import Cell, Commission, remedies_for
from quizzer.circuit.commissioning.state import Command, Record
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.installation.checks import check_of
from quizzer.circuit.installation.further_departures import LAST_SEED
from quizzer.circuit.installation.placing import kinds_for, kinds_of

CODES = ("C1", "C2", "C3", "FI")


def typed(play: Commission, command: Command) -> list[str]:
    """The lines; after a test an empty one, which records nothing yet."""
    ways = " ".join(map(str, command.ways))
    if command.does == "record":
        return _recorded(play, command)
    if command.does == "note":
        return _noted(play, command)
    found = {
        "test": [f"{command.check} {'' if command.ways == (0,) else ways}", ""],
        "inspect": [f"inspect {ways}"],
        "leave": [f"leave {ways or 'none'}"],
        "volts": [],  # set together with its test
        "loop": [f"loop {command.setting}"],
    }
    return found.get(command.does, [command.does])


def lines_of(play: Commission, commands: list[Command]) -> list[str]:
    """All commands; insulation with the volts that are set."""
    lines, volts = [], "500"
    for command in commands:
        volts = command.setting if command.does == "volts" else volts
        found = typed(play, command)
        if command.check == "ir":
            found[0] = found[0].replace("ir ", f"ir {volts} ")
        lines += found
    return lines


def _recorded(play: Commission, command: Command) -> list[str]:
    """A line a test and way, `-` for the fields of it that are not recorded."""
    together: dict[tuple[int, str], dict[Cell, str]] = {}
    for cell, record in command.records:
        together.setdefault((cell.way, check_of(cell.field)), {})[cell] = _text(play, cell, record)
    return [f"record {check} {way or ''} {' '.join(texts.values())}" for (way, check), texts in together.items()]


def _text(play: Commission, cell: Cell, record: Record) -> str:
    if record.limited:
        return "lim"
    if record.value is None:
        return "ok" if record.passed else "x"
    instrument = instrument_for(check_of(cell.field), play.sound.way(cell.way).volts if cell.way else 500)
    if record.value == inf:
        return "ol" if not record.passed else ">999"
    return f"{record.value * instrument.scale:.2f}{'' if record.passed else 'x'}"


def _noted(play: Commission, command: Command) -> list[str]:
    note = command.note
    assert note is not None
    kind = next(each for each in kinds_of(seed=LAST_SEED) if each.id == note.kind)
    able = kinds_for(play.sound, note.way, play.level, periodic=play.periodic, seed=play.since)
    answers = CODES if play.periodic else remedies_for(play, note.way, kind, able)
    return [f"note {note.way}", str(able.index(kind) + 1), str(answers.index(note.answer) + 1)]
