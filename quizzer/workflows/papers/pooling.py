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
from quizzer.paper.pool import BY_LEVEL, Facilities, doubt, expected_facility, facility_doubt, observed_of
from quizzer.paper.record import Item, Paper
from quizzer.store import OMITTED
from quizzer.workflows.ruled import rulings_on
from quizzer.workflows.world import World


class PooledEntry(NamedTuple):
    """An entry with what was asked of its working, if not the whole: judged, as answered, and both taken together.

    `judged` and `expected` are shares right, None for an entry that the bank has no more; `doubt` is the standard
    deviation of `expected`. `alike` is how hard it would be for all these people; None below `FEWEST` of them. What is
    expected is that where there is one: a form's people may be better or worse than another's. `digest` is that of the
    entry where it was answered in these papers as it is now and in no other wording, else "".
    """

    name: str
    judged: float | None
    figures: PooledFigures
    expected: float | None
    doubt: float
    alike: Difficulty | None = None
    digest: str = ""


class PooledPapers(NamedTuple):
    """How many papers of the blueprint were sat, how many scripts count, and the entries by name."""

    blueprint: str
    papers: int
    scripts: int
    entries: tuple[PooledEntry, ...]


class _Answered(NamedTuple):
    """An answer, the name of what was answered, and the digest that its entry had then."""

    name: str
    digest: str
    answer: PooledAnswer


def pooled_papers(world: World, blueprint: str) -> PooledPapers:
    """All that was answered in papers of a blueprint. Raises Refused where that is nothing."""
    made = [paper for paper in world.store.papers.every() if paper.blueprint == blueprint]
    if not made:
        known = ", ".join(sorted({paper.blueprint for paper in world.store.papers.every()})) or "none yet"
        raise Refused(f"no paper of {blueprint!r:.120} is kept", mend=f"papers are kept of: {known}")
    scripts = [(paper.id, answers) for paper in made for answers in _scripts(world, paper)]
    if not scripts:
        raise Refused(f"nobody's answers to a paper of {blueprint} count", mend="`quizzer paper mark` takes them in")
    told = _entries(world, [answers for _, answers in scripts], world.store.papers.facilities())
    return PooledPapers(blueprint, len({paper for paper, _ in scripts}), len(scripts), told)


def measured_facilities(world: World, blueprint: str) -> Facilities:
    """How entries were answered, and how hard they were measured to be by those who sat papers of a blueprint."""
    seen = world.store.papers.facilities()
    made = [paper for paper in world.store.papers.every() if paper.blueprint == blueprint]
    entries = _entries(world, [answers for paper in made for answers in _scripts(world, paper)], seen)
    hard = {
        (each.name, each.digest): (each.alike.facility, each.alike.facility_error)
        for each in entries
        if each.alike is not None and each.digest
    }
    return {key: each._replace(measured=hard.get(key)) for key, each in seen.items()}


def _entries(world: World, scripts: list[list[_Answered]], seen: Facilities) -> tuple[PooledEntry, ...]:
    found: dict[str, list[_Answered]] = {}
    for answers in scripts:
        for one in answers:
            found.setdefault(one.name, []).append(one)
    entries = [_entry(world, name, found[name], seen) for name in sorted(found)]
    return _alike(entries, [[(one.name, one.answer) for one in answers] for answers in scripts])


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
    if each.expected is None or not each.digest:
        return each._replace(alike=hard)
    return each._replace(alike=hard, expected=hard.facility, doubt=hard.facility_error)


def _before(judged: float | None) -> Before:
    facility = BY_LEVEL["apply"] if judged is None else judged
    return Before(difficulty(facility), deviation(facility, doubt(facility, 0)))


def _scripts(world: World, paper: Paper) -> Iterator[list[_Answered]]:
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
            _Answered(_name(item), item.digest, PooledAnswer(where, int(right), mark - int(right)))
            for item, right in zip(form.items, rights, strict=True)
            if right is not None
        ]


def _name(item: Item) -> str:
    return f"{item.entry}:{item.exercise}" if item.exercise else item.entry


def _entry(world: World, name: str, answers: list[_Answered], seen: Facilities) -> PooledEntry:
    figures, entry = pooled([one.answer for one in answers]), _found(world, name.partition(":")[0])
    if entry is None:
        return PooledEntry(name, None, figures, None, 0.0)
    observed = observed_of(entry, seen)
    expected, error = expected_facility(entry, observed), facility_doubt(entry, observed) ** 0.5
    digest = entry.head.digest if {one.digest for one in answers} == {entry.head.digest} else ""
    return PooledEntry(name, expected_facility(entry, None), figures, expected, error, digest=digest)


def _found(world: World, id: str) -> Entry | None:
    try:
        return world.shelf.find(id)
    except (NotFound, BankError):
        return None
