"""The papers of one blueprint taken together: every entry with its judged difficulty, and as it was answered."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.errors import BankError, NotFound, Refused
from quizzer.marks.answers import as_good_as_absent
from quizzer.marks.pooling import FEWEST, PooledAnswer, PooledFigures, pooled
from quizzer.marks.rasch import Before, Difficulty, FormAnswers, rasch
from quizzer.paper.curves import deviation, difficulty
from quizzer.paper.pool import BY_LEVEL, Facilities, Observed, doubt, expected_facility, pictured
from quizzer.paper.record import Item, Paper
from quizzer.store import OMITTED
from quizzer.workflows.ruled import rulings_on
from quizzer.workflows.world import World


class PooledEntry(NamedTuple):
    """An entry with what was asked of its working, if not the whole: judged, as answered, and both taken together.

    `judged` and `expected` are shares right, None for an entry that the bank has no more; `doubt` is the standard
    deviation of `expected`. `alike` is how hard it would be for all these people; None below `FEWEST` of them. What is
    expected is that where there is one: a form's people may be better or worse than another's. `as_it_is` says that
    the entry is what was answered: with a picture it is not the same as without.
    """

    name: str
    judged: float | None
    figures: PooledFigures
    expected: float | None
    doubt: float
    alike: Difficulty | None = None
    as_it_is: bool = True


class PooledPapers(NamedTuple):
    """How many papers of the blueprint were sat, how many scripts count, and the entries by name."""

    blueprint: str
    papers: int
    scripts: int
    entries: tuple[PooledEntry, ...]


def pooled_papers(world: World, blueprint: str) -> PooledPapers:
    """All that was answered in papers of a blueprint. Raises Refused where that is nothing."""
    made = [paper for paper in world.store.papers.every() if paper.blueprint == blueprint]
    if not made:
        known = ", ".join(sorted({paper.blueprint for paper in world.store.papers.every()})) or "none yet"
        raise Refused(f"no paper of {blueprint!r:.120} is kept", mend=f"papers are kept of: {known}")
    scripts = [(paper.id, answers) for paper in made for answers in _scripts(world, paper)]
    if not scripts:
        raise Refused(f"nobody's answers to a paper of {blueprint} count", mend="`quizzer paper mark` takes them in")
    found: dict[str, list[PooledAnswer]] = {}
    for _, answers in scripts:
        for name, answer in answers:
            found.setdefault(name, []).append(answer)
    digests = {_name(item.entry, item.exercise): item.digest for item in _items(made)}
    changed = {name for item in _items(made) if digests[name := _name(item.entry, item.exercise)] != item.digest}
    entries = [_entry(world, name, found[name], "" if name in changed else digests[name]) for name in sorted(found)]
    told = _alike(entries, [answers for _, answers in scripts])
    return PooledPapers(blueprint, len({paper for paper, _ in scripts}), len(scripts), told)


def measured_facilities(world: World, blueprint: str) -> Facilities:
    """How entries were answered, and how hard they were measured to be by those who sat papers of a blueprint."""
    seen = world.store.papers.facilities()
    try:
        entries = pooled_papers(world, blueprint).entries
    except Refused:  # none was sat yet
        return seen
    hard = {each.name: each.alike.facility for each in entries if each.alike is not None and each.as_it_is}
    return {key: each._replace(measured=hard.get(key[0])) for key, each in seen.items()}


def _alike(entries: list[PooledEntry], scripts: list[list[tuple[str, PooledAnswer]]]) -> tuple[PooledEntry, ...]:
    """The entries, each also as hard as it would be for all these people, where enough of them answered it."""
    if all(each.figures.people < FEWEST for each in entries):
        return tuple(entries)
    numbers = {each.name: at for at, each in enumerate(entries)}
    forms: dict[tuple[int, ...], list[list[int]]] = {}
    for answers in scripts:
        told = sorted((numbers[name], answer.right) for name, answer in answers)  # the same questions in any order
        forms.setdefault(tuple(at for at, _ in told), []).append([right for _, right in told])
    fit = rasch([FormAnswers(*form) for form in forms.items() if form[0]], [_before(each.judged) for each in entries])
    return tuple(
        _measured(each, hard) if each.figures.people >= FEWEST else each
        for each, hard in zip(entries, fit.difficulties, strict=True)
    )


def _measured(each: PooledEntry, hard: Difficulty) -> PooledEntry:
    """The entry as it was measured; whether or not it is what is expected of it now."""
    if each.expected is None or not each.as_it_is:
        return each._replace(alike=hard)
    return each._replace(alike=hard, expected=hard.facility, doubt=hard.facility_error)


def _before(judged: float | None) -> Before:
    facility = BY_LEVEL["apply"] if judged is None else judged
    return Before(difficulty(facility), deviation(facility, doubt(facility, 0)))


def _scripts(world: World, paper: Paper) -> Iterator[list[tuple[str, PooledAnswer]]]:
    """The scripts of those who were there, with an answer to each question that counts."""
    rulings = rulings_on(world.store, paper)
    for script in world.store.papers.scripts(paper.id):
        form = paper.form(script.form)
        if as_good_as_absent(len(script.answers) - script.answers.count(OMITTED), len(script.answers)):
            continue
        rights = rulings.rights(form, script.answers)
        mark = sum(right or 0 for right in rights)
        where = f"{paper.id} {form.letter if form.person else form.serial}"
        yield [
            (_name(item.entry, item.exercise), PooledAnswer(where, int(right), mark - int(right)))
            for item, right in zip(form.items, rights, strict=True)
            if right is not None
        ]


def _name(entry: str, exercise: str) -> str:
    return f"{entry}:{exercise}" if exercise else entry


def _items(made: list[Paper]) -> list[Item]:
    return [item for paper in made for form in paper.forms for item in form.items]


def _entry(world: World, name: str, answers: list[PooledAnswer], digest: str) -> PooledEntry:
    """The entry; `digest` is the one it always had in these papers, "" where it had several."""
    figures, entry = pooled(answers), _found(world, name.partition(":")[0])
    if entry is None:
        return PooledEntry(name, None, figures, None, 0.0)
    as_it_is = not pictured(entry) or entry.head.digest == digest
    expected = expected_facility(entry, Observed(figures.people, figures.right))
    error = doubt(expected, figures.people) ** 0.5
    return PooledEntry(name, expected_facility(entry, None), figures, expected, error, as_it_is=as_it_is)


def _found(world: World, id: str) -> Entry | None:
    try:
        return world.shelf.find(id)
    except (NotFound, BankError):
        return None
