"""Options as they look: a key that can be told by its length or its capitals."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.bank.entries import Card
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding, said
from quizzer.lint.words import amount

LONGER, FAR_LONGER, SHORTER, UNEVEN = 1.2, 1.5, 0.6, 2.0
BY, LONG_ENOUGH = 10, 25  # characters: below these a difference of length is not seen


def length_cue(card: Card, context: Context) -> Iterator[Finding]:
    """A key longer or shorter than every wrong option, or options of very uneven length."""
    key, *wrong = [len(option.text) for option in said(card)]
    if all(amount(option.text) for option in said(card)):
        return  # 30 mA is not shorter than 300 mA in a way that gives anything away
    longest, shortest = max(wrong), min(wrong)
    what = f"the key has {key} characters, the wrong options {shortest} to {longest}"
    if key >= LONGER * longest and key - longest >= BY:
        code = "Q625" if key >= FAR_LONGER * longest else "Q624"
        yield finding(card, code, ("key",), what, "shorten the key or give the others as much detail")
    elif key <= SHORTER * shortest and shortest - key >= BY:
        yield finding(card, "Q626", ("key",), what, "shorten the wrong options")
    elif max(key, longest) > max(LONG_ENOUGH, UNEVEN * min(key, shortest)):
        yield finding(card, "Q627", ("key",), what, "make the options much of a length")


def same_dress(card: Card, context: Context) -> Iterator[Finding]:
    """Options of which some begin with a capital or end in a full stop and some do not."""
    texts = [option.text for option in said(card)]
    # An abbreviation begins with a capital wherever it stands, and a number with none.
    if len({text[0].isupper() for text in texts if _is_word(text.split()[0])}) > 1:
        yield finding(card, "Q628", ("key",), "some options begin with a capital and some do not", "begin all alike")
    stops = {text.endswith(".") for text in texts if text[-3:-2] != "."}  # the stop of d.c. is none
    if len(stops) > 1:
        yield finding(card, "Q628", ("key",), "some options end in a full stop and some do not", "end all alike")


def _is_word(first: str) -> bool:
    return len(first) > 1 and first.isalpha() and not first[1].isupper()


RULES = (length_cue, same_dress)

_KEY = 'key = "the current"'

PAGES = (
    CodeDoc(
        "Q624",
        "The key is longer than every wrong option",
        "Authors qualify what is right and leave what is wrong short, and trainees know it: the longest option is "
        "the first "
        "guess of whoever knows nothing.",
        'key = "Splits it in two parts to find the fault soon"',
        'key = "Splits it in parts to find the fault"',
        "Shorten the key, or give the wrong options as much detail.",
        warning=True,
        start="action",
    ),
    CodeDoc(
        "Q625",
        "The key is far longer than every wrong option",
        "Half as long again as the longest wrong option: it can be seen across the room which one is the key.",
        'key = "the current that flows in both"',
        _KEY,
        "Move what the key explains into its reason.",
        start="card",
    ),
    CodeDoc(
        "Q626",
        "The key is shorter than every wrong option",
        "One short option among long ones is as easily seen as a long one among short ones.",
        'key = "Splits the loop"',
        'key = "Splits it in parts to find the fault"',
        "Shorten the wrong options.",
        warning=True,
        start="action",
    ),
    CodeDoc(
        "Q627",
        "Options of very uneven length",
        "An option twice as long as another stands out, right or wrong, and draws guesses.",
        'say = "the brightness of each of the lamps"',
        'say = "the brightness"',
        "Make the options much of a length.",
        warning=True,
        start="card",
        at="key = ",
    ),
    CodeDoc(
        "Q628",
        "Options that begin or end differently",
        "The option that was written last, or by somebody else, shows.",
        'say = "The brightness"',
        'say = "the brightness"',
        "Begin all with a capital or none, and end all with a full stop or none.",
        warning=True,
        start="card",
        at="key = ",
    ),
)
