"""What is asked of a working, over every sum of the bank: one key, options that differ, lines that can be keyed in."""

import re
from collections import Counter
from itertools import pairwise

import pytest

from quizzer.bank.entries import Template
from quizzer.bank.exercises import EXERCISES, SumExercise
from quizzer.errors import Refused
from quizzer.expression.showing import symbol
from quizzer.question.drawing import run
from quizzer.question.exercises.making import make_exercise, refusal
from quizzer.question.exercises.wrong_lines import ALL_RIGHT
from quizzer.question.making import make
from quizzer.question.replies import Reply, mark
from tests.bankfiles.keyed import gives
from tests.shippedbank import entries, templates

SEEDS = range(2)
SUMS = templates()
LINE = re.compile(r"(?:Line (?P<at>\d): )?(?P<text>.* = .*)")
NUMBERED = re.compile(r"Line \d: ")
# How many of the sums each can be asked of: 68 have one line only, 38 have all their mistakes in one line.
FEWEST = {
    "missing-line": 206,
    "missing-lines": 65,
    "next-line": 206,
    "wrong-line": 168,
    "wrong-line-or-none": 168,
    "first-step": 180,
    "about-how-much": 242,
}


def neighbours(entry):
    return [each for each in SUMS if each.head.topic == entry.head.topic and each is not entry]


def asked(name, seeds=SEEDS):
    """Every question of this exercise, with its entry; sums that refuse it are left out."""
    for entry in SUMS:
        near = neighbours(entry) if name == "first-step" else ()
        if refusal(entry, SumExercise(name), near):
            continue
        for seed in seeds:
            try:
                yield entry, make_exercise(entry, seed, SumExercise(name), near)
            except Refused:  # too few options differ: a test below counts who is asked
                break


MADE = {name: list(asked(name)) for name in EXERCISES}


@pytest.mark.parametrize("name", EXERCISES)
def test_it_is_asked_of_most_sums(name):
    assert len({entry.head.id for entry, _ in MADE[name]}) >= FEWEST[name]


@pytest.mark.parametrize("name", EXERCISES)
def test_one_key_and_options_that_differ(name):
    for entry, question in MADE[name]:
        assert question.exercise.partition(":")[0] == name
        assert question.name == f"{entry.head.id}#{question.seed}:{question.exercise}"
        if question.kind == "number":
            assert question.answer, question.name
            assert not question.options
            continue
        assert len(question.options) in {3, 4}, question.name
        assert len({option.text for option in question.options}) == len(question.options), question.name
        assert [option.label for option in question.options if option.slip is None] == [question.key], question.name
        for option in question.options:
            found = mark(question, Reply(option.label))
            assert found.right == (option.label == question.key)
            assert bool(found.why) == (not found.right), question.name
            assert found.slip == option.slip


@pytest.mark.parametrize("name", [name for name in EXERCISES if name != "about-how-much"])
def test_every_printed_line_gives_its_result(name):
    lines = 0
    for entry, question in MADE[name]:
        texts = [*question.stem.split("\n"), *(option.text for option in question.options)]
        for text in texts:
            if (found := LINE.fullmatch(text)) and not found["text"].endswith("?"):
                assert not any(f"{name}(" in text for name in entry.lookups), f"{question.name}: {text}"
                lines += _holds(entry, question, found["text"])
        for line in question.working:
            step = next(step for step in entry.steps if symbol(step.name) == line.name)
            assert line.words or gives(line.figures, line.result, step.rounding.way), question.name
    assert lines > (100 if name == "missing-lines" else 1000)


def _holds(entry, question, text):
    """Whether a line shows figures that give its result; a line in symbols shows none."""
    parts = text.split(" = ")
    result, figures = parts[-1], parts[-2]
    if not re.match(r"-?\d", result) or not re.search(r"\d", figures) or ": " in text:
        return 0
    if question.exercise != "first-step":
        step = next(step for step in entry.steps if symbol(step.name) == parts[0])
    else:
        step = entry.steps[0]
    try:
        held = gives(figures, result, step.rounding.way)
    except ValueError:  # a bare symbol: `R_max = Z_max = 2.18 Ω`, or a symbol with a figure in it
        assert re.fullmatch(r"[A-Za-zΑ-ω]\w*", figures), f"{question.name}: {text}"
        return 0
    assert held, f"{question.name}: {text}"
    return 1


@pytest.mark.parametrize("name", ["missing-line", "next-line", "wrong-line"])
def test_the_stem_does_not_show_the_key(name):
    for entry, question in MADE[name]:
        at = int(question.exercise.rpartition(":")[2]) - 1
        lines = [line for line in question.stem.split("\n") if NUMBERED.match(line)]
        if question.kind == "choose":
            assert question.option(question.key).text.removeprefix(f"Line {at + 1}: ") not in question.stem
        if name == "missing-line":
            assert len(lines) == len(entry.steps)
            assert lines[at].endswith(" = ?")
            # What comes after the open line stands in symbols: its figures would tell the result.
            for line, step in zip(lines[at + 1 :], entry.steps[at + 1 :], strict=True):
                looked_up = line.partition(": ")[2].startswith(f"{symbol(step.name)}: ")
                assert line.endswith(f": {step.formula}") or looked_up, f"{question.name}: {line}"
                assert not line.endswith(f" = {question.working[at].result}"), f"{question.name}: {line}"
        if name == "next-line":
            assert len(lines) == at
            assert len(question.working) == at + 1  # nor does the feedback show what is asked next
            assert not question.verdict or at + 1 == len(entry.steps)


def test_two_open_lines_show_nothing_of_what_they_give():
    for entry, question in MADE["missing-lines"]:
        at = int(question.exercise.rpartition(":")[2]) - 1
        lines = [line for line in question.stem.split("\n") if NUMBERED.match(line)]
        assert [line.endswith(" = ?") for line in lines] == [each in {at, at + 1} for each in range(len(entry.steps))]
        second = entry.steps[at + 1]
        assert entry.steps[at].name in second.expr.uses, question.name
        if question.kind == "choose":
            key = question.option(question.key).text
            assert key.startswith(second.rounding.write(_right(entry, question, second))), question.name
            told = {slip.id for slip in entry.slips if at <= slip.step <= at + 1}
            assert {option.slip for option in question.options} - {None} <= told
        assert question.working[at + 1].name == symbol(second.name)


def _right(entry, question, step):
    """What a step gives with the givens of the question, in its unit."""
    given = {each.name: one.value * each.unit.factor for each, one in zip(entry.given, question.given, strict=True)}
    return run(entry, given)[step.name] / step.unit.factor


def _shown(entry, question):
    """The results printed in the stem, in SI, with a last place each."""
    found = {}
    for line in question.stem.split("\n"):
        if NUMBERED.match(line):
            step = entry.steps[len(found)]
            digits = re.match(r"-?[\d.]+", line.split(" = ")[-1])[0]
            open_zeros = "." not in digits and step.rounding.places is None  # 15700 may be 15696
            asked = max(len(digits) - (step.rounding.digits), 0)  # 2000 to four figures is 2000
            whole = min(len(digits) - len(digits.rstrip("0")), asked) if open_zeros else 0
            last = 10.0 ** (whole - len(digits.partition(".")[2]))
            found[step.name] = (float(digits) * step.unit.factor, last * step.unit.factor)
    return found


def _half(step):
    """Half a last place; a whole one where a limit is rounded to its safe side."""
    return 0.5001 if step.rounding.way == "nearest" else 1.0001


def _wrong_lines(entry, question):
    """The places, from 0, of lines that do not follow from those before; and the values as they are printed."""
    shown = _shown(entry, question)
    given = {each.name: one.value * each.unit.factor for each, one in zip(entry.given, question.given, strict=True)}
    values = given | {name: value for name, (value, _) in shown.items()}
    wrong = []
    for at, step in enumerate(entry.steps):
        value, last = shown[step.name]
        wrong += [at] if abs(step.expr.run(values) - value) > _half(step) * last else []
    return wrong, values


def _holds_one_mistake(entry, question):
    at = int(question.exercise.rpartition(":")[2]) - 1
    wrong, values = _wrong_lines(entry, question)
    assert wrong == [at], question.name
    value, last = _shown(entry, question)[entry.steps[at].name]
    slips = [slip for slip in entry.slips if slip.step == at]
    assert any(abs(slip.expr.run(values) - value) <= _half(entry.steps[at]) * last for slip in slips), question.name
    assert question.option(question.key).text.startswith(f"Line {at + 1}: ")
    assert any(not option.text.startswith(f"Line {at + 1}: ") for option in question.options)
    assert question.reason.startswith(f"Line {at + 1} was wrong. ")


def test_one_line_alone_is_wrong_and_a_named_mistake_made_it_so():
    for entry, question in MADE["wrong-line"]:
        _holds_one_mistake(entry, question)


def test_where_there_may_be_a_mistake_there_is_one_or_none_and_both_look_alike():
    """Of four options each is the key as often, so in a quarter of the workings every line is right."""
    right = 0
    for entry, question in MADE["wrong-line-or-none"]:
        texts = [option.text for option in question.options]
        assert (len(texts), texts.count(ALL_RIGHT)) == (4, 1), question.name
        assert question.stem.endswith("Which line is wrong, if any, and what should stand there?")
        if question.option(question.key).text == ALL_RIGHT:
            right += 1
            assert not _wrong_lines(entry, question)[0], question.name
        else:
            _holds_one_mistake(entry, question)
        assert len({text.partition(":")[0] for text in texts if text != ALL_RIGHT}) > 1, question.name
    assert 0.18 <= right / len(MADE["wrong-line-or-none"]) <= 0.32


@pytest.mark.parametrize("name", EXERCISES)
def test_the_key_stands_in_every_place_alike(name):
    for count in (3, 4):
        places = Counter(q.key for _, q in MADE[name] if len(q.options) == count)
        number = sum(places.values())
        if number < 100:
            continue
        expected = number / count
        chi = sum((places[label] - expected) ** 2 / expected for label in "ABCD"[:count])
        assert chi < 11.3, places  # 1 % of three degrees of freedom, from a table of chi squared (from memory)


def test_sizes_lie_far_from_each_other_and_one_figure_counts():
    for _, question in MADE["about-how-much"]:
        values = [option.value for option in question.options]
        assert values == sorted(values)
        assert all(later / earlier > 2.499 for earlier, later in pairwise(values)), question.name
        for option in question.options:
            assert re.fullmatch(r"about (?:0\.0*)?[1-9]0*(?: \S.*)?", option.text), option.text


@pytest.mark.parametrize("name", ["missing-line", "next-line"])
def test_one_seed_has_one_set_of_numbers_whatever_line_is_asked(name):
    for entry in SUMS[::9]:
        if len(entry.steps) > 1:
            made = [make_exercise(entry, 5, SumExercise(name, at)) for at in range(1, len(entry.steps) + 1)]
            assert len({question.given for question in made}) == 1
            assert made[0] == make_exercise(entry, 5, SumExercise(name, 1))


def test_what_does_not_suit_is_refused_in_a_sentence():
    single = next(each for each in SUMS if len(each.steps) == 1)
    with pytest.raises(Refused, match="its working has one line only") as refused:
        make_exercise(single, 1, SumExercise("wrong-line"))
    assert refused.value.mend.startswith("ask it as ")
    long = next(each for each in SUMS if len(each.steps) == 2)
    with pytest.raises(Refused, match="its lines for that are 1, 2"):
        make_exercise(long, 1, SumExercise("next-line", 3))
    card = next(each for each in entries() if not isinstance(each, Template))
    with pytest.raises(Refused, match="it has no working"):
        make_exercise(card, 1, SumExercise("missing-line"))


def test_the_whole_question_is_as_it_was():
    """An exercise throws dice of its own."""
    entry = SUMS[0]
    assert make(entry, 3).exercise == ""
    assert make(entry, 3).name == f"{entry.head.id}#3"
