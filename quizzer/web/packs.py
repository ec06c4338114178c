"""Questions to take along, as JSON: each whole, with what every reply leads to and what a number is marked by.

`version` says how a pack is laid out. A page refuses one that it does not know, and offers to load itself anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any, Final

from quizzer.pages.feedback import THOUGH_CERTAIN, back_words
from quizzer.pages.packed import ReplyOutcome, asked, behind, outcomes
from quizzer.pages.question import answer, reason, working
from quizzer.question.asking_again import SENTENCES
from quizzer.question.numbers import BARE, COARSE, EXACT, coarser, like
from quizzer.question.question import Answer, Diagnosis
from quizzer.question.replies import wanted
from quizzer.render.html.fragments import parts, words
from quizzer.schedule import Confidence, quality
from quizzer.store import Trainee
from quizzer.units import SPELLINGS, UNITS, kind_of
from quizzer.web.links import link
from quizzer.workflows.study.arrivals import fingerprint
from quizzer.workflows.study.pack import Packed

VERSION: Final = 1
MOST_BYTES: Final = 200_000
Plain = dict[str, Any]


def pack_text(trainee: Trainee, questions: Iterable[Packed], titles: Mapping[str, str], now: datetime) -> str:
    """The pack: as many of the questions, in their order, as fit into `MOST_BYTES`."""
    head = {
        "version": VERSION,
        "issued": now.isoformat(timespec="seconds"),
        "day": now.date().isoformat(),
        "trainee": trainee.id,
        "sure": [str(each) for each in Confidence],
        "quality": {
            "right": [quality(True, each) for each in Confidence],
            "wrong": [quality(False, each) for each in Confidence],
            "rounded": quality(True, None, rounded=True),
        },
        "certain": parts([THOUGH_CERTAIN]),
        "again": SENTENCES,
        "units": _units(),
    }
    start = _json(head)[:-1] + ',"questions":['
    texts, size = [], len(start.encode()) + 2
    for one in questions:
        text = _json(_question(one, titles, now.date()))
        size += len(text.encode()) + 1
        if size > MOST_BYTES:
            break
        texts.append(text)
    return f"{start}{','.join(texts)}]}}"


def _json(value: Plain) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _units() -> Plain:
    """Every unit with its factor, how it is shown and its kind; and every other way to type one."""
    rows = {word: [unit.factor, unit.shown, kind_of(word)] for word, unit in UNITS.items()}
    return {"words": rows, "typed": SPELLINGS, "bare": BARE}


def _question(one: Packed, titles: Mapping[str, str], today: date) -> Plain:
    question = one.question
    said: Plain = {
        "entry": question.id,
        "seed": question.seed,
        "digest": question.head.digest,
        "asked": fingerprint(question),
        "session": one.session,
        "title": titles.get(question.topic, question.topic),
        "kind": question.kind,
        "ask": parts(asked(question), link),
        "wanted": wanted(question),
        "options": [[option.label, words(option.text)] for option in question.options],
        "outcomes": {name: _outcome(each) for name, each in outcomes(question).items()},
        "answer": parts([*answer(question)], link),
        "reason": parts([*reason(question)], link),
        "working": parts([*working(question)], link),
        "behind": parts([*behind(question)], link),
        "back": [back_words(back, today) for back in one.backs],
    }
    if question.answer is not None and not question.options:
        said["number"] = number_plain(question.answer, question.diagnoses)
    if question.options:
        said["key"] = question.key
    return {name: value for name, value in said.items() if value not in ("", [])}


def _outcome(one: ReplyOutcome) -> Plain:
    said: Plain = {"right": one.mark.right, "said": parts([one.said])}
    if one.mark.rounded:
        said["rounded"] = True
    if one.guessed != one.said:
        said["guessed"] = parts([one.guessed])
    if one.why:
        said["why"] = parts(one.why, link)
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
