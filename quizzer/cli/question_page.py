"""A question on the screen, and its worked solution."""

from __future__ import annotations

from quizzer.bank.entries import Caution
from quizzer.blocks.question import Step
from quizzer.blocks.words import EVIDENCE
from quizzer.expression.showing import say
from quizzer.question.question import Question
from quizzer.question.replies import explained, in_words
from quizzer.render.terminal.canvas import Canvas


def add_question(page: Canvas, question: Question, title: str, progress: str = "") -> None:
    """Topic and progress, cautions of dangerous situations, the stem and its options."""
    page.heading(title, progress)
    for caution in question.head.cautions:
        if caution.before:
            add_caution(page, caution)
    page.gap()
    page.text(question.stem)
    page.gap()
    for option in question.options:
        page.text(f"{option.label}  {option.text}", indent=2, hang=5)


def add_caution(page: Canvas, caution: Caution) -> None:
    """One caution and whose word counts."""
    page.text(f"CAUTION  {caution.say}", hang=9, style="caution")
    page.text(f"Ask: {caution.defer}.", indent=9)


def add_solution(page: Canvas, question: Question, *, cautioned: bool = False) -> None:
    """The key, the worked solution with figures, units and verdict, and where it all comes from.

    `cautioned` says that the cautions of the dangerous situation stand on the same screen already.
    """
    page.text(answer_line(question), style="bold")
    if question.reason:
        page.text(f"Why: {question.reason}", hang=5)
    for part in explained(question):
        page.text(part, indent=2, hang=8)
    if question.working:
        page.gap()
        page.text("Worked solution", style="bold")
        for step in question.working:
            _add_step(page, step)
    if question.verdict:
        page.text(f"Verdict: {question.verdict}", indent=2, hang=4, style="bold")
    page.gap()
    add_provenance(page, question, cautioned)


def answer_line(question: Question) -> str:
    """The answer in one line."""
    return f"Answer: {in_words(question, question.key)}"


def add_provenance(page: Canvas, question: Question, cautioned: bool) -> None:
    """Source, edition and evidence, and every caution that does not stand on this screen yet."""
    page.text(f"Source: {question.head.source}", hang=8, style="faint")
    page.text(f"Edition: {question.head.edition}; {EVIDENCE[question.head.evidence]}.", hang=9, style="faint")
    for caution in question.head.cautions:
        if not (cautioned and caution.before):
            add_caution(page, caution)


def _add_step(page: Canvas, step: Step) -> None:
    if step.say:
        page.text(step.say, indent=2)
    if page.look.plain:
        page.text(f"{step.name.replace('_', ' ')} equals {say(step.tree)}", indent=4, hang=6)
    else:
        page.text(step.formula, indent=4, hang=6)
    lead = 4 + len(step.name) + 1
    if step.figures != step.result and step.figures != step.formula.split(" = ", 1)[1]:
        page.text(f"= {step.figures}", indent=lead, hang=lead + 2)
    page.text(f"= {step.result}", indent=lead)
