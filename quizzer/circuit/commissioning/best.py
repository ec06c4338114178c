"""The best player: what is to be done next by the trade's order, and a whole play without a mark lost."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.job import LIVE_CHECKS, Cell, Commission, cells_of
from quizzer.circuit.commissioning.marking import perfect_records
from quizzer.circuit.commissioning.proving import kept_off, not_proved, read_again
from quizzer.circuit.commissioning.state import Command, Note, State, present
from quizzer.circuit.installation.checks import Check, check_of, checks_of
from quizzer.circuit.installation.departures import Departure, codes_of

_SAFE = (
    Command("isolate"),
    Command("lock"),
    Command("prove indicator"),
    Command("prove dead"),
    Command("prove indicator"),
    Command("loads out"),
)
_SEEN = {  # by an eye, whatever is tested
    "small-cable",
    "no-rcd",
    "rcd-type",
    "wrong-device",
    "neutrals",
    "direct-current",
    "one-direction",
    "spur-off-spur",
}
_MOST = 400  # commands of a play


def procedure(play: Commission, state: State) -> Command | None:
    """The next thing by the trade's order, as far as nothing is wrong; None where only the end is left."""
    for propose in (_inspection, _dead, _origin, _live):
        if command := propose(play, state):
            return command
    return None


def _every(play: Commission) -> tuple[int, ...]:
    return tuple(way.number for way in play.sound.ways)


def _safe(state: State) -> Command | None:
    """What is missing until it is proved dead with the loads out."""
    if not state.off:
        return _SAFE[0]
    if not state.locked:
        return _SAFE[1]
    if not state.proved:
        return _SAFE[4] if state.shown_dead else _SAFE[3] if state.indicator else _SAFE[2]
    return None if state.loads_out else _SAFE[5]


def _inspection(play: Commission, state: State) -> Command | None:
    if 0 not in state.seen:
        return Command("inspect", (0,))
    unseen = tuple(way for way in _every(play) if way not in state.seen)
    return (_safe(state) or Command("inspect", unseen)) if unseen else None


def _dead(play: Commission, state: State) -> Command | None:
    """The dead tests not taken yet: bonds, protective conductors, rings, insulation, polarity."""
    for check in ("bonds", "r1r2", "ring", "ir", "polarity"):
        ways = _due(play, state, check)
        if ways:
            return _safe(state) or _set(play, state, check, ways) or Command("test", ways, check)
    return None


def _due(play: Commission, state: State, check: Check) -> tuple[int, ...]:
    if check == "ze" and read_again(play, state):
        return (0,)
    if check in {"bonds", "supply", "ze", "ipf"}:
        return () if (0, check) in state.done else (0,)
    ways = [way for way in play.sound.ways if check in checks_of(way) and (way.number, check) not in state.done]
    agreed = {play.limited} if check == "ir" else state.left if check in LIVE_CHECKS else frozenset()
    ways = [way for way in ways if way.number not in agreed]
    if check == "ir":  # those at one voltage together
        ways = [way for way in ways if way.volts == ways[0].volts]
    if check == "zs":
        ways = [way for way in ways if bool(way.rcd_planned) == bool(ways[0].rcd_planned)]
    return tuple(way.number for way in ways)


def _set(play: Commission, state: State, check: Check, ways: tuple[int, ...]) -> Command | None:
    """The instrument set as the test asks for."""
    if check in {"bonds", "r1r2", "ring"}:
        return None if state.nulled else Command("null")
    if check == "ir":
        volts = play.sound.way(ways[0]).volts
        return None if state.volts == volts else Command("volts", setting=str(volts))
    if check in {"zs", "ze"}:
        trips = check == "ze" or not play.sound.way(ways[0]).rcd_planned
        return None if state.trips == trips else Command("loop", setting="high" if trips else "no-trip")
    return None


def _origin(play: Commission, state: State) -> Command | None:
    if _due(play, state, "supply"):
        return _safe(state) or Command("test", (0,), "supply")
    if _due(play, state, "ze"):
        earth = None if state.earth_off else Command("earth off")
        return _safe(state) or earth or _set(play, state, "ze", (0,)) or Command("test", (0,), "ze")
    if state.earth_off:
        return Command("earth on")
    return Command("test", (0,), "ipf") if _due(play, state, "ipf") else None


def _live(play: Commission, state: State) -> Command | None:
    if kept_off(state):
        return None if set(_every(play)) == state.left or not state.off else Command("leave", _every(play))
    for check in LIVE_CHECKS:
        ways = _due(play, state, check)
        if ways:
            on = None if not state.off else Command("energise")
            return on or _set(play, state, check, ways) or Command("test", ways, check)
    return None


def best(play: Commission, state: State, answer: Callable[[Departure], str]) -> Command:
    """What the best player does next, who knows what there is once a test or a look can have shown it."""
    if blank := _to_record(play, state):
        return blank
    shown = [each for each in present(play, state) if _has_shown(play, state, each)]
    named = {(note.way, note.kind) for note in state.notes}
    for each in shown:
        if each.key not in named:
            return Command("note", note=Note(each.way, each.kind.id, answer(each)))
    stopped = _before_energising(play, state, shown)
    return stopped or procedure(play, state) or _mend_last(play, state, shown) or _ending(play, state)


def _to_record(play: Commission, state: State) -> Command | None:
    """The fields whose tests were taken and that are empty."""
    due = [cell for cell in cells_of(play) if cell not in state.records and _fillable(play, state, cell)]
    if not due:
        return None
    true = perfect_records(play, state, frozenset(cell.way for cell in due))
    return Command("record", records=tuple((cell, true[cell].record) for cell in due))


def _fillable(play: Commission, state: State, cell: Cell) -> bool:
    if (cell.way, check_of(cell.field)) in state.done:
        return True
    if cell.way == play.limited and cell.field in {"L-N", "L-E"}:
        return True
    return cell.way in state.left and cell.field in {"Zs", "RCD", "button", "function"}


_AT_ORIGIN: dict[str, Check] = {  # the test at the origin that shows a departure; `ipf` all others
    "bond-missing": "bonds",
    "bond-paint": "bonds",
    "neutral-lost": "supply",
    "neutral-open": "supply",
}


def _has_shown(play: Commission, state: State, each: Departure) -> bool:
    """Whether what was done could have shown it: everything inspected, and the dead or the live tests of its way."""
    if each.kind.touches == "nothing" or each.kind.id in _SEEN:
        return state.seen >= set(each.ways)
    if each.way == 0:
        return (0, _AT_ORIGIN.get(each.kind.id, "ipf")) in state.done
    if play.limited == each.way or each.kind.touches == "device":
        return all((each.way, c) in state.done for c in checks_of(play.sound.way(each.way)) if c in LIVE_CHECKS)
    return (each.way, "polarity") in state.done


def _before_energising(play: Commission, state: State, shown: list[Departure]) -> Command | None:
    """Before the live tests: what has shown is put right; in a periodic inspection its ways stay off."""
    if (
        not state.off
        or _inspection(play, state)
        or _dead(play, state)
        or _origin(play, state)
        or not (_live(play, state) or kept_off(state))
    ):
        return None
    if mend := _mend_last(play, state, shown):
        return mend
    odd = {way for way, _ in not_proved(play, state._replace(left=frozenset()))}
    off = _every(play) if kept_off(state) else tuple(way for way in _every(play) if way in odd)
    return None if set(off) == state.left else Command("leave", off)


def _mend_last(play: Commission, state: State, shown: list[Departure]) -> Command | None:
    if play.periodic or not any(each.kind.today for each in shown):
        return None
    return _safe(state) or Command("mend")


def _ending(play: Commission, state: State) -> Command:
    there = present(play, state)
    bad = any(codes_of(each, play.sound)[0] != "C3" for each in there) if play.periodic else bool(there)
    return Command("refuse" if bad else "declare")


def played_best(play: Commission) -> State:
    """The state at the end of the best play. Raises RuntimeError where it comes to no end."""
    state = State(off=not play.periodic)
    for command in commands_of_best(play, state):
        state = act(play, state, command).state
        if state.ended or state.stopped:
            return state
    raise RuntimeError("the best player comes to no end")


def commands_of_best(play: Commission, state: State) -> Iterator[Command]:
    """The commands of the best play, one after the other."""
    for _ in range(_MOST):
        command = best(play, state, lambda each: codes_of(each, play.sound)[0] if play.periodic else each.kind.remedy)
        yield command
        state = act(play, state, command).state
