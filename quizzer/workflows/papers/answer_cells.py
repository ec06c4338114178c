"""Where a table has the letters of a script: in one column, or in a column for each question; and how they are read."""

from __future__ import annotations

import re
from collections.abc import Sequence

from quizzer.errors import Refused
from quizzer.paper.record import Paper
from quizzer.store import OMITTED
from quizzer.workflows.people.name_columns import name_places
from quizzer.workflows.people.table_rows import Finder, Layout, lacking, only

IN_ONE = ("answers", "answer", "letters")
_QUESTION = re.compile(r"(?:q|no|question|answer|item)?[ .]*0*([1-9][0-9]{0,2})[.)]?")
_LEFT_OUT = {"", "-", "\N{EN DASH}", "\N{EM DASH}", "\N{MINUS SIGN}", ".", "_"}
_PARTING = re.compile(r"[,;/|]")
_ONE_EACH = "give one letter each, - for none"


def answer_layout(paper: Paper) -> Finder:
    """A finder of name, form and answers in the tables of a paper, in this order.

    The form may be left out where the paper has but one, or one for each person.
    """
    questions = max(len(form.items) for form in paper.forms)
    formless = len(paper.forms) == 1 or all(form.person for form in paper.forms)

    def find(heads: Sequence[str]) -> Layout | str:
        name, form = name_places(heads), only(heads, ["form"], "form")
        answers = _answer_places(heads, questions)
        for each in (name, form, answers):
            if isinstance(each, str):
                return each
        if not (name and answers and (form or formless)):
            return lacking(heads, ["name", *([] if formless else ["form"]), f"answers (or 1 to {questions})"])
        return Layout(tuple(each for each in (name, form, answers) if not isinstance(each, str)))

    return find


def _answer_places(heads: Sequence[str], questions: int) -> tuple[int, ...] | str:
    """The column of all letters or the column of each question, in the order of the questions."""
    whole = only(heads, IN_ONE, "answers")
    if isinstance(whole, str):
        return whole
    numbers = [(int(found[1]), at) for at, head in enumerate(heads) if (found := _QUESTION.fullmatch(head))]
    if whole and numbers:
        return f"there is a column {heads[whole[0]]!r} and one for question {numbers[0][0]}: leave one of the two kinds"
    if whole or not numbers:
        return whole
    return _misnumbered([number for number, _ in numbers], questions) or tuple(at for _, at in sorted(numbers))


def _misnumbered(there: Sequence[int], questions: int) -> str:
    """What is wrong with the questions that columns are for, "" for nothing."""
    if twice := [number for number in there if there.count(number) > 1]:
        return f"two columns are for question {twice[0]}: leave one of them"
    odd = sorted(set(range(1, questions + 1)) ^ set(there))
    return (
        f"columns are for other questions than the paper's, 1 to {questions}: see to question {odd[0]}" if odd else ""
    )


def letters_in(cells: Sequence[str], questions: int) -> str:
    """The letters of a script's cells, `-` for none; "" where nothing is filled in. Raises Refused.

    Blanks between letters part them and say nothing, so that a blank is never taken for a question left out.
    """
    if len(cells) > 1 or questions == 1:
        letters = "".join(_letter(cell, number) for number, cell in enumerate(cells, 1))
        return letters if letters.strip(OMITTED) or any(cell.strip() for cell in cells) else ""
    (cell,) = cells
    text = cell.strip()
    if signs := set(_PARTING.findall(text)):
        return _parted(text, signs, questions)
    letters = "".join(text.split())
    if letters != text and len(letters) != questions:
        raise Refused(
            f"{_count(len(letters))} for {questions} questions, with blanks between",
            mend="a blank stands for nothing here: write - where a question was left out",
        )
    return "".join(OMITTED if letter in _LEFT_OUT else letter for letter in letters)


def _parted(text: str, signs: set[str], questions: int) -> str:
    cells = text.split(min(signs))
    if len(signs) > 1 or len(cells) != questions:
        raise Refused(f"{_count(len(cells))} for {questions} questions, parted by {min(signs)}", mend=_ONE_EACH)
    return "".join(_letter(cell, number) for number, cell in enumerate(cells, 1))


def _count(answers: int) -> str:
    return f"{answers} answer{'' if answers == 1 else 's'}"


def _letter(cell: str, number: int) -> str:
    text = cell.strip()
    if len(text) > 1:
        raise Refused(f"question {number} has {text!r:.60}", mend=_ONE_EACH)
    return OMITTED if text in _LEFT_OUT else text
