"""Pages of what is found while an entry is read: expressions, names, units, verdicts and shared lists."""

from __future__ import annotations

from quizzer.bank.mends import KNOWN_CAUTION, NAMED_TOPICS, NO_ROW, REACHABLE
from quizzer.blocks.words import capital
from quizzer.lint.page import CodeDoc
from quizzer.lint.starts import lines

_ROW = 'cable = { table = "sizes" }'

PAGES = (
    CodeDoc(
        "Q201",
        "An expression that cannot be read",
        "Expressions are plain arithmetic: + - * / ** ( ), numbers, names, a few functions and the template's "
        "look-ups. Nothing "
        "else is ever run.",
        'expr = "U ^ 2 / R"',
        'expr = "U * R_1 / R"',
        "Write ** for power; split long sums into steps. The finding points at the place.",
    ),
    CodeDoc(
        "Q202",
        "A name that is not known",
        "An expression may use givens and earlier steps; a wording may use givens, steps and drawn words.",
        'expr = "U * R_1 / R_total"',
        'expr = "U * R_1 / R"',
        "Check the spelling, and put the step that makes the value before the step that uses it.",
    ),
    CodeDoc(
        "Q203",
        "A slip that uses what is not worked out yet",
        "The slip takes the place of its step, so it can use only what is known before that step.",
        'expr = "U_1 / 2"',
        'expr = "U / 2"',
        "Use earlier values, or bend a later step.",
    ),
    CodeDoc(
        "Q301",
        "An unknown unit",
        "Each unit word has a factor to SI that is checked against a library of units; a word outside the list has "
        "none.",
        'U = { unit = "volts", one_of = [12, 24, 110, 230], say = "supply" }',
        'U = { unit = "V", one_of = [12, 24, 110, 230], say = "supply" }',
        "Write A, V, ohm, mm2, kWh and so on; scripts/units makes the row of a new one.",
    ),
    CodeDoc(
        "Q505",
        "A verdict whose outcomes leave a gap",
        "Outcomes are tried in order, and the last is what remains: it has no condition, and every other has one.",
        'outcome = "it suits"',
        'when = "I_t <= I_z"\noutcome = "it suits"',
        "Give every outcome but the last its `when`.",
        start="verdict",
        at="[[template.verdict]]",
    ),
    CodeDoc(
        "Q601",
        "A card with both steps and a key",
        "An order card is answered by putting its steps in order; its key is the order itself.",
        'level = "recall"\nkey = "Prove the tester on a known source"',
        'level = "recall"',
        "Take out the key and the wrong options, or the steps.",
        start="order",
        at="key = ",
    ),
    CodeDoc(
        "Q901",
        "A table without rows",
        "Nothing can be drawn from it or looked up in it.",
        "",
        lines("table", "[[row]]"),
        "Add a [[row]] for each line that questions need, or take the table out.",
        start="table",
        at=".",
    ),
    CodeDoc(
        "Q902",
        "No such table",
        "A template names a table by its file in banks/tables, without the ending.",
        'cable = { table = "size" }',
        _ROW,
        "Correct the name, or add the table.",
        start="verdict",
    ),
    CodeDoc(
        "Q903",
        "No such column",
        "The table has other columns than the template draws, looks up or limits.",
        'I_z = { row = "cable", column = "amperes", say = "its rating" }',
        'I_z = { row = "cable", column = "rating", say = "its rating" }',
        "Write a name that stands under [column] in the table.",
        start="verdict",
    ),
    CodeDoc(
        "Q904",
        capital(NO_ROW),
        "`only` leaves no row of the table that has every column the template takes.",
        'cable = { table = "sizes", only = { size = [10] } }',
        _ROW,
        "Widen `only`, or fill the missing cells.",
        start="verdict",
    ),
    CodeDoc(
        "Q905",
        "No such caution",
        "A caution that cannot be found would not be shown beside dangerous work.",
        'cautions = ["isolate-furst"]',
        'cautions = ["isolate-first"]',
        f"{capital(KNOWN_CAUTION)}.",
        start="order",
    ),
    CodeDoc(
        "Q910",
        "A blueprint that cannot be met",
        "It has no sections, two of one id, or a pass mark above the number of its questions.",
        "pass_mark = 17",
        "pass_mark = 7",
        f"{capital(REACHABLE)}; give each section an id of its own.",
        start="blueprint",
    ),
    CodeDoc(
        "Q911",
        "A blueprint that names no topic of the bank",
        "Its section would be made of the other topics alone, or of nothing.",
        'topics = ["safty"]  # topics, or',
        'topics = ["safety"]  # topics, or',
        f"Write the topic or sub-topic as the folder or file is called; {NAMED_TOPICS}.",
        start="blueprint",
    ),
)
