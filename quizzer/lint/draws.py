"""What a template does over many draws: faults, variety, slips that show, options that stay apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import prod
from random import Random

from quizzer.bank.entries import Column, Entry, Steps, Template
from quizzer.errors import Issue, Refused
from quizzer.lint.rule import Context, issue
from quizzer.question.drawing import draw, run
from quizzer.question.making import make, sound
from quizzer.question.options import apart, wronged

_DRAWS = 150
ENOUGH = 500  # different questions of one template: nobody meets the same numbers twice
RARELY, OFTEN, STILL = 0.2, 0.1, 0.8


def draws_work(entry: Entry, context: Context) -> Iterator[Issue]:
    """A draw divides by zero, or no draw meets the requirements."""
    if not isinstance(entry, Template):
        return
    try:
        make(entry, 1)
    except Refused as refusal:
        yield issue(entry, "Q802", "require", refusal.message, refusal.mend)
        return
    zero = sum(isinstance(_drawn(entry, seed), ZeroDivisionError) for seed in range(_DRAWS))
    if zero:
        yield issue(entry, "Q801", "given", f"{zero} of {_DRAWS} draws divide by zero", "keep zero out of the ranges")
    sound_share = sum(isinstance(_drawn(entry, seed), dict) for seed in range(_DRAWS)) / _DRAWS
    many = variety(entry) * sound_share
    if many < ENOUGH:
        what = f"only about {many:.0f} different questions"
        yield issue(entry, "Q803", "given", what, f"widen the ranges: {ENOUGH} are wanted")


def variety(template: Template) -> int:
    """How many different sets of numbers the ranges allow."""
    drawn = [
        1 if isinstance(given.draw, Column) else given.draw.number if isinstance(given.draw, Steps) else len(given.draw)
        for given in template.given
    ]
    return prod(drawn) * prod(len(rows) for rows in template.rows.values())


def slips_show(entry: Entry, context: Context) -> Iterator[Issue]:
    """Fewer than three slips, a slip that equals the truth or another, or one that hardly ever shows."""
    if not isinstance(entry, Template):
        return
    if len(entry.slips) < 3:
        yield issue(entry, "Q501", "slip", f"{len(entry.slips)} slips", "add real mistakes until there are three")
    draws = [found for seed in range(_DRAWS) if isinstance(found := _drawn(entry, seed), dict)]
    shown = Counter(one.slip.id for values in draws for one in wronged(entry, values, _Blank()))
    for id, times in Counter(slip.id for slip in entry.slips).items():
        if id not in context.slips:
            yield issue(entry, "Q503", f"slip {id}", "not in the shared list of slips", "add it to banks/slips.toml")
        if times > 1:
            yield issue(entry, "Q504", f"slip {id}", "named twice in one template", "give each mistake its own name")
        if draws and not shown[id]:
            yield issue(entry, "Q502", f"slip {id}", _why_never(entry, id, draws), "take it out or change it")
        elif draws and shown[id] < RARELY * len(draws):
            what = f"shows in {shown[id]} of {len(draws)} draws only"
            yield issue(entry, "Q506", f"slip {id}", what, "move the ranges or change it", warning=True)


def _why_never(template: Template, id: str, draws: list[dict[str, float]]) -> str:
    answer = template.steps[template.answer].name
    slip = next(slip for slip in template.slips if slip.id == id)
    bent = [run(template, values, slip.step, slip.expr)[answer] for values in draws[:20]]
    near = sum(not apart(one, values[answer]) for one, values in zip(bent, draws, strict=False))
    return "equals the right answer" if near == len(bent) else "is never a believable value of its own"


def options_stay(entry: Entry, context: Context) -> Iterator[Issue]:
    """Too few options differ, so that a question meant for options is asked open too often."""
    if not isinstance(entry, Template) or entry.form != "choose" or any(True for _ in draws_work(entry, context)):
        return
    opened = sum(make(entry, seed).kind == "number" for seed in range(_DRAWS))
    if opened > OFTEN * _DRAWS:
        what = f"{opened} of {_DRAWS} questions have too few options apart"
        yield issue(entry, "Q507", "slip", what, "add slips or move the ranges", warning=True)


def key_moves(entry: Entry, context: Context) -> Iterator[Issue]:
    """The key nearly always stands in the same place, so that its place gives it away."""
    if not isinstance(entry, Template) or any(True for _ in draws_work(entry, context)):
        return
    keys = [question.key for seed in range(_DRAWS) if (question := make(entry, seed)).kind == "choose"]
    (label, times), *_ = Counter(keys).most_common(1) or [("", 0)]
    if len(keys) > _DRAWS / 5 and times > STILL * len(keys):
        what = f"the key stands at {label} in {times} of {len(keys)} questions"
        yield issue(entry, "Q508", "slip", what, "add a slip on the other side of the answer", warning=True)


def everything_used(entry: Entry, context: Context) -> Iterator[Issue]:
    """A given or a step that nothing uses."""
    if not isinstance(entry, Template):
        return
    used = set[str]().union(*(step.expr.uses for step in entry.steps), *(slip.expr.uses for slip in entry.slips))
    used |= set[str]().union(*(each.left.uses | each.right.uses for each in entry.require))
    used |= set[str]().union(*(o.when.left.uses | o.when.right.uses for o in entry.verdict if o.when))
    asked = set[str]().union(*(ask.names for ask in entry.ask))
    for given in entry.given:
        if given.name not in used | asked:
            yield issue(entry, "Q204", given.name, "is never used", "take it out", warning=True)
    for step in entry.steps:
        if step.name not in used and step is not entry.steps[entry.answer]:
            yield issue(entry, "Q204", step.name, "is worked out and never used", "take it out", warning=True)


def wordings(entry: Entry, context: Context) -> Iterator[Issue]:
    """A template with fewer than two wordings is soon known by sight."""
    if isinstance(entry, Template) and len(entry.ask) < 2:
        yield issue(entry, "Q804", "ask", "one wording only", "add a second, from another situation", warning=True)


class _Blank(dict[str, str]):
    """Texts nobody reads: any name gives an empty text."""

    def __missing__(self, key: str) -> str:
        return ""

    def __or__(self, other: object) -> _Blank:  # type: ignore[override]
        return self


def _drawn(template: Template, seed: int) -> dict[str, float] | Exception | None:
    """The values of one draw; the error it ran into; or None when a requirement threw it away."""
    dice = Random(f"{template.head.id}#{seed}").random
    try:
        values = run(template, draw(template, dice, {}).values)
        return values if sound(template, values) else None
    except (ArithmeticError, KeyError) as error:
        return error
