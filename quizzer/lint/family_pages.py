"""The pages of what the reading of a family complains of: how much it holds, and names that do not fit."""

from __future__ import annotations

from quizzer.lint.page import CodeDoc
from quizzer.lint.starts import lines

_SPARE = "".join(f'[family.thing.spare-{at}]\nsay = "spare {at}"\nis = "a spare"\n' for at in range(1, 6))
_POOL = "[family.thing.clamp-meter]"
_LAST_CASES = lines("family", 'key = "low-ohm-meter"')
_NOT = 'not = ["power-meter"]  # could be argued for here, so it is never offered with this case'
_NEARLY_ALL = (
    'not = ["power-meter", "speed-gauge", "low-ohm-meter", "insulation-tester", "rotation-tester"]  # two are left'
)
_STEPS_OF_PART = 'steps = ["prove-tester", "test", "prove-again", "disconnect", "take-down"]'
_FIRST_STEP = "[family.step.isolate]"
_SPARE_STEPS = "".join(f'[family.step.spare-{at}]\nsay = "Spare {at}"\nwhy = "It is a spare."\n' for at in range(1, 8))

PAGES = (
    CodeDoc(
        "Q661",
        "Too few or too many things in a pool",
        "With fewer than five things the wrong ones are the same each time; past twelve nobody keeps them apart, and "
        "some are sure to be chosen by no one. Eight is usual.",
        _SPARE + _POOL,
        _POOL,
        "Have five to twelve things; split a theme that needs more.",
        start="family",
        at="[[family]]",
    ),
    CodeDoc(
        "Q662",
        "Too few or too many cases in a family",
        "Under five cases a family is a card; past twelve it is two themes. Eight or more are worth the pool.",
        _LAST_CASES.partition("\n")[0],
        _LAST_CASES,
        "Have five to twelve cases, each of which wants one thing of the pool.",
        start="family",
        at="[[family]]",
    ),
    CodeDoc(
        "Q663",
        "A name that the family does not have",
        "Keys, reasons and parts name things and steps by their ids. A misspelt one would give a case without an "
        "answer, or a reason that nobody is told.",
        'key = "speed-meter"',
        'key = "speed-gauge"',
        "Write the id of a thing of the pool, or of a step of the procedure.",
        start="family",
    ),
    CodeDoc(
        "Q664",
        "A case that leaves too few wrong things",
        "Three other things are offered with each case. A thing is the answer, or wrong with a reason, or never "
        "offered: not two of these.",
        _NEARLY_ALL,
        _NOT,
        "Take things out of its `not`, add things to the pool, or take out the reason of a thing never offered.",
        start="family",
    ),
    CodeDoc(
        "Q665",
        "Too few or too many steps in a procedure",
        "Of fewer than five steps there are no parts to ask; past twelve it is two procedures.",
        _SPARE_STEPS + _FIRST_STEP,
        _FIRST_STEP,
        "Have five to twelve steps, only those whose order matters.",
        start="order-family",
        at="[[family]]",
    ),
    CodeDoc(
        "Q666",
        "A part of a procedure that cannot be asked",
        "Three steps are soon guessed and seven are a test of patience; and a part keeps the order of its procedure, "
        "because that order is the key.",
        'steps = ["prove-tester", "prove-again", "test", "disconnect", "take-down"]',
        _STEPS_OF_PART,
        "Name four to six steps of the procedure, in its order.",
        start="order-family",
    ),
)
