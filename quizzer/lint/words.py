"""Words of stems and options: sentences, words that carry content, and quantities."""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.units import Unit, alike, typed_unit

# The full stops of "a.c." and "e.m.f." end no sentence.
_END = re.compile(r"(?<![a-z]\.[a-z]\.)(?<=[.?!:])\s+(?=[\"“(A-Z0-9])")
_WORD = re.compile(r"[a-z]+")
_MARKS = re.compile(r"[^\w+%/.]+|\.(?!\d)")
_ENDINGS = ("ing", "ed", "es", "s", "ly")
_AMOUNT = re.compile(r"(?P<number>\d(?:[\d ]*\d)?(?:[.,](?P<places>\d+))?)(?P<gap>\s*)(?P<unit>[^\d\s].{0,20})?")


def sentences(text: str) -> list[str]:
    """The sentences of a text.

    >>> sentences("An a.c. motor hums. Why?")
    ['An a.c. motor hums.', 'Why?']
    """
    return _END.split(text.strip())


def lower_words(text: str) -> list[str]:
    """Every run of letters, in lower case."""
    return _WORD.findall(text.lower())


_NO_CONTENT = frozenset(
    lower_words(
        "about above after again also another because been before being below between both cannot could does done "
        "down during each either else enough even every from given have here into just like made make makes many "
        "more most must need needs never next none once only onto other over same should since some still such "
        "take taken takes than that their them then there these they this those through under until upon used uses "
        "very well were what when where which while whose will with within without would your "
    )
)


def content(text: str) -> frozenset[str]:
    """The words that carry content: four letters or more, common words left out, usual endings cut.

    >>> sorted(content("Which of the cables were clipped, and which cable was not?"))
    ['cabl', 'clipp']
    """
    return frozenset(_stem(word) for word in lower_words(text) if len(word) >= 4 and word not in _NO_CONTENT)


def _stem(word: str) -> str:
    ending = next((each for each in _ENDINGS if word.endswith(each) and len(word) - len(each) >= 4), "")
    return word.removesuffix(ending).removesuffix("e")


def normal(text: str) -> str:
    """A text without case and punctuation: options that are equal so are equal to a reader.

    >>> normal("The R.C.D., tested."), normal("2.5 mm²")
    ('the rcd tested', '2.5 mm²')
    """
    return " ".join(_MARKS.sub(lambda mark: "" if mark[0] == "." else " ", text.lower()).split())


class Amount(NamedTuple):
    """An option that is one quantity and nothing else. `unit` is None where its words are no unit of ours."""

    number: float
    places: int
    words: str
    unit: Unit | None

    @property
    def value(self) -> float:
        """The quantity in SI, or the bare number where the unit is not known."""
        return self.number * self.unit.factor if self.unit else self.number


def amount(text: str) -> Amount | None:
    """The quantity that a text is, or None.

    >>> amount("0.5 mA").value, amount("3 months").words, amount("3 months or less, if asked"), amount("to earth")
    (0.0005, 'month', None, None)
    """
    found = _AMOUNT.fullmatch(text.strip())
    words = found["unit"] or "" if found else ""
    unit = typed_unit(words) if words else None
    # A word that is no unit counts only when it stands apart: 3 months, but not 6491X.
    if found is None or (words and unit is None and (len(words.split()) > 1 or not found["gap"])):
        return None
    number = float(found["number"].replace(" ", "").replace(",", "."))
    return Amount(number, len(found["places"] or ""), words.removesuffix("s") if unit is None else words, unit)


def comparable(one: Amount, other: Amount) -> bool:
    """Whether two quantities are of one kind, so that one can be the greater."""
    if one.unit and other.unit:
        return alike(one.unit, other.unit)
    return one.words == other.words
