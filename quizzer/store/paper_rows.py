"""Rows of sittings, scripts and corrections, from their values and back; and of how entries were answered."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from quizzer.paper.pool import Observed
from quizzer.store.correction_values import Correction
from quizzer.store.paper_values import Script, Sitting
from quizzer.store.row_mapping import Row, instant, instant_text, number, sound, words


def sitting_row(sitting: Sitting) -> Row:
    """The row of a sitting."""
    return {
        "trainee": words(sitting.trainee, "trainee"),
        "paper": words(sitting.paper, "id"),
        "form": words(sitting.form, "form"),
        "answers": words(sitting.answers, "answers"),
        "flags": words(sitting.flags, "flags"),
        "place": number(sitting.place, "place"),
        "seconds": number(sitting.seconds, "seconds"),
        "allowed": number(sitting.allowed, "time allowed"),
        "turn": number(sitting.turn, "turn"),
        "started_at": instant_text(sitting.started_at),
        "submitted_at": instant_text(sitting.submitted_at) if sitting.submitted_at else None,
    }


@sound("t t t t t n n n n t t?")
def sitting_of(row: Iterable[Any]) -> Sitting:
    """The sitting of a row in the order of its table."""
    trainee, paper, form, answers, flags, place, seconds, allowed, turn, started_at, submitted_at = row
    return Sitting(
        trainee,
        paper,
        form,
        answers,
        flags,
        place,
        seconds,
        allowed,
        turn,
        instant(started_at),
        instant(submitted_at) if submitted_at else None,
    )


def script_row(script: Script) -> Row:
    """The row of a script; the trainee's name has its place elsewhere."""
    return {
        "trainee": words(script.trainee, "trainee"),
        "paper": words(script.paper, "id"),
        "form": words(script.form, "form"),
        "answers": words(script.answers, "answers"),
        "origin": words(script.origin, "origin"),
        "marked_at": instant_text(script.marked_at),
    }


@sound("t t t t t t t")
def script_of(row: Iterable[Any]) -> Script:
    """The script of a row: trainee, name, paper, form, answers, origin, when marked."""
    trainee, name, paper, form, answers, origin, marked_at = row
    return Script(trainee, name, paper, form, answers, origin, instant(marked_at))


def correction_row(one: Correction) -> Row:
    """The row of a correction."""
    return {
        "id": words(one.id, "id"),
        "number": number(one.number, "number"),
        "paper": words(one.paper, "id") if one.paper else None,
        "trainee": words(one.trainee, "trainee") if one.trainee else None,
        "kind": words(one.kind, "kind"),
        "about": words(one.about, "about"),
        "was": words(one.was, "was"),
        "becomes": words(one.becomes, "becomes"),
        "who": words(one.who, "who"),
        "reason": words(one.reason, "reason"),
        "made_at": instant_text(one.made_at),
        "undoes": words(one.undoes, "undoes") if one.undoes else None,
    }


@sound("t n t? t? t t t t t t t t?")
def correction_of(row: Iterable[Any]) -> Correction:
    """The correction of a row in the order of its table."""
    key, place, paper, trainee, kind, about, was, becomes, who, reason, made_at, undoes = row
    return Correction(
        key,
        paper or "",
        trainee or "",
        kind,
        about,
        was,
        becomes,
        who,
        reason,
        instant(made_at),
        undoes or "",
        place,
    )


@sound("t t n sum")
def observed_of(row: Iterable[Any]) -> tuple[tuple[str, str], Observed]:
    """An entry and its digest, how many answered it and how many were right."""
    entry, digest, answers, right = row
    return (entry, digest), Observed(int(answers), int(right))
