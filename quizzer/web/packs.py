"""Questions to take along, as JSON: each whole, with what every reply leads to and what a number is marked by.

`version` says how a pack is laid out. A page refuses one that it does not know, and offers to load itself anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import Any, Final, NamedTuple

from quizzer.pages.packed import outcomes
from quizzer.question.asking_again import SENTENCES
from quizzer.question.numbers import BARE, COARSE, EXACT, coarser, like
from quizzer.question.question import Answer, Diagnosis
from quizzer.schedule import Confidence
from quizzer.store import Trainee
from quizzer.units import TYPED, UNITS, kind_of
from quizzer.web.asked import after_html, asked_html, behind_html, mark_name, outcome_html
from quizzer.web.glossary import Glossary
from quizzer.workflows.study.arrivals import fingerprint
from quizzer.workflows.study.pack import Packed

VERSION: Final = 3
MOST_BYTES: Final = 200_000
_END: Final = "]}"
Plain = dict[str, Any]


class PackWords(NamedTuple):
    """What a bank says beside its entries: the titles of topics by their ids, and terms with their meanings."""

    titles: Mapping[str, str]
    terms: Mapping[str, str]


def pack_parts(
    trainee: Trainee, questions: Iterable[Packed], words: PackWords, now: datetime, *, begun: bool = False
) -> Iterator[str]:
    """The pack: as many of the questions, in their order, as fit into `MOST_BYTES`.

    In parts, so that nobody waits for the last question who is to be asked the second: each but the last ends a line,
    and what has come up to the end of any line is a pack once its list is closed. One that is only `begun` has the
    first question alone.
    """
    head = {
        "version": VERSION,
        "issued": now.isoformat(timespec="seconds"),
        "day": now.date().isoformat(),
        "trainee": trainee.id,
        "sure": [str(each) for each in Confidence],
        "again": SENTENCES,
        "units": _units(),
    } | ({"begun": True} if begun else {})
    glossary, start = Glossary(words.terms), f'{_json(head)[:-1]},"questions":[\n'
    yield start
    size = len(start.encode()) + len(_END)
    for at, one in enumerate(questions):
        text = f"{',' if at else ''}{_json(_question(one, words.titles, now.date(), glossary))}\n"
        size += len(text.encode())
        if size > MOST_BYTES:
            break
        yield text
        if begun:
            break
    yield _END


def _json(value: Plain) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _units() -> Plain:
    """Every unit with its factor, how it is shown and its kind; and every other way to type one."""
    rows = {word: [unit.factor, unit.shown, kind_of(word)] for word, unit in UNITS.items()}
    return {"words": rows, "typed": TYPED, "bare": BARE}


def _question(one: Packed, titles: Mapping[str, str], today: date, glossary: Glossary) -> Plain:
    """A question with all that is said of it; behind what is asked are the meanings of the terms that are marked."""
    question, marked = one.question, glossary.marked
    said: Plain = {
        "entry": question.id,
        "seed": question.seed,
        "digest": question.head.digest,
        "asked": fingerprint(question),
        "session": one.session,
        "kind": question.kind,
        "html": marked(asked_html(question, titles.get(question.topic, question.topic))),
        "outcomes": {
            name: {"mark": mark_name(each.mark), "html": marked(outcome_html(each))}
            for name, each in outcomes(question).items()
        },
        "after": marked(after_html(one, today)),
        "behind": marked(behind_html(question)),
    }
    said["html"] += glossary.meanings()
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
