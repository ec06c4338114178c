"""The verbs of papers: what was made, what is being answered on screen, what was marked."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from datetime import datetime

from quizzer.paper.pool import Facilities
from quizzer.paper.record import Paper
from quizzer.schedule import FoldRules
from quizzer.store import marked_scripts, papers, sittings
from quizzer.store.connection import Connection
from quizzer.store.paper_values import MarkedScript, Newcomer, Script, Sitting
from quizzer.values import NamedTuple


class Papers(NamedTuple):
    """The verbs of papers, sittings and scripts, of an open store. Each is one transaction."""

    wire: Connection

    def keep(self, paper: Paper) -> None:
        """Keep a paper, once; Refused if another one has its id."""
        papers.keep(self.wire, paper)

    def find(self, id: str) -> Paper:
        """The paper of that id; NotFound if there is none."""
        return papers.find(self.wire, id)

    def every(self) -> tuple[Paper, ...]:
        """All papers, in the order in which they were kept."""
        return papers.every(self.wire)

    def facilities(self) -> Facilities:
        """How often each entry was answered, and rightly, at every trainee's first try; drills left out."""
        return papers.facilities(self.wire)

    def recent_questions(self, people: Collection[str]) -> frozenset[tuple[str, int]]:
        """Entry and seed of all that the last two papers of each of these people asked; with no people, of any."""
        return papers.recent_questions(self.wire, people)

    def begin_sitting(self, sitting: Sitting) -> Sitting:
        """The sitting, kept; or the one that this trainee has begun of this form before."""
        return sittings.begin(self.wire, sitting)

    def save_sitting(self, sitting: Sitting) -> Sitting:
        """The sitting as it is to be saved next; Refused if it was handed in or goes on in another window."""
        return sittings.save(self.wire, sitting)

    def sittings(self, paper: str) -> tuple[Sitting, ...]:
        """Every sitting of a paper, in the order in which they began."""
        return sittings.of_paper(self.wire, paper)

    def record_scripts(
        self,
        paper: str,
        newcomers: Sequence[Newcomer],
        marked: Iterable[MarkedScript],
        when: datetime,
        rules: Callable[[], FoldRules] = FoldRules,
    ) -> int:
        """Keep marked scripts with all their reviews, all or none, each once; how many were new.

        What is remembered of an entry that was answered since is worked out anew, by `rules`.
        """
        return marked_scripts.record_scripts(self.wire, paper, newcomers, marked, when, rules)

    def scripts(self, paper: str) -> tuple[Script, ...]:
        """Every marked script of a paper, by name and form."""
        return sittings.scripts(self.wire, paper)
