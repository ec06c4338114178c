"""Questions that say who has signed their entry off, so that whatever tells where a question comes from can say it."""

from __future__ import annotations

from quizzer.bank.signoffs import Ledger
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.signing import ledger
from quizzer.errors import BankError
from quizzer.question.question import Question


def sign_offs(shelf: Shelf) -> Ledger:
    """What tutors have said; nothing where it cannot be read: questions are asked all the same."""
    try:
        return ledger(*shelf.roots)
    except BankError:
        return Ledger()


def signed_off(told: Ledger, question: Question) -> Question:
    """The question, with who checked its entry as it stands in the question, and against which edition."""
    found = told.signed_text(question.head)
    return question._replace(signed=f"{found.by} against {found.edition}") if found else question
