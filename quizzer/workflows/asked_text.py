"""A question as it stood on the screen, kept with the answer so that history stays readable when a bank is edited."""

from __future__ import annotations

from quizzer.question.question import Question


def asked_text(question: Question) -> str:
    """Stem, options and answer as plain lines."""
    options = [f"{option.label}  {option.text}" for option in question.options]
    return "\n".join([question.stem, *options, f"Answer: {question.key}"])
