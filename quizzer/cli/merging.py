"""`quizzer trainee merge`, `unmerge` and `history`: two people who are one."""

from __future__ import annotations

from quizzer.cli.opening import open_world
from quizzer.cli.screen import put_page, tell
from quizzer.pages.corrections import merges_page
from quizzer.workflows.papers.script_marking import ids_for
from quizzer.workflows.people.merging import merge, unmerge


def join(name: str, into: str, by: str, reason: str, store: str | None, now: str | None) -> None:
    """Make two trainees one and say so."""
    with open_world(None, store, now) as world:
        kept = merge(world, name, into, by, reason)
    tell(
        f"{name.strip()!r} is one with {kept.name} now: answers, scripts, sittings and groups are {kept.name}'s. "
        f"`quizzer trainee unmerge {name.strip()!r}` parts them as they were."
    )


def part(name: str, by: str, reason: str, store: str | None, now: str | None) -> None:
    """Part two trainees again and say so."""
    with open_world(None, store, now) as world:
        trainee, other = unmerge(world, name, ids_for, by, reason)
    tell(f"{trainee.name} and {other} are two again, each with what was theirs; what came since stays with {other}.")


def history(store: str | None, plain: bool) -> None:
    """Show who was made one with whom, and parted."""
    with open_world(None, store) as world:
        found = world.store.corrections.merges()
    put_page(merges_page(found), plain)
