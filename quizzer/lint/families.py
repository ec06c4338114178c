"""Families: every text of theirs, and the general rules case by case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.fields import Path
from quizzer.lint.rule import AskedRule, Context, Finding, RenderedQuestion, Said


def examined(entry: Family | OrderFamily, context: Context, rules: Sequence[AskedRule]) -> Iterator[Finding]:
    """What the rules for every question find about each case, at its line."""
    for path, asked in _cases(entry):
        for rule in rules:
            for found in rule(asked, context):
                yield found._replace(path=path) if found.path == ("ask",) else found


def texts(entry: Family | OrderFamily) -> Iterator[Said]:
    """Every text of a family that a trainee reads, with its key."""
    yield Said(("ask",), entry.lead)
    if isinstance(entry, OrderFamily):
        yield from (Said(("part", at, "say"), part.say) for at, part in enumerate(entry.parts) if part.say)
        for id, step in entry.steps.items():
            yield from (Said(("step", id, "say"), step.say), Said(("step", id, "why"), step.why))
        return
    for id, thing in entry.things.items():
        said = (("say", thing.say), ("is", thing.answers), ("teach", thing.teach))
        yield from (Said(("thing", id, key), text) for key, text in said)
    for at, stem in enumerate(entry.stems):
        yield from (Said(("stem", at, "say"), stem.say), Said(("stem", at, "reason"), stem.reason))
        yield from (Said(("stem", at, "because", thing), text) for thing, text in stem.because.items())
        yield from (Said(("stem", at, "over_cautious", thing), text) for thing, text in stem.over_cautious.items())


def _cases(entry: Family | OrderFamily) -> Iterator[tuple[Path, RenderedQuestion]]:
    """Each case as it is asked, with what it says itself of source and edition, and the key of its words."""
    if isinstance(entry, OrderFamily):
        steps = tuple(Said(("step", id, "say"), step.say) for id, step in entry.steps.items())
        for at, part in enumerate(entry.parts):
            yield (("part", at, "say") if part.say else ("ask",)), RenderedQuestion(entry, (entry.asked(part),), steps)
        return
    things = tuple(Said(("thing", id, "say"), thing.say) for id, thing in entry.things.items())
    for at, stem in enumerate(entry.stems):
        own = entry._replace(head=stem.head)
        yield ("stem", at, "say"), RenderedQuestion(own, (entry.asked(stem),), things)
