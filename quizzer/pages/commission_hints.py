"""At level 1: what comes next in the trade's order, without telling what there is to find."""

from __future__ import annotations

from quizzer.circuit.commissioning.state import Command
from quizzer.circuit.commissioning.testing import spelled
from quizzer.circuit.installation.checks import Check

_WHY: dict[str, str] = {
    "isolate": "everything off before a cover comes off",
    "lock": "nobody else switches it on",
    "prove indicator": "it is proved before and after",
    "prove dead": "at the point of work, between all conductors",
    "loads out": "lamps and electronics would read as a fault, or be harmed",
    "null": "else the leads stand in every reading",
    "energise": "the dead tests have passed, and no live part is left within reach",
    "leave": "a supply or an earth that fails keeps all of it off: note it, record live tests as lim, and refuse",
    "earth off": "no parallel path, and only while everything is off",
    "earth on": "back before anything is energised or signed",
}
_WHY_TEST: dict[Check, str] = {
    "bonds": "the first of the dead tests",
    "r1r2": "an open protective conductor would make metal live in a loop test",
    "ring": "no live test shows a break in a ring",
    "ir": "shorts and damage are found before the supply is on",
    "polarity": "wrong poles leave parts live when off",
    "supply": "nothing means anything if the supply is wrong",
    "ze": "it confirms the supplier's earth",
    "ipf": "the devices must be able to break it",
    "zs": "the device has to disconnect in time",
    "rcd": "after the loop, since its test current needs an earth",
    "function": "operation seen, not assumed",
}


def hint(command: Command | None) -> str:
    """What comes next, with its reason."""
    if command is None:
        return "Next: have put right what you noted (mend, then test again), and sign (declare) or refuse."
    where = f" {spelled(command.ways)}" if command.ways not in {(), (0,)} else ""
    match command.does:
        case "test" if command.check is not None:
            return f"Next: {command.check}{where}; {_WHY_TEST[command.check]}. Note what is not as it should be."
        case "inspect":
            return f"Next: inspect{where or ' 0'}; no meter finds what an eye does. Note what is not as it should be."
        case "volts":
            return f"Next: ir {command.setting}, for electronics that stay connected or as the schedule asks."
        case "loop":
            return f"Next: loop {command.setting}; high current trips RCDs, the other range reads a little high."
        case does:
            return f"Next: {does}{where}; {_WHY[does]}."
