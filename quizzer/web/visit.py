"""What a handler is handed: the program behind the pages, who asks, and what for."""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import Future
from dataclasses import dataclass, field
from threading import Lock

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.paper.record import Paper
from quizzer.store import Trainee
from quizzer.web.assets import Assets
from quizzer.web.session import Sessions
from quizzer.workflows.forecast.readiness import Readiness
from quizzer.workflows.papers.sitting import Desk
from quizzer.workflows.world import World


@dataclass(frozen=True, slots=True)
class WebSite:
    """What stands behind every page.

    By trainee and plan, `making` are the papers being made and `desks` those being sat, whose clocks run. `expected` is
    what could be said of the mark before, by trainee and paper, of those marked since the start: no store has it.
    `patience` is how many seconds a page waits for a paper that is being made, `reading` is held by who reads the bank
    ahead, and `turn` by whatever reads and writes: it is one person's program.
    """

    world: World
    address: str
    sessions: Sessions
    assets: Assets
    patience: float = 0.7
    making: dict[tuple[str, str], Future[Paper]] = field(default_factory=dict)
    desks: dict[tuple[str, str], Desk] = field(default_factory=dict)
    expected: dict[tuple[str, str], Readiness] = field(default_factory=dict)
    reading: Lock = field(default_factory=Lock)
    turn: Lock = field(default_factory=Lock)


@dataclass(frozen=True, slots=True)
class WebCall:
    """A request of anybody: the parts of its path, its query, its body, its cookies, and whether it takes gzip."""

    site: WebSite
    path: Mapping[str, str]
    query: Mapping[str, str]
    body: bytes
    cookies: str
    gzip: bool


@dataclass(frozen=True, slots=True)
class Visit(WebCall):
    """A request of somebody who is in."""

    trainee: Trainee

    @property
    def world(self) -> World:
        """Store, bank, clock and dice."""
        return self.site.world

    def blueprint(self) -> Blueprint:
        """The plan of the paper that is studied for: their own, or the usual one."""
        return blueprint(self.world.shelf, self.trainee.blueprint or USUAL)
