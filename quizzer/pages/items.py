"""The questions of a paper: which to look at first, how far marks can be relied on, forms, every question."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block as Shown
from quizzer.blocks.page import Page
from quizzer.blocks.text import DataTable, Heading, Paragraph, Points, do
from quizzer.blocks.words import capital, count, listed, number, percent
from quizzer.figures import decimals
from quizzer.marks import decisions, reliability
from quizzer.marks.answers import KEY
from quizzer.marks.comparing import FormFigures
from quizzer.marks.flags import FEWEST, FIRM, Flag
from quizzer.marks.items import ItemFigures
from quizzer.marks.reliability import times_longer
from quizzer.pages.mock import mock
from quizzer.paper.record import Paper
from quizzer.question.question import Question
from quizzer.workflows.papers.items_result import Block, ItemsReport, Reliability, option_letter

WANTED = 0.80  # a reliability often asked for where marks decide; common practice
KINDS = {
    "miskey": "LIKELY MISKEY: {who}, not the key",
    "draws-the-best": "option {option} draws those with the higher marks: is it arguably right?",
    "weak": "hardly tells those with higher marks from the others",
    "omitted": "left out by more than one in ten",
    "hard": "right for fewer than three in ten",
    "easy": "right for more than nineteen in twenty",
    "idle": "option {option} is chosen by fewer than one in twenty",
}


def items_page(paper: Paper, found: ItemsReport) -> Page:
    """The whole page."""
    return Page(f"The questions: {paper.title}", [mock(paper), *items_blocks(found)])


def items_blocks(found: ItemsReport) -> tuple[Shown, ...]:
    """What the page says, to stand behind another one too."""
    parts = (_flags(found), _reliability(found), _forms(found), _questions(found))
    return tuple(block for part in parts for block in part)


def _flags(found: ItemsReport) -> Iterator[Shown]:
    yield Heading("Questions to look at first")
    if found.flags:
        yield Points([_flag(found, flag) for flag in found.flags])
    elif max(block.reliability.marks.people for block in found.blocks) < FEWEST:
        pooled = do("paper entries", found.blueprint)
        yield Paragraph(
            ("No question was answered by enough people to judge it. ", pooled, " takes all papers together.")
        )
    else:
        yield Paragraph("Nothing stands out among the questions that enough people answered.")
    yield Paragraph(
        f"No question is flagged on fewer than {FEWEST} people, and below {FIRM} a flag is provisional. A correlation "
        "counts only beyond two of its standard errors. Take a question out only for a wrong key or a double meaning, "
        "and then report the marks both ways."
    )


def _flag(found: ItemsReport, flag: Flag) -> str:
    block, number_, question = _place(found, flag.item)
    option = option_letter(block, flag.item, flag.option) if flag.option else ""
    who = f"those with the higher marks choose {option}" if option else "those with the lower marks choose the key more"
    provisional = "" if flag.firm else ", provisional"
    alone = len(block.forms) == 1
    where = f"form {block.forms[0]} question {number_}" if alone else f"question {number_} of every form"
    said = KINDS[flag.kind].format(option=option, who=who)
    return f"{where} ({question.name}): {said} ({flag.people} people{provisional})"


def _place(found: ItemsReport, item: str) -> tuple[Block, int, Question]:
    return next(
        (block, number_, question)
        for block in found.blocks
        for number_, question, figures in block.items
        if figures.item == item
    )


def _name(block: Block) -> str:
    return f"form {block.forms[0]}" if len(block.forms) == 1 else "all forms alike"


def _reliability(found: ItemsReport) -> Iterator[Shown]:
    yield Heading("How far the marks can be relied on")
    for block in found.blocks:
        yield Paragraph(f"{capital(_name(block))}: {_relied(block.reliability, block.questions)}")
    yield Paragraph(
        "By the mark alone: sections that must be all right are not in these figures. Accuracy is the share of people "
        "whom the paper decides as their true marks would; consistency the share decided alike by two such papers."
    )


def _relied(one: Reliability, questions: int) -> str:
    scripts = f"{count(one.marks.people, 'script')} of {questions} questions"
    if one.kr20 is None or one.interval is None:
        return f"{scripts}: too few, or too alike, for a reliability (at least {reliability.FEWEST} scripts)."
    said = (
        f"{scripts}: KR-20 {number(one.kr20)} (95 % interval {number(one.interval.low)} to "
        f"{number(one.interval.high)}), standard error {number(one.error, 1)} marks."
    )
    if one.decisions is None or one.subkoviak is None:
        return f"{said} How consistently it decides is not said below {decisions.FEWEST} scripts."
    return f"{said} {_decided(one)}{_longer(one, questions)}"


def _decided(one: Reliability) -> str:
    if one.decisions is None or one.subkoviak is None:
        return ""
    found = one.decisions
    return (
        f"Livingston-Lewis: accuracy {number(found.accuracy)}, consistency {number(found.consistency.share)} "
        f"(kappa {number(found.consistency.kappa)}). Subkoviak: consistency {number(one.subkoviak.share)}."
    )


def _longer(one: Reliability, questions: int) -> str:
    if one.kr20 is None or not 0 < one.kr20 < WANTED:
        return ""
    wanted = round(questions * times_longer(one.kr20, WANTED))
    return f" For a KR-20 of 0.80 it would need about {wanted} such questions (Spearman-Brown)."


def _forms(found: ItemsReport) -> Iterator[Shown]:
    if len(found.forms) < 2:
        return
    yield Heading("Forms beside each other")
    yield Paragraph(
        "Each form's mean less that of all the others, with its range (19 times in 20). Different people sat them, so "
        "a difference may be theirs, and nothing is equated here."
    )
    if len({each.questions for each in found.forms}) > 1:
        yield Paragraph("The forms count different numbers of questions: all of this is in hundredths of a form's.")
    rows = [_form(each) for each in found.forms]
    yield DataTable("", ("Form", "People", "Mean", "SD", "Difference", "Range"), rows, right=(1, 2, 3, 4))


def _form(each: FormFigures) -> tuple[str, ...]:
    known = each.interval
    between = f"{number(known.low, 1)} to {number(known.high, 1)}" if known else "too few to say"
    figures = (number(each.mean, 1), number(each.deviation, 1), number(each.difference, 1))
    return (each.form, str(each.people), *figures, between)


def _questions(found: ItemsReport) -> Iterator[Shown]:
    yield Heading("Every question")
    yield Paragraph(
        "Right: the share that got it right (facility). r: correlation of getting it right with the mark on the other "
        "questions, SE its standard error. D: facility of the best 27 % less that of the last. Works: wrong options "
        "chosen by one in twenty and more by those with lower marks. Chosen: of those it was offered to; * is the key."
    )
    for block in found.blocks:
        people = block.reliability.marks.people
        forms = (
            f"Form {listed(block.forms)}" if len(block.forms) < 6 else f"{len(block.forms)} forms of the same questions"
        )
        yield DataTable(
            f"{forms}: {count(people, 'person', 'people')}",
            ("No", "Right", "r", "SE", "D", "Works", "Chosen, in %" if people >= FEWEST else "Chosen, people"),
            [_item(block, number_, figures) for number_, _, figures in block.items],
            right=(0, 1, 2, 3, 4, 5),
        )


def _item(block: Block, number_: int, one: ItemFigures) -> tuple[str, ...]:
    enough, judged = one.people >= reliability.FEWEST, one.people >= FEWEST
    wrong = sum(choice.name != KEY for choice in one.choices)
    return (
        str(number_),
        percent(one.facility) if judged else f"{one.right} of {one.people}",
        number(one.with_rest if enough else None),
        number(one.error if enough and one.with_rest is not None else None),
        number(one.upper_lower if enough else None),
        f"{one.working} of {wrong}" if judged else "-",
        _chosen(block, one),
    )


def _chosen(block: Block, one: ItemFigures) -> str:
    """What was chosen: in per cent where there are enough people for them to mean anything, else how many."""
    judged = one.people >= FEWEST
    parts = [
        f"{option_letter(block, one.item, each.name)}{'*' if each.name == KEY else ''} "
        f"{decimals(100 * each.share, 0) if judged else each.chosen}"
        for each in one.choices
    ]
    none = [f"none {decimals(100 * one.omitted / one.people, 0) if judged else one.omitted}"] if one.omitted else []
    return ", ".join([*sorted(parts), *none])
