"""The questions that a paper keeps as they were made: packed into one text of its record, with a digest of it."""

from __future__ import annotations

import base64
import hashlib
import json
import zlib
from collections.abc import Iterable, Mapping
from typing import Any

from quizzer.errors import Refused
from quizzer.paper.record import Item, Paper
from quizzer.question.question import Question
from quizzer.question.written import UnreadableError, plain_of, question_of_plain

Kept = Mapping[str, Any]  # by the name of a question, what it is written as
_MOST = 200_000_000  # bytes of questions as text: what unpacks to more is no paper of ours


def packed(questions: Iterable[Question]) -> str:
    """The questions by name, each once, as a text that a record can hold."""
    plain = {question.name: plain_of(question) for question in questions}
    text = json.dumps(plain, ensure_ascii=False, separators=(",", ":"), sort_keys=True).encode()
    return f"{_digest(text)}.{base64.b64encode(zlib.compress(text, 9)).decode()}"


def kept_questions(paper: Paper) -> Kept:
    """What a paper keeps of its questions, by name; {} for a record of before they were kept.

    Raises Refused where it is damaged.
    """
    if not paper.questions:
        return {}
    digest, _, rest = paper.questions.partition(".")
    try:
        unpacking = zlib.decompressobj()
        text = unpacking.decompress(base64.b64decode(rest, validate=True), _MOST)
        found = json.loads(text)
        if not unpacking.eof or _digest(text) != digest or not isinstance(found, dict):
            raise UnreadableError("cut or changed")
    except (ValueError, zlib.error, RecursionError) as error:
        raise _damaged(paper) from error
    return found


def kept_question(paper: Paper, kept: Kept, item: Item) -> Question | None:
    """The question of an item as it was made; None where it is not kept. Raises Refused where it is damaged."""
    name = item.name
    if name not in kept:
        return None
    try:
        question = question_of_plain(kept[name])
    except UnreadableError as error:
        raise _damaged(paper) from error
    if question.name != name:
        raise _damaged(paper)
    return question


def _damaged(paper: Paper) -> Refused:
    what = f"the questions that paper {paper.id} keeps are damaged"
    return Refused(what, mend="take its paper.json from a backup, or make a new paper")


def _digest(text: bytes) -> str:
    return hashlib.sha256(text).hexdigest()[:16]
