"""The questions of a form as a table, a row a question: for a tutor's own spreadsheet or another program."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.editions import edition_line
from quizzer.expression.subscripts import attached
from quizzer.paper.record import Form, Paper
from quizzer.question.question import LABELS, Question
from quizzer.render.csv.csvs import csv_bytes


def question_table(paper: Paper, form: Form, questions: Sequence[Question]) -> bytes:
    """The table as CSV: question, options, key, reason, the mistake behind each option, and where it comes from."""
    most = max((len(question.options) for question in questions), default=0)
    labels = LABELS[:most]
    heads = ["number", "section", "entry", "seed", "question", *(f"option {label}" for label in labels), "key"]
    heads += ["reason", *(f"mistake {label}" for label in labels), "source", "edition", "evidence", "safety critical"]
    titles = {section.id: section.title for section in paper.sections}
    pairs = zip(form.items, questions, strict=True)
    rows = (
        [number, titles.get(item.section, item.section), *_row(question, most)]
        for number, (item, question) in enumerate(pairs, 1)
    )
    return csv_bytes(heads, rows)


def _row(question: Question, most: int) -> list[object]:
    head = question.head
    spare = [""] * (most - len(question.options))
    texts = [option.text for option in question.options] + spare
    mistakes = [option.why for option in question.options] + spare
    reason = (
        question.reason or question.verdict or "; ".join(f"{step.formula} = {step.result}" for step in question.working)
    )
    edition = edition_line(head.edition, head.currency)
    critical = "yes" if head.safety_critical else "no"
    asked = [question.id, question.seed, question.stem, *texts, question.key]
    told = [*asked, reason, *mistakes]
    plain = [attached(each) if isinstance(each, str) else each for each in told]
    return [*plain, head.source, edition, head.evidence, critical]
