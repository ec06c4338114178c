"""Players of diagnoses who do anything at all, or nearly what is right; and what must be true of whatever they sign."""

from collections import Counter
from collections.abc import Iterator
from random import Random

from quizzer.circuit.game.actions import ACTIONS, act, name
from quizzer.circuit.game.conditions import conditions_of
from quizzer.circuit.game.exercise import Beside, Exercise, State, cured, stage
from quizzer.circuit.game.replay import ending
from quizzer.circuit.game.second import hidden_behind
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.control.on_site import on_site
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import LAST_FAMILIES, LATER_FAMILIES, SITE_FAMILIES, suspects_on_site
from quizzer.circuit.model.wiring import Circuit
from quizzer.workflows.faults.diagnosing import FIRST_SEED_OF_LATER, every_test, made, played

DEAD = ("lock", "prove indicator", "prove dead", "prove indicator", "disconnect")
# What proves the protective conductor and the polarity of each shape, by the beginnings of the tests' ids: written down
# here anew, beside the program's own list.
PROTECTIVE = {
    **dict.fromkeys(STARTERS, ("cpc",)),
    "ring": ("ends-E", "LE-"),
    "radial": ("LE-",),
    "cooker": ("LE-",),
    "three-phase": ("cpc",),
}
POLARITY = dict.fromkeys(("three-phase", *STARTERS), ("line-",))
# What else is proved of a starter before it is switched on, and that it works.
OF_STARTERS = {"poles": ("pole-",), "start contacts": ("idle-S",), "interlocks": ("lock-",), "rungs": ("rung-",)}
LIGHTS = ("LE-", "plate")
_SITE_SHAPES = ("ring", "radial", "lighting", "three-phase", *STARTERS)
LONGEST = 60  # commands of somebody who does anything at all

Command = str | int | tuple[str, int]


def exercises(each: int) -> list[Exercise]:
    """So many exercises of each shape, at levels in turn; every second with any fault there is on site."""
    return [
        played(shape, 1 + seed % 3, FIRST_SEED_OF_LATER + seed if seed % 2 else seed)
        for shape in SHAPES
        for seed in range(each)
    ]


def site_exercises() -> list[Exercise]:
    """An exercise with each kind of fault that is found on site alone, then two faults, and some that come and go."""
    circuits = [site_circuit(shape, seed) for shape in _SITE_SHAPES for seed in range(3)]
    places = {fault.kind: (circuit, fault) for circuit in circuits for fault in suspects_on_site(circuit)}
    alone = {row.id for family in (*SITE_FAMILIES, *LATER_FAMILIES, *LAST_FAMILIES) for row in family.KINDS}
    assert alone <= places.keys()
    return [
        *(made(*places[kind], Beside(), Random(kind).random) for kind in sorted(alone)),
        *(each for circuit in circuits for each in _beside(circuit)),
    ]


def site_circuit(shape: str, seed: int) -> Circuit:
    """A circuit as it stands on site."""
    dice = Random(seed).random
    circuit = drawn(shape, 3, 8, dice)
    return on_site(circuit, dice) if shape in STARTERS else circuit


def _beside(circuit: Circuit) -> Iterator[Exercise]:
    """With a second fault behind a first, and with one that comes and goes, where the circuit has them."""
    everything, dice = suspects_on_site(circuit), Random(circuit.title).random
    first = everything[int(dice() * len(everything) / 3)]
    if behind := hidden_behind(circuit, first, everything, every_test(circuit), dice):
        yield made(circuit, first, Beside(behind), dice)
    for when in ("load", "move", "wait"):
        having = [fault for fault in everything if when in conditions_of(circuit, fault)]
        if having:
            yield made(circuit, having[-1], Beside(when=when), dice)


def commands(play: Exercise, dice: Random) -> list[Command]:
    """What somebody does: anything at all, or what is right with something left out, doubled or out of its place."""
    return _anything(play, dice) if dice.random() < 0.25 else _nearly_right(play, dice)


def _anything(play: Exercise, dice: Random) -> list[Command]:
    every = [*ACTIONS, *range(len(play.tests)), *(("name", n) for n in range(len(play.suspects)))]
    return [dice.choice(every) for _ in range(dice.randrange(4, LONGEST))]


def _nearly_right(play: Exercise, dice: Random) -> list[Command]:
    first = [list(duty.tests) for duty in play.first_duties]
    last = [list(duty.tests) for duty in play.last_duties]
    true = next(n for n, each in enumerate(play.suspects) if each.fault == play.fault)
    which = true if dice.random() < 0.9 else dice.randrange(len(play.suspects))
    off = dice.choice(("isolate", "isolate all"))
    wrong = dice.random() < 0.1  # another one is repaired before it
    other = [("name", dice.randrange(len(play.suspects))), "repair"] if wrong else []
    proving: list[list[Command]] = [[off], *([each] for each in DEAD)]
    warm: list[list[Command]] = [["load"]] if play.when == "load" else []
    moved: list[list[Command]] = [[play.when]] if play.when in {"move", "wait"} else []
    groups: list[list[Command]] = [
        ["look"], *warm, *proving, *moved, dice.sample(play.allowed, dice.randrange(len(play.allowed) + 1)),
        *([] if play.dead_shows else [*first, ["energise"], *warm, *last, *proving, *moved]),
        other, [("name", which)], ["repair"], *_behind(play, dice, proving), *first, ["energise"], *warm, *last,
        ["certify"],
    ]  # fmt: skip
    for _ in range(dice.choice((0, 0, 1, 1, 2, 3))):
        _spoil(groups, dice)
    return [each for group in groups for each in group]


def _behind(play: Exercise, dice: Random, proving: list[list[Command]]) -> list[list[Command]]:
    """What is done about a second fault that the first hid; of four players one forgets to look for it."""
    if play.then is None or dice.random() < 0.25:
        return []
    first = [list(duty.tests) for duty in play.then.first_duties]
    second = next(n for n, each in enumerate(play.suspects) if each.fault == play.then.fault)
    live = [] if play.then.dead_shows else [["energise"], _live_tests(play.then), *proving]
    dead = [n for n in play.then.allowed if not play.tests[n].instrument.live]
    return [*first, dead, *live, [("name", second)], ["repair"]]


def _live_tests(play: Exercise) -> list[Command]:
    return [
        n for n in play.allowed if play.tests[n].instrument.live and play.tests[n].uses not in {"incoming", "origin"}
    ]


def _spoil(groups: list[list[Command]], dice: Random) -> None:
    """One thing left out, a whole group left out, two groups exchanged, or something done anywhere."""
    at, other = dice.randrange(len(groups)), dice.randrange(len(groups))
    match dice.randrange(4):
        case 0 if groups[at]:
            groups[at].pop(dice.randrange(len(groups[at])))
        case 1:
            groups[at] = []
        case 2:
            groups[at], groups[other] = groups[other], groups[at]
        case _:
            groups.insert(at, [dice.choice(list(ACTIONS))])


def walked(play: Exercise, todo: list[Command]) -> State:
    """The state after the commands; every dead test on the way was done on a circuit that was dead in truth."""
    state = State()
    for each in todo:
        if state.stopped or state.finished:
            break
        before = state
        state = _done(play, state, each)
        if len(state.steps) > len(before.steps) and (at := state.steps[-1].test):
            assert play.tests[at].instrument.live or _dead_in_truth(play, before), (play.fault.say, todo)
    return state


def _done(play: Exercise, state: State, each: Command) -> State:
    if isinstance(each, tuple):
        return name(state, play.suspects[each[1]].fault)[0]
    return (take(play, state, each) if isinstance(each, int) else act(play, state, each))[0]


def _dead_in_truth(play: Exercise, state: State) -> bool:
    """Whether nothing feeds the circuit, its neutral parted: by what is off, not by what was proved."""
    if state.off != "way":
        return state.off == "board"
    wrong_way, fed = play.site.mislabelled and not state.traced, stage(play, state).fed
    return not (wrong_way or fed.line or (fed.neutral and state.loads_out))


def signed_badly(play: Exercise, state: State) -> list[str]:
    """What was not proved of a circuit that was signed for; nothing of one that is left to the network operator."""
    if state.called:
        return [] if state.off and state.locked else ["the board is on"]
    left_in = not cured(stage(play, state), state) or bool(play.then) is not bool(state.mended)
    steps = list(state.steps)
    last = max((n for n, step in enumerate(steps) if step.say.startswith("Repair: ")), default=len(steps))
    touches = state.named.row.touches if state.named else "wiring"
    since = 0 if touches in {"loads", "appliance"} else last
    earth = max((n for n, step in enumerate(steps) if step.say == "earth on"), default=0)
    shape = play.circuit.shape
    wanted = {
        "protective conductor": (PROTECTIVE.get(shape, LIGHTS), max(since, earth)),
        "polarity": (POLARITY.get(shape, ("LE-",)), since),
        "insulation": (("ir-",), 0 if touches == "appliance" else last),
        "loop or RCD": (("loop", "rcd"), last),
    }
    if shape in STARTERS:
        del wanted["loop or RCD"]
        on_site = {"loop": ("loop",), "RCD": ("rcd",), "settings": ("set-",)}
        wanted |= {what: (starts, last) for what, starts in on_site.items() if _has(play, starts)}
        wanted |= {what: (starts, last) for what, starts in OF_STARTERS.items() if _has(play, starts)}
        wanted["operation"] = (("op-",), last)
        wanted |= {what: (starts, last) for what, starts in {"time in star": ("watch",)}.items() if _has(play, starts)}
    unproved = [what for what, (starts, since) in wanted.items() if not _proved(play, state, starts, since, what)]
    return [*unproved, *(["a fault that is still in it"] if left_in else [])]


def read_at_terminals(play: Exercise, state: State) -> bool:
    """Whether every pair was read at the incoming terminals, by what was done: between two proofs of the indicator."""
    proofs = [n for n, step in enumerate(state.steps) if step.say == "prove indicator"]
    pairs = {n for n, test in enumerate(play.tests) if test.uses == "incoming"}
    return bool(proofs) and {step.test for step in state.steps[proofs[0] : proofs[-1]]} >= pairs


def _has(play: Exercise, starts: tuple[str, ...]) -> bool:
    return any(test.id.startswith(starts) for test in play.tests)


def _proved(play: Exercise, state: State, starts: tuple[str, ...], since: int, what: str) -> bool:
    """Whether each test of these ids read as in the sound circuit from a step on; of loop and RCD one is enough."""
    read = {step.test for step in state.steps[since:] if step.test is not None and _sound(play, step.test, step.value)}
    due = [n for n, test in enumerate(play.tests) if test.id.startswith(starts) and not test.never]
    if what == "insulation":
        due = [n for n in due if play.tests[n].setting.volts == 500]
    if what == "protective conductor":
        due = [n for n in due if play.sound[n] < 1000]
    return bool(read & set(due)) if what == "loop or RCD" else bool(due) and read >= set(due)


def _sound(play: Exercise, at: int, value: float) -> bool:
    """Whether a reading is that of the sound circuit, within a tenth; insulation is, from 1 megohm on."""
    if play.tests[at].uses == "insulation":
        return value >= 1e6
    return value == play.sound[at] or abs(value - play.sound[at]) <= 0.1 * play.sound[at] + 0.03


def tally(plays: list[Exercise], count: int, seed: int, verdicts: int) -> Counter[str]:
    """How so many players ended, and the verdict of one in `verdicts` of those who signed with nothing left out.

    Raises AssertionError where one of them signed for what was not proved, or tested dead what was not.
    """
    dice, found = Random(seed), Counter[str]()
    for n in range(count):
        play = plays[n % len(plays)]
        todo = commands(play, dice)
        state = walked(play, todo)
        how = "stopped" if state.stopped else "signed" if state.finished else "not ended"
        found[how] += 1
        duties = {n for duty in (*play.first_duties, *play.last_duties) for n in duty.tests}
        if state.called and ending(play, state).verdict == "right":
            assert read_at_terminals(play, state) or play.fault.row.sizes, (play.circuit.shape, play.fault.say, todo)
        if how == "signed" and (state.called or state.passed >= duties):
            assert signed_badly(play, state) == [], (play.circuit.shape, play.fault.say, todo)
            found["with nothing left out"] += 1
            if dice.random() * verdicts < 1:
                found[f"of one in {verdicts}: {ending(play, state).verdict}"] += 1
    return found
