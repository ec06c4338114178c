"""The questions of each form: seeds are drawn until it offers options, and is even with the others and with chance."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import groupby
from math import fsum
from random import Random
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bank.families import Family, seed_of
from quizzer.errors import Refused
from quizzer.paper.assembly import Assembly
from quizzer.paper.pool import Candidate
from quizzer.paper.positions import acceptable
from quizzer.paper.reading_load import EVEN, words_of
from quizzer.paper.record import Form, Item
from quizzer.paper.swapping import Slot
from quizzer.question.question import Question
from quizzer.question.replies import by_letter
from quizzer.render.typst.printed_lines import caution_lines, lines_of
from quizzer.workflows.exercises import digest_of, question_of
from quizzer.workflows.papers.usable import Usable

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O, which look like figures
_SERIAL, _SERIAL_LENGTH = "2345679ACDEFGHJKLMNPRTVWXY", 5  # nothing that is taken for something else when written
REDRAWS = 200
SEEDS = 10_000
# So many questions are drawn again at the most to bring words and lines of a form near to the others'.
TRIES = 120
# Half of the tries are at the longest questions, which vary most with their seed: record sheets, drawn circuits.
LONGEST = 8
# Every form is brought near to the mean of all; what one could not do moves the mean, and the others once more.
ROUNDS = 2
# Two forms this near to the mean, as a share of it, are within EVEN of each other with room to spare.
NEAR = EVEN / 4


class ReadingLoad(NamedTuple):
    """How much there is to read: words, and lines as printed."""

    words: float
    lines: float

    def off(self, wanted: ReadingLoad) -> float:
        """How far it is from what is wanted, in words or in lines, as a share of that."""
        return max(abs(self.words / wanted.words - 1), abs(self.lines / wanted.lines - 1))


class _Drawing(NamedTuple):
    """What the questions of a form are drawn from.

    Every question that was drawn goes into `made`, by name, and what there is to read in it into `known`.
    """

    bank: Usable
    plan: Blueprint
    dice: Callable[[], float]
    made: dict[str, Question]
    known: dict[str, ReadingLoad]

    def read(self, item: Item) -> ReadingLoad:
        """What there is to read in a question of the form."""
        if item.name not in self.known:
            question = self.made[item.name]
            self.known[item.name] = ReadingLoad(words_in(question), lines_of(question))
        return self.known[item.name]

    def all_read(self, items: Sequence[Item]) -> ReadingLoad:
        """What there is to read in the form."""
        read = [self.read(item) for item in items]
        return ReadingLoad(
            fsum(one.words for one in read), fsum(one.lines for one in read) + _cautions(items, self.made)
        )


def filled(
    found: Assembly, bank: Usable, plan: Blueprint, seed: int, people: Sequence[str], made: dict[str, Question]
) -> tuple[Form, ...]:
    """The forms with their questions, or of one form a version of its own for each of `people`. Raises Refused."""
    if people:
        serials = _serials(f"{plan.id}/{seed}", len(people))
        empty = [Form("A", serial, person, ()) for serial, person in zip(serials, people, strict=True)]
        chosen = [found.forms[0]] * len(empty)
    else:
        empty = [Form(letter, letter, "", ()) for letter, _ in zip(LETTERS, found.forms, strict=False)]
        chosen = list(found.forms)
    places = [_in_order(form, bank.pool) for form in chosen]
    drawings = [_Drawing(bank, plan, Random(f"{plan.id}/{seed}/{form.serial}").random, made, {}) for form in empty]
    items = [_drawn(drawing, mine) for drawing, mine in zip(drawings, places, strict=True)]
    for _ in range(ROUNDS):
        mean = _mean([drawing.all_read(each) for drawing, each in zip(drawings, items, strict=True)])
        items = [_evened(*each, mean) for each in zip(drawings, places, items, strict=True)]
    return tuple(form._replace(items=tuple(each)) for form, each in zip(empty, items, strict=True))


def _serials(seed: str, many: int) -> list[str]:
    """So many different numbers of papers, which say nothing of whose they are; one mistyped is hardly another's."""
    dice = Random(f"{seed}/serials").random
    found: dict[str, None] = {}
    while len(found) < many:
        found["".join(_SERIAL[int(dice() * len(_SERIAL))] for _ in range(_SERIAL_LENGTH))] = None
    return list(found)


def words_in(question: Question) -> int:
    """The words of a question with its options."""
    return words_of(question.stem) + sum(words_of(option.text) for option in question.options)


def lines_in(items: Sequence[Item], made: Mapping[str, Question]) -> float:
    """The lines of a form as printed, but for its cover and the titles of its sections."""
    return fsum(lines_of(made[item.name]) for item in items) + _cautions(items, made)


def _cautions(items: Sequence[Item], made: Mapping[str, Question]) -> float:
    """The lines of what is cautioned of in each section."""
    sections = groupby(items, lambda item: item.section)
    return fsum(caution_lines(made[item.name] for item in inside) for _, inside in sections)


def _in_order(places: Sequence[Slot], pool: Sequence[Candidate]) -> list[Slot]:
    """Sections in their order; inside each the easier questions first, as a candidate is led in.

    Of two cases of a family that are equally hard, one comes after everything else that is.
    """
    met: set[str] = set()

    def key(place: Slot) -> tuple[int, float, bool, str]:
        one = pool[place.candidate]
        again = one.id in met
        met.add(one.id)
        return place.section, -one.facility, again, one.id

    keys = {place: key(place) for place in sorted(places)}
    return sorted(keys, key=keys.__getitem__)


def _drawn(drawing: _Drawing, places: Sequence[Slot]) -> list[Item]:
    """A question for each place, drawn until the keys stand as chance would have them."""
    draws = ([_item(drawing, place) for place in places] for _ in range(REDRAWS))
    first = next(draws)
    return first if _by_chance(first) else next(filter(_by_chance, draws), first)


def _evened(drawing: _Drawing, places: Sequence[Slot], items: Sequence[Item], wanted: ReadingLoad) -> list[Item]:
    """The items with some drawn again, until there is nearly as much to read as wanted or no try is left."""
    taken, read, total = list(items), [drawing.read(each) for each in items], drawing.all_read(items)
    longest = sorted(range(len(taken)), key=read.__getitem__)[-LONGEST:]
    for turn in range(TRIES):
        off = total.off(wanted)
        if off <= NEAR:
            break
        at = longest[int(drawing.dice() * len(longest))] if turn % 2 else int(drawing.dice() * len(taken))
        other = _item(drawing, places[at])
        now = drawing.read(other)
        after = ReadingLoad(total.words + now.words - read[at].words, total.lines + now.lines - read[at].lines)
        if after.off(wanted) < off and _by_chance([*taken[:at], other, *taken[at + 1 :]]):
            taken[at], read[at], total = other, now, after
    return taken


def _mean(read: Sequence[ReadingLoad]) -> ReadingLoad:
    return ReadingLoad(fsum(one.words for one in read) / len(read), fsum(one.lines for one in read) / len(read))


def _by_chance(items: Sequence[Item]) -> bool:
    return acceptable([item.key for item in items])


def _item(drawing: _Drawing, place: Slot) -> Item:
    """A question of the place's candidate that is answered with a letter."""
    bank, one, section = drawing.bank, drawing.bank.pool[place.candidate], drawing.plan.sections[place.section]
    entry = bank.entries[one.id]
    for _ in range(REDRAWS):
        seed = int(drawing.dice() * SEEDS)
        if isinstance(entry, Family):
            seed = seed_of(entry.cases, one.case, seed)
        question = question_of(bank.near, entry, seed, section.exercise)
        if by_letter(question.kind):  # a seed may ask for a typed number: a paper is answered with letters
            digest = digest_of(bank.near, entry, section.exercise)
            drawing.made[question.name] = question
            return Item(entry.head.id, seed, digest, section.id, question.key, question.exercise)
    raise Refused(f"{entry.head.id} never asks with options", mend="give it more slips, or form = 'number'")
