"""What takes longer than a page may: the bank read ahead of who will ask for it, and papers, made beside the pages."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, wait
from threading import Thread
from time import sleep
from typing import TypeVar

from quizzer.bank.blueprints import Blueprint
from quizzer.paper.record import Paper
from quizzer.web.visit import Visit, WebSite
from quizzer.workflows.papers.alone import wished

T = TypeVar("T")

_PAUSE = 0.005  # seconds between two files, in which others have their turn


def made(visit: Visit, plan: Blueprint) -> Paper | None:
    """The paper, kept, that the trainee wished for, now or before; None while it is being made. Raises Refused.

    It is kept by who asks for it when it is done: one that nobody waits for any more leaves nothing behind.
    """
    key, papers = (visit.trainee.id, plan.id), visit.site.making
    if key not in papers:
        wish, shelf = wished(visit.world, visit.trainee, plan), visit.world.shelf
        papers[key] = beside(lambda: wish.made(shelf))
    wait([papers[key]], visit.site.patience)
    if not papers[key].done():
        return None
    paper = papers.pop(key).result()
    visit.world.store.papers.keep(paper)
    return paper


def read_ahead(site: WebSite) -> None:
    """Have the shelf look at every file of the bank and read it, unless somebody has it do so already."""
    if site.reading.acquire(blocking=False):
        try:
            site.world.shelf.listed()
            for path in site.world.shelf.files():
                site.world.shelf.load(path)
                sleep(_PAUSE)
        finally:
            site.reading.release()


def beside(act: Callable[[], T]) -> Future[T]:
    """What comes of an act that is done beside the pages, in a thread that does not keep the program from ending."""
    found: Future[T] = Future()

    def run() -> None:
        try:
            found.set_result(act())
        except BaseException as error:  # noqa: BLE001  whoever asks for it is told
            found.set_exception(error)

    Thread(target=run, daemon=True).start()
    return found
