"""The pages at the end of a diagnosis: the verdict with its paper on one screen, and the replay."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from typing import assert_never

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Heading, Paragraph, Points
from quizzer.blocks.words import NOT_FOUND, NOT_PASSED, RIGHT, capital
from quizzer.circuit.game.conditions import WORDS
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.paper import not_proved, results
from quizzer.circuit.game.replay import Ending, Played, Replay

_FOUND = {
    "wiring": "found and told from all else, mended, proved again, and handed over",
    "machine": "found and told from all else, mended, proved, operated, and handed over",
    "loads": "found and told from all else, taken out, proved again, and handed over",
    "appliance": "found and told from all else, unplugged, proved again, and handed over",
    "supply": "found with the loads off, and left to the network operator, whose supply it is",
}
_PAPERS = {
    "wiring": "Minor works certificate: an exercise",
    "machine": "Record of a repair to a machine: an exercise",
    **dict.fromkeys(("loads", "appliance"), "Record of results: an exercise"),
}
_LEFT = {
    "unfinished": "FOUND and told from all else, but not yet mended, proved again and handed over",
    "second left": "ONE FAULT FOUND and mended; another was behind it: all is tested again after a repair",
    "not found": NOT_FOUND,
}
_NO_WORKS = "Nothing was altered: no certificate belongs to it."
_LIMITS = "Limits from memory of the edition in the banks: check the book in force. Tell the client the cause."
_SIGNED = "Name: ____________  Signature: ____________  Date: ____________"
_FOOT = "A study aid: your assessor decides whether you are competent."


def end_page(play: Exercise, state: State, found: Ending) -> Page:
    """The verdict, and the paper as far as it is filled in: with a prompt it stands on a screen of 24 lines.

    What stopped for safety, and is begun again, is not told its fault.
    """
    paper = _paper(play, state, found) if state.finished and not state.called else ()
    told = () if state.stopped else (Paragraph(_faults(play)),)
    return Page("How it ended", [_verdict(play, found, state.stopped), *told, *paper, Gap(), Paragraph(_FOOT)])


def _faults(play: Exercise) -> str:
    """What there was to find, and how it is mended."""
    when = f", {WORDS[play.when]}" if play.when else ""
    first = f"The fault: {play.fault.say}{when}. Repair: {play.fault.row.repair}."
    behind = play.then and f" Behind it: {play.then.fault.say}. Repair: {play.then.fault.row.repair}."
    return f"{first}{behind or ''}"


def _verdict(play: Exercise, found: Ending, stopped: str) -> Paragraph:
    words = _in_words(play, found, stopped)
    return Paragraph(f"{words}.", "right" if found.verdict == "right" else "wrong")


def _in_words(play: Exercise, found: Ending, stopped: str) -> str:
    match found.verdict:
        case "right":
            return f"{RIGHT}: {_FOUND[play.fault.row.touches]}"
        case "left out":
            return f"{NOT_PASSED}: signed, and after the repair not proved: {'; '.join(found.left_out)}"
        case "unproved":
            suspects = f"your readings left {found.left} suspects when you named it"
            why = "; ".join(found.unread) or f"{suspects}. A guess is no diagnosis"
            return f"{NOT_PASSED}: FOUND WITHOUT PROOF: {why}"
        case "unfinished" | "second left" | "not found":
            return _LEFT[found.verdict]
        case "stopped":
            return f"STOPPED FOR SAFETY: {stopped}. No result counts after that"
    assert_never(found.verdict)


def _paper(play: Exercise, state: State, found: Ending) -> Iterator[Block]:
    """The paper of the repair, filled in as far as an exercise goes."""
    touches = play.fault.row.touches
    yield Heading(_PAPERS[touches])
    nothing = f" {_NO_WORKS}" if touches in {"loads", "appliance"} else ""
    circuit = play.circuit
    yield Paragraph(f"{capital(circuit.title)}, {circuit.device}, supply {circuit.supply}.{nothing}")
    lines = [
        f"{capital(line.head)}: {line.readings}{'; ' if line.limit else ''}{line.limit}"
        for line in results(play, state)
    ]
    yield Points([*lines, *(capital(not_proved(play.then or play, state, duty)) for duty in found.left_out)])
    yield Paragraph(_LIMITS)
    yield Paragraph(_SIGNED)


def replay_page(played: Replay) -> Page:
    """Each step with the suspects before and after it, and the best way."""
    return Page("Step by step", [*_replay(played)])


def _replay(played: Replay) -> Iterator[Block]:
    used = f"Tests used to find it: {played.used}."
    yield Paragraph(f"{used} The fewest that could have told it, after a look: {played.fewest}.")
    yield Points([*_steps(played.steps)], ordered=True)
    yield Gap()
    way = f"In the trade's order, for whoever does not know the fault: {_grouped(played.best_way)}."
    yield Paragraph(way if played.best_way else "The look tells it all.")


def _grouped(tests: tuple[tuple[str, str], ...]) -> str:
    """The tests of a way: those of one group that follow one another together, with their number."""
    words = []
    for group, together in groupby(tests, key=lambda test: test[0]):
        places = [place for _, place in together]
        one = f"{group}, {places[0]}" if places[0] else group
        words.append(one if len(places) == 1 else f"{group} ({len(places)})")
    return "; ".join(words)


def _steps(steps: tuple[Played, ...]) -> Iterator[str]:
    """A line for each step; tests repeated one after another share one, and so do those with nothing left to tell."""
    for (again, idle), together in groupby(steps, key=lambda step: (step.again, _idle(step))):
        named = list(together)
        if idle and len(named) > 1:
            yield f"{len(named)} more tests, with 1 suspect left already."
        elif again:
            kinds = Counter(step.group for step in named)
            yield f"Again: {'; '.join(kind if many == 1 else f'{kind} ({many})' for kind, many in kinds.items())}."
        else:
            yield from map(_step, named)


def _idle(step: Played) -> bool:
    return bool(step.group) and not step.again and step.before == 1


def _step(step: Played) -> str:
    if not step.group:
        return f"{capital(step.say)}{'' if step.say.endswith('.') else '.'}"
    better = f" Better here: {step.better}." if step.better else ""
    left = "1 suspect" if step.before == 1 else f"{step.before} suspects"
    return f"{capital(step.say)}: {left}, then {step.after}.{better}"
