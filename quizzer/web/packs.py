"""Questions to take along, as JSON: each whole, with what every reply leads to and what a number is marked by.

`version` says how a pack is laid out. A page refuses one that it does not know, and offers to load itself anew.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, datetime
from functools import partial
from itertools import islice
from typing import Any, Final, NamedTuple

from quizzer.pages.packed import outcomes
from quizzer.question.asking_again import SENTENCES
from quizzer.question.numbers import BARE, COARSE, EXACT, coarser, like
from quizzer.question.question import Answer, Diagnosis
from quizzer.schedule import Confidence
from quizzer.store import Trainee
from quizzer.units import TYPED, UNITS, kind_of
from quizzer.web.asked import after_html, asked_html, behind_html, mark_name, outcome_html, repeats
from quizzer.web.glossary import Glossary
from quizzer.workflows.study.again import Again
from quizzer.workflows.study.arrivals import fingerprint
from quizzer.workflows.study.pack import Packed

VERSION: Final = 4
MOST_BYTES: Final = 200_000  # of the questions, and of those that are asked again
_END: Final = "]}"
Plain = dict[str, Any]
OnceMore = Callable[[Packed, Again], Packed | None]


class PackWords(NamedTuple):
    """What a bank says beside its entries: the titles of topics by their ids, and terms with their meanings."""

    titles: Mapping[str, str]
    terms: Mapping[str, str]


def pack_parts(
    trainee: Trainee, questions: Iterable[Packed], words: PackWords, now: datetime, until: float, *, begun: bool = False
) -> Iterator[str]:
    """The pack: as many of the questions, in their order, as fit into `MOST_BYTES`; then those that are asked again.

    In parts, so that nobody waits for the last question who is to be asked the second: each but the last ends a line,
    and what has come up to the end of any line is a pack once its list is closed; with the list of what is asked again
    that of questions is whole. One that is only `begun` has the first question alone. For `until` seconds of a session
    something is asked again.
    """
    drawn = [*islice(questions, 1)] if begun else questions
    units = not begun or any(map(_is_typed, drawn))
    start = f'{_json(_head(trainee, now, until, units=units))[:-1]},"questions":[\n'
    once_more = _each_once()
    said = partial(
        _question, titles=words.titles, today=now.date(), glossary=Glossary(words.terms), once_more=once_more
    )
    taken: list[Packed] = []
    yield start
    yield from _fitting(drawn, said, MOST_BYTES - len(start.encode()) - len(_END), taken)
    if not begun:
        yield '],"repeats":[\n'
        yield from _fitting(asked_again(taken, once_more), said, MOST_BYTES, [])
    yield _END


def _fitting(
    questions: Iterable[Packed], said: Callable[[Packed], Plain], room: int, taken: list[Packed]
) -> Iterator[str]:
    """A line for each question, as long as there is room for so many bytes; those `taken` are noted."""
    for at, one in enumerate(questions):
        text = f"{',' if at else ''}{_json(said(one))}\n"
        room -= len(text.encode())
        if room < 0:
            return
        taken.append(one)
        yield text


def _head(trainee: Trainee, now: datetime, until: float, *, units: bool) -> Plain:
    """What a pack says beside its questions; `units` only a typed number needs."""
    return {
        "version": VERSION,
        "issued": now.isoformat(timespec="seconds"),
        "day": now.date().isoformat(),
        "trainee": trainee.id,
        "until": until,
        "sure": [str(each) for each in Confidence],
        "again": SENTENCES,
    } | ({"units": _units()} if units else {})


def _each_once() -> OnceMore:
    """What makes each question that is asked again, and none twice: what is promised is what comes."""
    made: dict[tuple[str, str], Packed | None] = {}

    def once_more(one: Packed, again: Again) -> Packed | None:
        name = one.question.id, again.exercise
        if name not in made:
            made[name] = one.once_more(again)
        return made[name]

    return once_more


def asked_again(questions: Iterable[Packed], once_more: OnceMore) -> Iterator[Packed]:
    """What the answers to these questions lead to in the same session, and what those lead to; each once."""
    left, known = [*questions], set[tuple[str, str]]()
    for one in left:
        for again in repeats(one):
            name = one.question.id, again.exercise
            if name not in known and (found := once_more(one, again)):
                left.append(found)
                yield found
            known.add(name)


def _json(value: Plain) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _units() -> Plain:
    """Every unit with its factor, how it is shown and its kind; and every other way to type one."""
    rows = {word: [unit.factor, unit.shown, kind_of(word)] for word, unit in UNITS.items()}
    return {"words": rows, "typed": TYPED, "bare": BARE}


def _is_typed(one: Packed) -> bool:
    return one.question.answer is not None and not one.question.options


def _question(one: Packed, titles: Mapping[str, str], today: date, glossary: Glossary, once_more: OnceMore) -> Plain:
    """A question with all that is said of it; behind what is asked are the meanings of the terms that are marked."""
    question, marked = one.question, glossary.marked
    led = {again: when for again, when in repeats(one).items() if once_more(one, again)}
    said: Plain = {
        "entry": question.id,
        "seed": question.seed,
        "digest": question.head.digest,
        "asked": fingerprint(question),
        "session": one.session,
        "kind": question.kind,
        "html": marked(asked_html(one, titles.get(question.topic, question.topic))),
        "outcomes": {
            name: {"mark": mark_name(each.mark), "html": marked(outcome_html(each))}
            for name, each in outcomes(question).items()
        },
        "after": marked(after_html(one, today, led)),
        "behind": marked(behind_html(question)),
    }
    said["html"] += glossary.meanings()
    if one.again:
        said |= {"drill": True, "exercise": question.exercise}
    if question.answer is not None and not question.options:
        said["number"] = number_plain(question.answer, question.diagnoses)
    if question.options:
        said["labels"] = "".join(question.labels)
        said["key"] = question.key
    return said


def number_plain(answer: Answer, diagnoses: Iterable[Diagnosis]) -> Plain:
    """What a typed number is marked by; `coarser` are its roundings and cuts by decimal places."""
    return {
        "value": answer.value,
        "unit": answer.unit,
        "tolerance": answer.tolerance,
        "lastPlace": answer.last_place,
        "like": like(answer),
        "coarse": COARSE,
        "coarser": [coarser(answer.value, places) for places in range(EXACT + 1)],
        "diagnoses": [[each.value, each.tolerance] for each in diagnoses],
    }
