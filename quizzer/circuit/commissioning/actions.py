"""What is done beside testing: making safe, setting instruments, naming, mending, energising, declaring."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.mending import mend
from quizzer.circuit.commissioning.noting import kept_off_by_note, note
from quizzer.circuit.commissioning.proving import earth_fails, earth_owed, not_proved, supply_fails, too_early
from quizzer.circuit.commissioning.showing import having_shown
from quizzer.circuit.commissioning.state import (
    Command,
    CommissionDone,
    CommissionStep,
    State,
    installation_now,
    said,
    stop,
)
from quizzer.circuit.commissioning.testing import spelled, take
from quizzer.circuit.installation.seeing import seen
from quizzer.circuit.installation.ways import BLANK_OUT


def act(play: Commission, state: State, command: Command) -> CommissionDone:
    """The state after one command, and what it showed. Nothing is done once it has ended."""
    if state.stopped or state.ended:
        return CommissionDone(state)
    return having_shown(play, state, _DOES[command.does](play, state, command))


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


_UNEARTHED = {  # in TT, or not
    True: "metal stays at more than 50 V, and no RCD is sure to trip. It stays off and the person in charge is told "
    "until the electrode is put right, and nobody signs for it before",
    False: "no overcurrent device clears a fault in time, and an earth that is loose may open altogether. It stays "
    "off; the person in charge and the network operator are told, and nobody signs for it",
}
_WITHOUT_NEUTRAL = {  # what happens, on three phases or not
    True: "loads get what their neighbours leave",
    False: "every load that is on makes the neutral live",
}


def _isolate(play: Commission, state: State, command: Command) -> CommissionDone:
    if state.off:
        return said(state, command, f"The main switch is off, every pole: it was before.{_second(play)}")
    after = state._replace(off=True, locked=False, indicator=False, shown_dead=False, proved=False)
    return said(after, command, f"People are told; the main switch is off, every pole.{_second(play)}")


def _second(play: Commission) -> str:
    """That a second supply is isolated too."""
    solar = any(way.serves == "solar" for way in play.sound.ways)
    return " The inverter is isolated too: it is a second supply." if solar else ""


def _lock(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("The main switch is on: it is switched off first.",))
    return said(state._replace(locked=True), command, "Locked off with your own lock, the notice is up.")


def _prove_indicator(_play: Commission, state: State, command: Command) -> CommissionDone:
    again = state.shown_dead and state.locked
    after = state._replace(indicator=True, proved=again or state.proved)
    words = "The proving unit lights every step of the indicator."
    return said(after, command, f"{words} Proved dead." if again else words)


def _prove_dead(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.indicator:
        return CommissionDone(state, ("The indicator is proved on its proving unit first.",))
    if not state.off:
        return said(state._replace(indicator=False), command, "230 V: it is LIVE. The main switch is on.")
    if not state.locked:
        return CommissionDone(state, ("Locked off first: who proves it dead goes away from the switch.",))
    after = state._replace(shown_dead=True, indicator=False)
    return said(after, command, "0 V between all conductors at the point of work. Now prove the indicator again.")


def _loads_out(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.proved:
        return stop(state, "terminals were opened before everything was proved dead")
    words = "Lamps, appliances, electronics and surge devices are out, switches on. What cannot be taken out, stays."
    return said(state._replace(loads_out=True), command, words)


def _null(_play: Commission, state: State, command: Command) -> CommissionDone:
    return said(state._replace(nulled=True), command, "Leads joined and nulled: 0.00 Ω.")


def _volts(_play: Commission, state: State, command: Command) -> CommissionDone:
    if state.volts == int(command.setting):
        return CommissionDone(state)
    after = state._replace(volts=int(command.setting))
    return said(after, command, f"The insulation tester is set to {command.setting} V.")


def _loop(_play: Commission, state: State, command: Command) -> CommissionDone:
    trips = command.setting == "high"
    words = "high current, which trips RCDs" if trips else "the range that does not trip RCDs, and reads a little high"
    return said(state._replace(trips=trips), command, f"The loop tester is set to {words}.")


def _earth_off(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not (state.off and state.proved):
        return stop(state, "the earthing conductor was taken off an installation that was not proved dead")
    words = "The earthing conductor is off its terminal. It goes back before anything is energised."
    return said(state._replace(earth_off=True), command, words)


def _earth_on(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.earth_off:
        return CommissionDone(state, ("The earthing conductor is on.",))
    return said(state._replace(earth_off=False), command, "The earthing conductor is back and tight.")


def _record(_play: Commission, state: State, command: Command) -> CommissionDone:
    return CommissionDone(state._replace(records={**state.records, **dict(command.records)}))


def _leave(_play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("Ways are left off while everything is off.",))
    after = state._replace(left=frozenset(command.ways))
    one = len(command.ways) == 1
    words = f"{'way' if one else 'ways'} {spelled(command.ways)} {'stays' if one else 'stay'} off, locked and labelled"
    words += "; what is not tested there is recorded as lim"
    words = words if command.ways else "no way stays off"
    return said(after, command, f"When it is energised, {words}.")


def _energise(play: Commission, state: State, command: Command) -> CommissionDone:
    if not state.off:
        return CommissionDone(state, ("It is on already.",))
    owed = earth_owed(play, state)
    if why := _breach(play, state, owed):
        return stop(state, why)
    if wait := owed or kept_off_by_note(state):
        return CommissionDone(state, (wait,))
    after = state._replace(off=False, locked=False, indicator=False, shown_dead=False, proved=False, loads_out=False)
    return said(after, command, "People warned, covers on, lock off. Energised, one way after the other.")


def _breach(play: Commission, state: State, owed: str) -> str:
    """Why energising stops it, "" where it does not; `owed` is which reading of the external loop is still owed."""
    if state.earth_off:
        return "the installation was energised with its earthing conductor off"
    if supply_fails(state):
        return f"it was energised although its supply had failed: {_WITHOUT_NEUTRAL[play.sound.three_phase]}"
    if installation_now(play, state).blanks == BLANK_OUT:
        return "it was energised with a live part within reach, which inspection shows and nobody noted"
    if missing := not_proved(play, state):
        return f"it was energised {', and '.join(too_early(state, missing))}"
    words = _UNEARTHED[play.sound.supply.earthing == "TT"]
    failed = earth_fails(state) and not owed
    return f"it was energised although its means of earthing had failed: {words}" if failed else ""


_EARTH_FIRST = "The earthing conductor goes back on first (earth on): nothing is signed or refused while it is off."


def _declare(play: Commission, state: State, command: Command) -> CommissionDone:
    if state.earth_off:
        return CommissionDone(state, (_EARTH_FIRST,))
    failing = sorted({cell.way for cell, record in state.records.items() if not (record.passed or record.limited)})
    if failing and not play.periodic:
        where = "; ".join([f"way {way}" if way else "the origin" for way in failing])
        return CommissionDone(state, (f"The form says that {where} fails: record the retest first, or refuse.",))
    return CommissionDone(said(state, command, "You sign.").state._replace(ended="declared"))


def _refuse(_play: Commission, state: State, command: Command) -> CommissionDone:
    if state.earth_off:
        return CommissionDone(state, (_EARTH_FIRST,))
    return CommissionDone(said(state, command, "You do not sign.").state._replace(ended="refused"))


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
    "note": note,
    "mend": mend,
    "leave": _leave,
    "energise": _energise,
    "declare": _declare,
    "refuse": _refuse,
}
