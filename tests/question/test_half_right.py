"""Wrong options of cards that are true in themselves, or more cautious than is right: shown, told and counted."""

from quizzer.lint.half_right import over_cautious
from quizzer.lint.starts import start
from quizzer.question.making import make
from tests.banktext import entry, read

CARD = start("action")
REPEATS = 'say = "Repeats it at a lower voltage"'
RECORDS = 'say = "Records the value and carries on"'
TRUE = 'true_alone = "A lower voltage is right for electronics."'
CAUTIOUS = 'over_cautious = "BS 7671 Regulation 643.3.3"'


def changed(*changes):
    text = CARD
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def test_one_option_that_is_true_in_itself_stands_in_every_draw():
    card = entry(changed((REPEATS, f"{REPEATS}\n{TRUE}")))
    for seed in range(60):
        shown = {option.text for option in make(card, seed).options}
        assert "Repeats it at a lower voltage" in shown
        assert len(shown) == 4
    plain = entry(CARD)
    assert not all("Repeats it at a lower voltage" in str(make(plain, seed).options) for seed in range(60))


def test_the_truth_is_told_before_why_it_does_not_answer():
    card = entry(changed((REPEATS, f"{REPEATS}\n{TRUE}")))
    why = next(option.why for option in make(card, 1).options if option.text.startswith("Repeats"))
    assert why == (
        "True in itself: A lower voltage is right for electronics. "
        "But it does not answer: A kinder test hides the fault and mends nothing."
    )


def test_over_caution_is_told_with_its_ground_and_counted_among_safety_critical_entries():
    safe = ("id = ", "safety_critical = true\nid = ")
    with_one = entry(changed(safe, (RECORDS, f"{RECORDS}\n{CAUTIOUS}")))
    questions = (make(with_one, seed) for seed in range(40))
    whys = {option.why for question in questions for option in question.options if option.text.startswith("Records")}
    told = "A value that fails is put right before the certificate is written. "
    assert whys == {f"{told}It is more cautious than is right here: BS 7671 Regulation 643.3.3."}
    found = over_cautious([with_one, entry(changed(safe)), entry(CARD), entry(start("order"))])
    assert (found.entries, found.holding, found.share) == (2, 1, 0.5)


def test_steps_to_order_are_neither_true_alone_nor_too_cautious():
    text = start("order").replace('say = "Start the work"', f'say = "Start the work"\n{TRUE}')
    assert "Q104" in {code for code, _ in read(text)[1]}
