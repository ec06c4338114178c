"""What is done beside testing: making safe, setting instruments, naming, mending, energising, declaring."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quizzer.circuit.commissioning.job import LIVE_CHECKS, Commission
from quizzer.circuit.commissioning.proving import missing_words, not_proved, supply_fails
from quizzer.circuit.commissioning.state import (
    Command,
    CommissionDone,
    CommissionStep,
    State,
    installation_now,
    present,
    stop,
    without_results,
)
from quizzer.circuit.commissioning.testing import FIELDS, spelled, take
from quizzer.circuit.installation.checks import Check, checks_of
from quizzer.circuit.installation.departures import Departure
from quizzer.circuit.installation.seeing import seen


def act(play: Commission, state: State, command: Command) -> CommissionDone:
    """The state after one command, and what it showed. Nothing is done once it has ended."""
    if state.stopped or state.ended:
        return CommissionDone(state)
    return _DOES[command.does](play, state, command)


def _said(state: State, command: Command, words: str) -> CommissionDone:
    return CommissionDone(state._replace(steps=(*state.steps, CommissionStep(words, command))), (words,))


def _inspect(play: Commission, state: State, command: Command) -> CommissionDone:
    """Look at the ways; at none named, at all that can be seen as it is: with covers on, that is no way."""
    if not command.ways:
        ways = (0, *(way.number for way in play.sound.ways)) if state.proved else (0,)
        command = command._replace(ways=ways)
    whole = installation_now(play, state)
    if any(command.ways) and not state.proved:
        return stop(state, "covers were taken off before everything was proved dead")
    lines = tuple(line for number in command.ways for line in seen(whole, number))
    after = state._replace(seen=state.seen | set(command.ways))
    step = CommissionStep(f"inspected {spelled(command.ways)}", command)
    return CommissionDone(after._replace(steps=(*state.steps, step)), lines)


_WITHOUT_NEUTRAL = {  # what happens, on three phases or not
    True: "loads get what their neighbours leave",
    False: "every load that is on makes the neutral live",
}


def _isolate(play: Commission, state: State, command: Command) -> CommissionDone:
    if state.off:
        return _said(state, command, f"The main switch is off, every pole: it was before.{_second(play)}")
    after = state._replace(off=True, locked=False, indicator=False, shown_dead=False, proved=False)
    return _said(after, command, f"People are told; the main switch is off, every pole.{_second(play)}")


def _second(play: Commission) -> str:
    """That a second supply is isolated too."""
    solar = any(way.serves == "solar" for way in play.sound.ways)
    return " The inverter is isolated too: it is a second supply." if solar else ""


def _lock(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("The main switch is on: it is switched off first.",))
    return _said(state._replace(locked=True), command, "Locked off with your own lock, the notice is up.")


def _prove_indicator(_play: Commission, state: State, command: Command) -> CommissionDone:
    again = state.shown_dead and state.locked
    after = state._replace(indicator=True, proved=again or state.proved)
    words = "The proving unit lights every step of the indicator."
    return _said(after, command, f"{words} Proved dead." if again else words)


def _prove_dead(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.indicator:
        return CommissionDone(state, ("The indicator is proved on its proving unit first.",))
    if not state.off:
        return _said(state._replace(indicator=False), command, "230 V: it is LIVE. The main switch is on.")
    if not state.locked:
        return CommissionDone(state, ("Locked off first: who proves it dead goes away from the switch.",))
    after = state._replace(shown_dead=True, indicator=False)
    return _said(after, command, "0 V between all conductors at the point of work. Now prove the indicator again.")


def _loads_out(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.proved:
        return stop(state, "terminals were opened before everything was proved dead")
    words = "Lamps, appliances, electronics and surge devices are out, switches on. What cannot be taken out, stays."
    return _said(state._replace(loads_out=True), command, words)


def _null(_play: Commission, state: State, command: Command) -> CommissionDone:
    return _said(state._replace(nulled=True), command, "Leads joined and nulled: 0.00 Ω.")


def _volts(_play: Commission, state: State, command: Command) -> CommissionDone:
    if state.volts == int(command.setting):
        return CommissionDone(state)
    after = state._replace(volts=int(command.setting))
    return _said(after, command, f"The insulation tester is set to {command.setting} V.")


def _loop(_play: Commission, state: State, command: Command) -> CommissionDone:
    trips = command.setting == "high"
    words = "high current, which trips RCDs" if trips else "the range that does not trip RCDs, and reads a little high"
    return _said(state._replace(trips=trips), command, f"The loop tester is set to {words}.")


def _earth_off(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not (state.off and state.proved):
        return stop(state, "the earthing conductor was taken off an installation that was not proved dead")
    words = "The earthing conductor is off its terminal. It goes back before anything is energised."
    return _said(state._replace(earth_off=True), command, words)


def _earth_on(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.earth_off:
        return CommissionDone(state, ("The earthing conductor is on.",))
    return _said(state._replace(earth_off=False), command, "The earthing conductor is back and tight.")


def _record(_play: Commission, state: State, command: Command) -> CommissionDone:
    return CommissionDone(state._replace(records={**state.records, **dict(command.records)}))


def _note(_play: Commission, state: State, command: Command) -> CommissionDone:
    note = command.note
    if note is None:
        raise ValueError("a departure is named with its kind")
    others = tuple(each for each in state.notes if (each.way, each.kind) != (note.way, note.kind))
    if not command.setting:
        return CommissionDone(state._replace(notes=(*others, note)), ("Noted.",))
    return CommissionDone(state._replace(notes=others), ("Struck out.",))


def _mend(play: Commission, state: State, command: Command) -> CommissionDone:
    """What was named and can be put right today; the rest is told to wait. A wrong name changes nothing."""
    if play.periodic:
        return CommissionDone(state, ("You were asked to inspect and report, not to repair.",))
    if not state.proved:
        return stop(state, "work was begun on an installation that was not proved dead")
    named = {(note.way, note.kind) for note in state.notes}
    found = [each for each in present(play, state) if any((way, each.kind.id) in named for way in each.ways)]
    there = sorted(found, key=lambda each: each.way)
    today = [each for each in there if each.kind.today]
    lost = frozenset(pair for each in today for pair in _to_be_repeated(play, each))
    after = without_results(state, lost, FIELDS)._replace(mended=state.mended | {each.key for each in today})
    return _said(after, command, _mended(today, [each for each in there if not each.kind.today], lost))


def _mended(today: list[Departure], waits: list[Departure], lost: frozenset[tuple[int, Check]]) -> str:
    done = "; ".join(f"{_place(each)}: {each.kind.remedy.partition(', and')[0]}" for each in today)
    words = [
        f"The installer has it done: {done}." if today else "There is nothing the installer could put right today."
    ]
    if waits:
        words.append(f"It waits: {'; '.join(f'{_place(each)}: {each.kind.remedy}' for each in waits)}.")
    if lost:
        ways = [str(way) for way in sorted({way for way, _ in lost}) if way]
        places = ["the origin"] * any(not way for way, _ in lost)
        places += [f"way{'s' if len(ways) > 1 else ''} {', '.join(ways)}"] if ways else []
        words.append(f"To be tested again: {'; '.join(places)}.")
    return " ".join(words)


def _place(each: Departure) -> str:
    return f"way {each.way}" if each.way else "origin"


def _to_be_repeated(play: Commission, each: Departure) -> Iterator[tuple[int, Check]]:
    """The tests that a repair touches, which are done again."""
    if each.kind.touches == "nothing":
        return
    if each.way == 0:
        yield from ((0, check) for check in ("bonds", "ze", "ipf"))
        return
    for number in each.ways:
        checks = checks_of(play.sound.way(number))
        touched = checks if each.kind.touches == "wiring" else [c for c in checks if c in LIVE_CHECKS]
        yield from ((number, check) for check in touched)


def _leave(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("Ways are left off while everything is off.",))
    after = state._replace(left=frozenset(command.ways))
    one = len(command.ways) == 1
    words = f"{'way' if one else 'ways'} {spelled(command.ways)} {'stays' if one else 'stay'} off, locked and labelled"
    words += "; what is not tested there is recorded as lim"
    words = words if command.ways else "no way stays off"
    return _said(after, command, f"When it is energised, {words}.")


def _energise(play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("It is on already.",))
    if state.earth_off:
        return stop(state, "the installation was energised with its earthing conductor off")
    if supply_fails(state):
        return stop(
            state, f"it was energised although its supply had failed: {_WITHOUT_NEUTRAL[play.sound.three_phase]}"
        )
    if missing := not_proved(play, state):
        words = "; no ".join(missing_words(state, missing))
        return stop(state, f"it was energised before the dead tests had passed: no {words}")
    after = state._replace(off=False, locked=False, indicator=False, shown_dead=False, proved=False, loads_out=False)
    return _said(after, command, "People warned, covers on, lock off. Energised, one way after the other.")


def _declare(play: Commission, state: State, command: Command) -> CommissionDone:
    failing = sorted({cell.way for cell, record in state.records.items() if not (record.passed or record.limited)})
    if failing and not play.periodic:
        where = "; ".join([f"way {way}" if way else "the origin" for way in failing])
        return CommissionDone(state, (f"The form says that {where} fails: record the retest first, or refuse.",))
    return CommissionDone(_said(state, command, "You sign.").state._replace(ended="declared"))


def _refuse(_play: Commission, state: State, command: Command) -> CommissionDone:
    return CommissionDone(_said(state, command, "You do not sign.").state._replace(ended="refused"))


_DOES: dict[str, Callable[[Commission, State, Command], CommissionDone]] = {
    "inspect": _inspect,
    "isolate": _isolate,
    "lock": _lock,
    "prove indicator": _prove_indicator,
    "prove dead": _prove_dead,
    "loads out": _loads_out,
    "null": _null,
    "volts": _volts,
    "loop": _loop,
    "earth off": _earth_off,
    "earth on": _earth_on,
    "test": take,
    "record": _record,
    "note": _note,
    "mend": _mend,
    "leave": _leave,
    "energise": _energise,
    "declare": _declare,
    "refuse": _refuse,
}
