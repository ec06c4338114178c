"""Players of commissionings: the best one, some who do anything at all or nearly what is right, and what must hold."""

from collections import Counter
from random import Random

from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.best import commands_of_best
from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.marking import marked
from quizzer.circuit.commissioning.state import Command, State, installation_now, present
from quizzer.circuit.installation.checks import Check, checks_of
from quizzer.circuit.installation.drawing import SIZES
from quizzer.circuit.installation.further_departures import LAST_SEED
from quizzer.workflows.faults.commissioning import commissioned

# Written down here anew, beside the program's own lists.
DEAD: set[Check] = {"bonds", "r1r2", "ring", "ir", "polarity"}
CHECKS: tuple[Check, ...] = (*DEAD, "supply", "ze", "ipf", "zs", "rcd", "function")
DOES = (
    "isolate", "lock", "prove indicator", "prove dead", "prove indicator", "loads out", "null", "earth off", "earth on",
    "mend", "energise", "declare", "refuse",
)  # fmt: skip


def commissions(each: int) -> list[Commission]:
    """So many of each size, old and new, at levels in turn."""
    return [
        commissioned(size, 1 + seed % 3, seed, periodic=periodic)
        for size in SIZES
        for periodic in (False, True)
        for seed in (n + LAST_SEED * (n % 2) for n in range(each))  # of both sides of the kinds that came later
    ]


def best_commands(play: Commission) -> list[Command]:
    """The commands of the best play, to its end."""
    state, found = start(play), []
    for command in commands_of_best(play, state):
        found.append(command)
        state = act(play, state, command).state
        if state.ended or state.stopped:
            break
    return found


def start(play: Commission) -> State:
    """How it begins."""
    return State(off=not play.periodic)


def spoiled(play: Commission, best: list[Command], dice: Random) -> list[Command]:
    """Anything at all; or the best play with things left out, doubled, exchanged or put in."""
    if dice.random() < 0.2:
        return [_anything(play, dice) for _ in range(dice.randrange(4, 50))]
    todo = list(best)
    for _ in range(dice.choice((0, 1, 1, 2, 3, 4))):
        at, other = dice.randrange(len(todo)), dice.randrange(len(todo))
        match dice.randrange(4):
            case 0:
                todo.pop(at)
            case 1:
                todo[at], todo[other] = todo[other], todo[at]
            case 2:
                todo.insert(at, _anything(play, dice))
            case _:
                todo[at] = _fewer(todo[at], dice)
    return todo


def _fewer(command: Command, dice: Random) -> Command:
    """The command on fewer ways, or with fewer records, or with a remedy that cures nothing else."""
    if command.note:
        return command._replace(note=command.note._replace(answer="sleeve the conductors at every termination"))
    if command.records:
        return command._replace(records=tuple(each for each in command.records if dice.random() < 0.9))
    return command._replace(ways=tuple(way for way in command.ways if dice.random() < 0.8))


def _anything(play: Commission, dice: Random) -> Command:
    ways = tuple(way.number for way in play.sound.ways if dice.random() < 0.7)
    match dice.randrange(4):
        case 0:
            return Command("test", ways, dice.choice(CHECKS))
        case 1:
            return Command("inspect", (0, *ways))
        case 2:
            return dice.choice(
                (Command("volts", setting="250"), Command("volts", setting="500"), Command("loop", setting="no-trip"),
                 Command("loop", setting="high"), Command("leave", ways[:2]))
            )  # fmt: skip
        case _:
            return Command(dice.choice(DOES))


def walked(play: Commission, todo: list[Command]) -> State:
    """The state after the commands; no dead test on the way was done on what was not off, locked and proved dead.

    Nor was anything energised whose means of earthing fails.
    """
    state, proved = start(play), False
    for command in todo:
        before = state
        done = act(play, state, command)
        state = done.state
        proved = _truly_proved(before, command, proved)
        if before.off and not state.off:
            now = installation_now(play, before)
            assert now.supply.z_e <= now.declared + 1e-9, (play.seed, command)
        if command.does == "test" and command.check in DEAD and done.fields:
            assert before.off, (play.seed, command)
            assert before.locked, (play.seed, command)
            assert proved, (play.seed, command)
    return state


def _truly_proved(before: State, command: Command, proved: bool) -> bool:
    """Whether it is proved dead by what was done: again after the showing, with nothing switched on in between."""
    if command.does in {"energise", "isolate"}:
        return False if command.does == "energise" or not before.off else proved
    return proved or (command.does == "prove indicator" and before.shown_dead and before.off and before.locked)


def unproved(play: Commission, state: State) -> list[str]:
    """What was not tested since the last repair of what passed in full: by the steps alone, not by the marks."""
    last = {way.number: -1 for way in play.sound.ways}
    tested: dict[tuple[int, str], int] = {}
    for at, step in enumerate(state.steps):
        command = step.command
        if command.does == "mend":
            last |= {int(word.rstrip(".,")): at for word in _retested(step.say)}
        if command.does == "test" and command.check:
            tested |= {(way, command.check): at for way in command.ways}
    missing = []
    for way in play.sound.ways:
        for check in ("r1r2", "polarity"):
            if tested.get((way.number, check), -1) <= last[way.number] - 1 and _wired(play, way.number, state):
                missing.append(f"{check} of way {way.number}")
            if (way.number, check) not in tested:
                missing.append(f"{check} of way {way.number}")
        assert check in checks_of(way)
    return missing


def _retested(said: str) -> list[str]:
    words = said.partition("To be tested again:")[2].replace("way ", "").replace("the origin", "").split()
    return [word for word in words if word.rstrip(".,").isdecimal()]


def _wired(play: Commission, way: int, state: State) -> bool:
    """Whether a repair of the way's wiring was made."""
    return any(
        way in each.ways and each.kind.touches == "wiring" and each.key in state.mended for each in play.everything
    )


def tally(plays: list[Commission], count: int, seed: int) -> Counter[str]:
    """How so many players ended. Raises AssertionError where one passed with something unproved, or tested live."""
    dice, found = Random(seed), Counter[str]()
    bests = [best_commands(play) for play in plays]
    for n in range(count):
        at = n % len(plays)
        state = walked(plays[at], spoiled(plays[at], bests[at], dice))
        mark = marked(plays[at], state) if state.ended else None
        how = "stopped" if state.stopped else "not ended" if mark is None else "passed" if mark.passed else "not passed"
        found[how] += 1
        if mark is not None and mark.passed:
            assert unproved(plays[at], state) == [], (plays[at].seed, unproved(plays[at], state))
            signed = state.ended == "declared" and not plays[at].periodic
            assert not (signed and present(plays[at], state)), (plays[at].seed, present(plays[at], state))
            assert not state.earth_off, plays[at].seed
            found["in full"] += mark.full
    return found
