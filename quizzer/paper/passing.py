"""Whether a paper is passed: the mark against the pass mark, and the sections that must be all right."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.paper.record import Form, Paper, Section
from quizzer.paper.rulings import reckoned
from quizzer.values import NamedTuple


class SectionMark(NamedTuple):
    """One person's marks in a section."""

    section: Section
    right: int
    asked: int

    @property
    def failed(self) -> bool:
        """Whether this section fails the paper whatever the mark: all of it had to be right and was not."""
        return self.section.all_right and self.right < self.asked


class Verdict(NamedTuple):
    """One person's result on a form: marks, questions, the pass mark, and the marks of each section it has."""

    right: int
    questions: int
    pass_mark: int
    sections: tuple[SectionMark, ...]

    @property
    def reaches_pass_mark(self) -> bool:
        """Whether the marks are enough."""
        return self.right >= self.pass_mark

    @property
    def sections_ok(self) -> bool:
        """Whether every section that must be all right is."""
        return not any(each.failed for each in self.sections)

    @property
    def passed(self) -> bool:
        """Whether the paper is passed: both of them."""
        return self.reaches_pass_mark and self.sections_ok


def verdict(paper: Paper, form: Form, rights: Sequence[bool | None]) -> Verdict:
    """The verdict on the answers to a form, right or wrong in the order of its items; None is not counted.

    Where questions are not counted, the pass mark is that of a paper of so many questions as are.
    """
    by_section: dict[str, list[bool]] = {}
    for item, right in zip(form.items, rights, strict=True):
        if right is not None:
            by_section.setdefault(item.section, []).append(right)
    marks = tuple(
        SectionMark(section, sum(by_section[section.id]), len(by_section[section.id]))
        for section in paper.sections
        if section.id in by_section
    )
    counted = [right for right in rights if right is not None]
    return Verdict(sum(counted), len(counted), reckoned(paper.pass_mark, len(rights), len(counted)), marks)
