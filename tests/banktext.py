"""Bank files as text for tests: a sound sample, and reading text that was never on a disk."""

from quizzer.bank.entries import Caution, Entry
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import Shared, parse, read_file
from quizzer.bank.tables import Table, read_table

SIZES = """
title = "Sizes"
source = "invented"
edition = "not tied to an edition"
evidence = "practice"
[column]
size = { unit = "mm2", say = "size" }
rating = { unit = "A", say = "rating" }
[[row]]
size = 1.5
rating = 20
[[row]]
size = 2.5
rating = 27
[[row]]
size = 4
rating = 37
"""

TEMPLATE = """
edition = "not tied to an edition"

[[template]]
id = "divider"
level = "apply"
ask = ["{U} lies across {R_1} and {R_2} in series. What is the voltage across {R_1}?",
       "Two resistors of {R_1} and {R_2} share {U}. How much is across the first?"]
answer = "U_1"
source = "Ohm's law"
evidence = "practice"

[template.given]
U = { unit = "V", one_of = [12, 24, 110, 230], say = "supply" }
R_1 = { unit = "ohm", low = 10, high = 90, step = 5, say = "first" }
R_2 = { unit = "ohm", low = 100, high = 390, step = 10, say = "second" }

[[template.step]]
name = "R"
unit = "ohm"
expr = "R_1 + R_2"
say = "In series they add."
[[template.step]]
name = "U_1"
unit = "V"
expr = "U * R_1 / R"
say = "The voltage divides as the resistances do."
places = 2

[[template.slip]]
id = "wrong-component"
step = "U_1"
expr = "U * R_2 / R"
why = "That is the voltage across {R_2}."
[[template.slip]]
id = "shared-equally"
step = "U_1"
expr = "U / 2"
why = "They are not equal."
[[template.slip]]
id = "wrong-ratio"
step = "U_1"
expr = "U * R_1 / R_2"
why = "The whole is {R}, not {R_2}."
[[template.slip]]
id = "doubled"
step = "U_1"
expr = "U * R_1 / (2 * R)"
why = "The supply passes each resistor once."
[[template.slip]]
id = "not-squared"
step = "U_1"
expr = "U * R_1 / (R + R_2)"
why = "The second resistor counts once."
[[template.slip]]
id = "subtracted-for-added"
step = "R"
expr = "R_2 - R_1"
why = "In series they add."

[[template.proof]]
source = "worked by hand"
given = { U = 24, R_1 = 35, R_2 = 310 }
expect = { R = 345, U_1 = 2.4348 }
"""

CARD = """
edition = "not tied to an edition"

[[card]]
id = "series-current"
level = "recall"
ask = "What is the same in every part of a series circuit?"
key = "the current"
reason = "There is one path."
source = "Kirchhoff"
evidence = "published"
[[card.wrong]]
say = "the voltage"
why = "It divides."
[[card.wrong]]
say = "the power"
why = "It divides too."
[[card.wrong]]
say = "the resistance"
why = "Each part has its own."
[[card.wrong]]
say = "the energy"
why = "It divides with the power."
"""

ORDER = """
edition = "not tied to an edition"

[[card]]
id = "prove-test-prove"
level = "recall"
ask = "Put the steps of proving dead in order."
source = "HSE GS38"
evidence = "memory"
safety_critical = true
cautions = ["isolate"]
[[card.step]]
say = "Prove the tester on a known source"
why = "A dead tester shows dead everywhere."
[[card.step]]
say = "Test between all conductors"
why = "Only then does no reading mean no voltage."
[[card.step]]
say = "Prove the tester again"
why = "It may have failed meanwhile."
[[card.step]]
say = "Start work"
why = "Only a proved circuit is dead."
"""

CAUTIONS = {"isolate": Caution("isolate", True, "Treat as live.", "your supervisor")}


def table(text: str = SIZES, name: str = "sizes") -> Table:
    """A table from its text; complaints fail the test."""
    notes = Notes(f"banks/tables/{name}.toml", text)
    found = read_table(name, Fields(parse(notes), (), notes))
    assert not notes.issues, notes.issues
    return found


def read(text: str, folder: str = "topic/file") -> tuple[tuple[Entry, ...], list[tuple[str, int]]]:
    """Entries and complaints (code, line) of a bank text."""
    notes = Notes(f"banks/{folder}.toml", text)
    shared = Shared(CAUTIONS, lambda name: table() if name == "sizes" else None)
    entries = read_file(notes, folder, shared)
    return entries, [(issue.code, issue.place.line) for issue in notes.issues]


def entry(text: str) -> Entry:
    """The one sound entry of a bank text."""
    (found,), complaints = read(text)
    assert not complaints
    return found


def line_with(text: str, words: str) -> int:
    """The number of the first line that holds the words."""
    return next(number for number, line in enumerate(text.split("\n"), 1) if words in line)
