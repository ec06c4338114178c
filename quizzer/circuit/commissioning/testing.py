"""Taking a test: what must be true before, what it shows, and which fields it fills. A breach of safe order stops."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from quizzer.circuit.commissioning.job import LIVE_CHECKS, ORIGIN_CHECKS, WORDS_OF_CHECK, Cell, Commission
from quizzer.circuit.commissioning.measuring import ShownTest, passes, shown_of
from quizzer.circuit.commissioning.noting import kept_off_by_note
from quizzer.circuit.commissioning.state import (
    Command,
    CommissionDone,
    CommissionStep,
    State,
    installation_now,
    stop,
    without_results,
)
from quizzer.circuit.installation.checks import DEAD, Check, Field, checks_of, fields_of
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.testing.instrument import Instrument
from quizzer.circuit.testing.instruments import INSTRUMENTS, insulation_at, shown
from quizzer.circuit.testing.reading import grouped

_TRIPPED = "the RCD trips: no reading. Set the range that does not trip, or read it where no RCD is"
_SHORTER = {
    "line and protective conductor ends cross-connected": "L and cpc crossed",
    "line and neutral ends cross-connected": "L and N crossed",
    "line to neutral": "L-N",
    "line to earth": "L-E",
    "neutral to earth": "N-E",
    "protective conductor": "cpc",
}
_TO_EARTH: dict[Check, str] = {"zs": "a loop", "rcd": "an RCD"}  # live tests whose current goes to earth
FIELDS: dict[Check, tuple[Field, ...]] = {check: fields_of(check) for check in WORDS_OF_CHECK}


def take(play: Commission, state: State, command: Command) -> CommissionDone:
    """The state after a test on some ways. Raises ValueError for a command that names no test."""
    check = command.check
    if check is None:
        raise ValueError("a test is taken by its name")
    ways = _where(play, check, command.ways)
    if why := _breach(state, check, ways):
        return stop(_stepped(state, command), why)
    if wait := _not_yet(state, check):
        return CommissionDone(state, (wait,))
    if not ways:
        return CommissionDone(state, (f"No way has {WORDS_OF_CHECK[check]} to be tested there.",))
    spared = tuple(_spared(play, state, ways)) if check == "ir" else ()
    ways = tuple(number for number in ways if number not in dict(spared))
    words = tuple(say for _, say in spared)
    if not ways:
        return CommissionDone(state, words)
    done = _struck(play, _taken(play, state, command, check, ways))
    return done._replace(said=(*done.said, *words))


def _spared(play: Commission, state: State, ways: tuple[int, ...]) -> Iterator[tuple[int, str]]:
    """The ways that the insulation tester is not put on as it is set, and why."""
    for number in ways:
        if number == play.limited:
            yield number, f"Way {number} is left out: it was agreed that its insulation is not tested."
        elif state.volts > (volts := play.sound.way(number).volts):
            harmed = f"Way {number} is not tested at {state.volts} V: its electronics would be harmed."
            yield number, f"{harmed} It wants `ir {volts} {number}`."


def _where(play: Commission, check: Check, ways: tuple[int, ...]) -> tuple[int, ...]:
    """The ways that have this test among those named; the origin for one that is done there."""
    if check in ORIGIN_CHECKS:
        return (0,)
    return tuple(n for n in ways if n and check in checks_of(play.sound.way(n)))


def _breach(state: State, check: Check, ways: tuple[int, ...]) -> str:
    """Why the test must not be done as things stand; "" where it may."""
    if check in DEAD:
        if not state.off:
            return f"a dead test was put on live conductors: {WORDS_OF_CHECK[check]}"
        return "" if state.proved else "terminals were opened before everything was proved dead"
    if check in _TO_EARTH and not state.off:
        open_ones = [n for n in ways if n not in state.left and (n, "r1r2") not in state.passed]
        if open_ones:
            where = f"way{'s' if len(open_ones) > 1 else ''} {spelled(tuple(open_ones))}"
            return f"{_TO_EARTH[check]} was tested on {where}, whose protective conductor is not proved"
    return ""


def _not_yet(state: State, check: Check) -> str:
    if check in LIVE_CHECKS and state.off:
        return "Everything is off: that is read with the supply on."
    if check in LIVE_CHECKS and (why := kept_off_by_note(state)):
        return f"{why} Switch it off now (isolate)."
    if check in {"supply", "ipf"} and not state.off:
        return "That is read at the incoming terminals with the main switch off."
    if check == "ipf" and state.earth_off:
        return "The earthing conductor goes back on first: a fault current is read with it connected."
    if check == "ze" and not (state.off and state.locked):
        return "For the external loop the whole installation is isolated and locked off."
    return ""


def _stepped(state: State, command: Command) -> State:
    named = "ways" if len(command.ways) > 1 else "way"
    where = "" if command.ways in {(), (0,)} else f", {named} {spelled(command.ways)}"
    say = WORDS_OF_CHECK[command.check] if command.check else command.does
    return state._replace(steps=(*state.steps, CommissionStep(f"{say}{where}", command)))


def spelled(ways: tuple[int, ...]) -> str:
    """Numbers with those in a row drawn together.

    >>> spelled((1, 2, 3, 5))
    '1-3, 5'
    """
    runs: list[list[int]] = []
    for way in ways:
        if runs and way == runs[-1][-1] + 1:
            runs[-1].append(way)
        else:
            runs.append([way])
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _taken(play: Commission, state: State, command: Command, check: Check, ways: tuple[int, ...]) -> CommissionDone:
    """Each way's readings in lines; what was off, or tripped, is said and not done."""
    whole, said, fields, read = installation_now(play, state), list[str](), list[Cell](), list[tuple[int, bool]]()
    owed, origin = list[int](), dict[Cell, float]()
    for number in ways:
        if check in LIVE_CHECKS and number in state.left:
            said.append(f"{number} is left off.")
        elif _trips(whole, state, check, number):
            said.append(f"{number} {whole.way(number).name}: {_TRIPPED}.")
        else:
            found = shown_of(play, state, whole, number, check)
            said += _lines(whole, state, check, number, found)
            if _at_too_few_volts(play, state, check, number):
                owed += [] if (number, check) in state.done else [number]
                continue
            fields += [Cell(number, field) for field in found.values]
            if check != "ze" or state.earth_off:
                read.append((number, _passed(state, whole, number, check, found)))
                origin |= {Cell(0, field): value for field, value in found.values.items() if number == 0}
                said += _within_doubt(whole, check, found)
    said += _not_counted(state, check, owed)
    after = _stepped(state, command._replace(ways=ways))._replace(read={**state.read, **origin})
    if check == "ze" and read:
        after = after._replace(read_high=state.trips)
    if check == "ir":
        early = {number for number, _ in read if (number, "r1r2") not in state.passed}
        now = {number: state.volts for number, _ in read}
        after = after._replace(early=(after.early - now.keys()) | early, volts_at={**after.volts_at, **now})
    done = after.done | {(number, check) for number, _ in read}
    lost = frozenset((number, check) for number, right in read if not right)
    passed = (after.passed | {(number, check) for number, _ in read}) - lost
    return CommissionDone(after._replace(done=done, passed=passed), tuple(said), tuple(fields))


def _within_doubt(whole: Installation, check: Check, found: ShownTest) -> Iterator[str]:
    """That an external loop that reads over what it is held to has not failed for that."""
    if check == "ze" and whole.declared < found.values["Ze"] and passes(whole, Cell(0, "Ze"), found.values):
        yield f"That is over {whole.declared:g} Ω by no more than the tester may be out: it is not taken as failed."


def _trips(whole: Installation, state: State, check: Check, number: int) -> bool:
    return check == "zs" and state.trips and bool(whole.way(number).rcd) and whole.way(number).circuit.rcd_ms < inf


def _at_too_few_volts(play: Commission, state: State, check: Check, number: int) -> bool:
    return check == "ir" and state.volts < play.sound.way(number).volts


def _not_counted(state: State, check: Check, owed: list[int]) -> Iterator[str]:
    """Why readings are not the test that is owed."""
    if owed:
        where = f"way{'s' if len(owed) > 1 else ''} {spelled(tuple(owed))}"
        yield f"500 V is still owed on {where}: {state.volts} V is for electronics that cannot be taken out."
    if check == "ze" and not state.earth_off:
        yield "The earthing conductor is connected: parallel paths are in that reading, and it is no Ze."


def _passed(state: State, whole: Installation, number: int, check: Check, found: ShownTest) -> bool:
    """Whether it passed and counts: insulation only once every core is known to be on its cable."""
    early = check == "ir" and (number, "r1r2") not in state.passed
    return not early and all(passes(whole, Cell(number, field), found.values) for field in found.values)


def _lines(whole: Installation, state: State, check: Check, number: int, found: ShownTest) -> Iterator[str]:
    if number == 0:
        words = found.words or ", ".join(
            f"{field} {shown(instrument_for(check, state.volts), value)}" for field, value in found.values.items()
        )
        twice = ", twice the one of a line for three phases" if check == "ipf" and whole.three_phase else ""
        yield f"{WORDS_OF_CHECK[check]}: {words}{twice}."
        return
    way = whole.way(number)
    if found.words:
        yield f"{number} {way.name}: {found.words}."
        return
    tests, values = zip(*found.readings, strict=True)
    groups = grouped(way.planned, tests, values)
    short = [_short(line) for line in groups]
    yield f"{number} {way.name}: {' '.join(short)}"


def _short(line: str) -> str:
    """A line of readings without what the command has said already."""
    for words in ("line and protective conductor linked at the board", "earth fault loop", "insulation at 500 V"):
        line = line.removeprefix(f"{words}: ").removeprefix(f"{words}, ")
    for words, short in _SHORTER.items():
        line = line.replace(words, short)
    return line


def instrument_for(check: Check, volts: int) -> Instrument:
    """The instrument of a test that gives figures."""
    uses = {"ir": "insulation", "zs": "loop", "ze": "loop", "rcd": "rcd", "ipf": "prospective"}.get(check, "continuity")
    return insulation_at(volts) if uses == "insulation" else INSTRUMENTS[uses]


def _struck(play: Commission, done: CommissionDone) -> CommissionDone:
    """What another trade does once the insulation of every way has been tested: told, and to be tested again."""
    state, damage = done.state, play.damage
    if damage is None or state.struck or state.stopped:
        return done
    if any((way.number, "ir") not in state.done for way in play.sound.ways if way.number != play.limited):
        return done
    lost: frozenset[tuple[int, Check]] = frozenset((damage.way, check) for check in ("r1r2", "ring", "ir", "polarity"))
    after = without_results(state._replace(struck=True), lost, FIELDS)
    name = play.sound.way(damage.way).name
    words = f"Another trade has screwed a rail to the wall along the cable of way {damage.way}, {name}."
    return CommissionDone(after, (*done.said, f"{words} What was tested there is struck out."), done.fields)
