"""The table of answers, one row a person: every bad row told at once, and nothing marked while there is one."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from quizzer.errors import QuizzerError, Refused
from quizzer.paper.record import Paper
from quizzer.store import Newcomer
from quizzer.workflows.papers.answer_cells import answer_layout, letters_in
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import Forms, refuse_others, tidy_answers
from quizzer.workflows.papers.script_marking import Handed
from quizzer.workflows.people.groups import People, bad_row
from quizzer.workflows.people.name_columns import whole_name
from quizzer.workflows.people.table_rows import BadRow, TableRow, in_order, read_rows
from quizzer.workflows.people.telling import Progress, quiet, told
from quizzer.workflows.world import World


class AnswerTable(NamedTuple):
    """What a table holds: answers to mark, trainees to add with them, who has none, and the rows that are bad.

    `alike` are new names that are spelt nearly as a known one, each with that one; `notes` say how the file was read.
    """

    handed: tuple[Handed, ...]
    newcomers: tuple[Newcomer, ...]
    absent: tuple[str, ...]
    bad: tuple[BadRow, ...]
    alike: tuple[tuple[str, str], ...]
    notes: tuple[str, ...] = ()


def read_table(
    world: World, paper: Paper, making: Making, path: Path, *, add: bool, progress: Progress = quiet
) -> AnswerTable:
    """The table of a file. Raises Refused when it cannot be read, or the bank is not that of the paper."""
    table = read_rows(path, answer_layout(paper))
    bad = table.bad
    reader = _Reader(world, paper, making, People(world, add=add))
    for row in told(table.rows, "reading row", progress):
        if not (whole_name(row.cells[0]) or any(cell.strip() for cell in row.cells[2])):
            continue  # a line of the template that nobody filled in
        try:
            reader.take(row)
        except QuizzerError as error:
            bad.append(bad_row(row.line, error))
    if not reader.lines and not bad:
        bad.append(BadRow(1, "there are no answers below the first line"))
    needed = {one.trainee for one in reader.handed}
    newcomers = tuple(one for one in reader.people.newcomers if one.id in needed)
    alike = reader.people.alike(newcomers)
    return AnswerTable(tuple(reader.handed), newcomers, tuple(reader.absent), in_order(bad), alike, tuple(table.notes))


class _Reader:
    """Rows turned into answers, one after the other."""

    def __init__(self, world: World, paper: Paper, making: Making, people: People) -> None:
        self._making, self.people = making, people
        self._kept = {(one.trainee, one.form): one.answers for one in world.store.papers.scripts(paper.id)}
        self._forms = Forms(paper)
        self._now = world.now()
        for form in paper.forms:  # a bank that is not the paper's is no fault of a row
            if not form.person:
                making.of(form)
        self.lines: dict[str, int] = {}
        self.handed: list[Handed] = []
        self.absent: list[str] = []

    def take(self, row: TableRow) -> None:
        """Take a row. Raises a refusal that says what is wrong with it."""
        name, said, answered = row.cells
        one = self.people.find(whole_name(name))
        if one.id in self.lines:
            raise Refused(f"{one.name} stands in line {self.lines[one.id]} already", mend="leave one of the two")
        self.lines[one.id] = row.line
        form = self._forms.of(said[0] if said else "", one.name)
        text = letters_in(answered, len(form.items))
        if not text:
            self.absent.append(one.name)
            return
        answers = tidy_answers(text, self._making.of(form))
        refuse_others(self._kept.get((one.id, form.serial)), answers, one.name, form)
        self.handed.append(Handed(one.id, one.name, form, answers, "table", self._now))
