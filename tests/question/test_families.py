"""Families: each case with three wrong things and their reasons, keys at every letter, procedures in order."""

from collections import Counter
from itertools import pairwise

import pytest

from quizzer.bank.families import Family, OrderFamily
from quizzer.lint.starts import start
from quizzer.question.making import make
from quizzer.question.replies import Reply, mark
from tests.banktext import entry, read

FAMILY, ORDER = start("family"), start("order-family")


def changed(text, *changes):
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def test_seeds_in_turn_ask_every_case_and_never_one_twice_running():
    family = entry(FAMILY)
    asked = [make(family, seed).stem for seed in range(1, 14)]
    assert asked[:6] == list(family.ask) == asked[6:12]
    assert all(one != other for one, other in pairwise(asked))


def test_a_question_offers_the_key_and_three_other_things_of_the_pool():
    family = entry(FAMILY)
    for seed in range(1, 200):
        question, stem = make(family, seed), family.stems[(seed - 1) % 6]
        offered = {option.text for option in question.options}
        assert len(offered) == 4
        assert question.option(question.key).text == family.things[stem.key].say
        assert offered <= {thing.say for thing in family.things.values()}
        assert not offered & {family.things[id].say for id in stem.never}


def test_the_key_stands_at_every_letter_alike():
    keys = Counter(make(entry(FAMILY), seed).key for seed in range(800))
    assert all(0.2 < keys[label] / 800 < 0.3 for label in "ABCD"), keys


def test_a_pool_of_figures_is_listed_by_size_and_its_key_stands_anywhere():
    words = ("clamp meter", "low-ohm meter", "insulation tester", "speed gauge", "heat camera", "power meter")
    sizes = [(f'say = "{word}"', f'say = "{at} mm"') for at, word in enumerate((*words, "rotation tester"), 2)]
    family = entry(changed(FAMILY, *sizes, ('say = "vibration meter"', 'say = "40 mm"')))
    questions = [make(family, seed) for seed in range(600)]
    for question in questions:
        assert [int(option.text.split()[0]) for option in question.options] == sorted(
            int(option.text.split()[0]) for option in question.options
        )
    middle = Counter(question.key for question in questions if question.option(question.key).text == "4 mm")
    assert set(middle) == {"A", "B", "C"}  # two sizes lie below it
    assert all(share > 0.2 * sum(middle.values()) for share in middle.values())


def wrong_options(stem):
    """Every wrong option of a case over many seeds, by the mistake behind it."""
    family = entry(FAMILY)
    made = [make(family, seed) for seed in range(stem, 600, 6)]
    return {option.slip: option for question in made for option in question.options if option.slip}


def test_a_wrong_thing_is_told_what_it_is_the_answer_to_or_the_reason_of_its_case():
    found = wrong_options(1)
    assert set(found) == {
        f"took {thing} for clamp-meter"
        for thing in (
            "low-ohm-meter",
            "insulation-tester",
            "speed-gauge",
            "heat-camera",
            "rotation-tester",
            "shake-meter",
        )
    }
    assert found["took speed-gauge for clamp-meter"].why == "That is the one for turns in a minute."
    assert found["took heat-camera for clamp-meter"].why.startswith("Warmth shows that it works")


def test_a_thing_that_teaches_does_so_as_the_key_and_when_taken_wrongly():
    taught = "That is the one for the current in a conductor that stays connected. It goes round one conductor only"
    assert make(entry(FAMILY), 1).reason.startswith(taught)
    assert wrong_options(2)["took clamp-meter for insulation-tester"].why.startswith(taught)
    assert make(entry(FAMILY), 5).reason.startswith("With a slipping belt")


def test_the_mistake_is_kept_by_the_names_of_both_things():
    question = make(entry(FAMILY), 1)
    wrong = next(option for option in question.options if option.slip)
    assert mark(question, Reply(wrong.label))[2:] == (wrong.slip, wrong.why)


def test_a_case_may_say_its_own_source_edition_and_caution():
    own = 'key = "speed-gauge"\nsource = "a belt maker"\nevidence = "memory"\ncautions = ["isolate-first"]'
    family = entry(changed(FAMILY, ('key = "speed-gauge"', own)))
    head, other = make(family, 5).head, make(family, 4).head
    assert (head.source, head.evidence, [each.id for each in head.cautions]) == (
        "a belt maker",
        "memory",
        ["isolate-first"],
    )
    assert (other.source, other.evidence, other.cautions) == ("common practice", "practice", ())
    assert head.digest == other.digest == family.head.digest


def test_a_part_of_a_procedure_is_put_in_order_and_a_misplaced_step_is_named():
    family = entry(ORDER)
    assert isinstance(family, OrderFamily)
    question = make(family, 1)
    assert question.kind == "order"
    assert question.stem.startswith("Amina takes down the old fitting over a bench. Put")
    in_order = [question.option(label).text for label in question.key]
    assert in_order == [family.steps[id].say for id in family.parts[0].steps]
    swapped = question.key[1] + question.key[0] + question.key[2:]
    assert mark(question, Reply(swapped)).slip == "misplaced isolate"
    assert mark(question, Reply(question.key)).right


def test_a_procedure_without_parts_asks_every_run_of_four_or_five_steps():
    family = entry(ORDER.partition("\n# Parts may be left out")[0])
    assert isinstance(family, OrderFamily)
    assert sorted(len(part.steps) for part in family.parts) == [4, 4, 4, 5, 5]
    keys = {make(family, seed).stem for seed in range(1, 6)}
    assert keys == {family.lead}
    for seed in range(1, 40):
        question = make(family, seed)
        assert question.key != question.labels  # shown in the right order it would answer itself


@pytest.mark.parametrize(
    ("changes", "code", "words"),
    [
        ([("because.heat-camera", "because.heat")], "Q663", "because.heat"),
        ([('not = ["power-meter"]', 'not = ["power"]')], "Q663", 'not = ["power"]'),
        ([('not = ["power-meter"]', 'not = ["clamp-meter"]')], "Q664", 'not = ["clamp-meter"]'),
        ([('not = ["power-meter"]', 'not = ["heat-camera"]')], "Q664", "because.heat-camera"),
        ([("[family.thing.shake-meter]", "[family.thing.Shake_meter]")], "Q109", "Shake_meter"),
        ([('kind = "instrument"', 'sort = "instrument"')], "Q106", "[[family]]"),
    ],
)
def test_what_does_not_fit_is_told_at_its_line(changes, code, words):
    text = changed(FAMILY, *changes)
    entries, complaints = read(text)
    lines = text.split("\n")
    assert not entries
    assert (code, words) in [(code, words) for code, line in complaints if words in lines[line - 1]]


def test_a_family_is_read_alone_out_of_a_file_of_several():
    both = FAMILY + ORDER.partition("\n")[2].replace('edition = "not tied to an edition"\n', "")
    entries, complaints = read(both)
    assert [type(each) for each in entries] == [Family, OrderFamily]
    assert not complaints


def test_a_thing_that_is_too_cautious_for_a_case_is_told_on_whose_word():
    own = 'key = "speed-gauge"\nover_cautious.clamp-meter = "HSE HSG85, page 9"'
    family = entry(changed(FAMILY, ('key = "speed-gauge"', own)))
    told = {option.slip: option.why for seed in range(5, 300, 6) for option in make(family, seed).options}
    ground = "It is more cautious than is right here: HSE HSG85, page 9."
    assert told["took clamp-meter for speed-gauge"].endswith(ground)
