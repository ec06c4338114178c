"""The screens of `quizzer weak`: one person's topics, or people by topics for a tutor."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.cli.feedback_page import day_words
from quizzer.cli.page import Page
from quizzer.cli.ready_page import DECIDES
from quizzer.cli.text_plots import band
from quizzer.workflows.readiness import ENOUGH
from quizzer.workflows.weakness import STRONG, WEAK, TopicState, Weakness

SIGNS = {"weak": "!!", "fair": "~", "strong": "ok", "unknown": "?"}
_MOST_PARTS = 8


def add_weak(page: Page, found: Weakness, wanted: str | None) -> None:
    """Topics, the weightiest sub-topics, mistakes, confident and safety-critical errors."""
    when = f"exam {day_words(found.exam, found.today)}" if found.exam else "no exam day set"
    page.heading(f"Weak topics: {found.trainee.name}", when)
    page.text(
        f"Recall now, and on the exam day if nothing more is studied, with 90 % intervals, from {found.answers} "
        f"answers. Weak is under {WEAK:.0%}, strong from {STRONG:.0%}. What costs most marks comes first."
    )
    page.gap()
    states = [state for state in found.topics if not wanted or state.name == wanted.split("/", maxsplit=1)[0]]
    _add_states(page, states, found.exam is not None)
    _add_unknown(page, [state for state in states if state.word == "unknown"])
    _add_parts(page, found, wanted)
    _add_errors(page, found, f"{wanted}/" if wanted else "")
    for note in found.notes:
        page.text(f"Note: {note}", hang=6)
    page.gap()
    page.text(f"`quizzer study --weak` makes a session of it. {DECIDES}")


def add_weak_group(page: Page, name: str, people: Sequence[Weakness], wanted: str | None) -> None:
    """People by topics: signs in a table with their words below; on a plain page words alone."""
    topics = sorted({state.name for one in people for state in one.topics if not wanted or state.name == wanted})
    page.heading(f"Weak topics: {name}", f"{len(people)} people")
    if page.look.plain:
        for one in people:
            page.text(f"{one.trainee.name}: {_in_words(one, topics)}", hang=2)
    else:
        _add_table(page, people, topics)
    page.gap()
    for topic in topics:
        words = [state.word for one in people for state in one.topics if state.name == topic]
        counts = ", ".join(f"{words.count(word)} {word}" for word in SIGNS if words.count(word))
        page.text(f"{topic}: {counts}", hang=2)
    page.gap()
    page.text(DECIDES)


def _add_table(page: Page, people: Sequence[Weakness], topics: Sequence[str]) -> None:
    page.text(f"!! weak (under {WEAK:.0%} on the exam day)   ~ fair   ok strong (from {STRONG:.0%})   "
              f"? not enough answers to say")  # fmt: skip
    page.gap()
    for at, topic in enumerate(topics, 1):
        page.lines.append(f"{at:>4} {topic}")
    page.gap()
    page.lines.append(" " * 20 + "".join(f"{at:>4}" for at in range(1, len(topics) + 1)))
    for one in people:
        words = {state.name: state.word for state in one.topics}
        cells = "".join(f"{SIGNS[words.get(topic, 'unknown')]:>4}" for topic in topics)
        page.lines.append(f"{one.trainee.name[:19]:<20}{cells}")


def _in_words(found: Weakness, topics: Sequence[str]) -> str:
    parts = []
    for word in SIGNS:
        names = [state.name for state in found.topics if state.word == word and state.name in topics]
        label = "not enough answers to say in" if word == "unknown" else f"{word} in"
        parts += [f"{label} {', '.join(names)}"] if names else []
    return "; ".join(parts) + "."


def _add_states(page: Page, states: Sequence[TopicState], exam: bool) -> None:
    page.lines.append(f"{'':<15}{'now':<18}{'on the exam day' if exam else '':<18}{'answers':>8} {'marks':>5}")
    for state in states:
        if state.word == "unknown":
            continue
        later = span(state.then) if exam else ""
        row = f"{state.name:<15}{span(state.now):<18}{later:<18}{state.answers:>8} {state.weight:>5.1f} {state.word}"
        page.lines.append(page.styled(row, "caution" if state.word == "weak" else ""))
        if not page.look.plain:
            page.lines.append(" " * 15 + band(state.then[1], state.then[0], state.then[2], 51, STRONG))
    page.gap()


def _add_unknown(page: Page, states: Sequence[TopicState]) -> None:
    if states:
        names = ", ".join(f"{state.name} ({state.answers})" for state in states)
        page.text(f"Not enough answers to say (fewer than {ENOUGH}): {names}.", hang=2)
        page.gap()


def _add_parts(page: Page, found: Weakness, wanted: str | None) -> None:
    parts = [part for part in found.parts if not wanted or (part.name + "/").startswith(wanted + "/")]
    weak = [part for part in parts if part.word in {"weak", "fair"} or (wanted and part.word != "unknown")]
    if not weak:
        return
    page.text("Sub-topics to study first:" if not wanted else f"Sub-topics of {wanted}:")
    for part in weak[: None if wanted else _MOST_PARTS]:
        page.lines.append(f"  {part.name:<36}{span(part.then):<18}{part.answers:>6} answers, {part.word}")
    page.gap()


def _add_errors(page: Page, found: Weakness, below: str) -> None:
    confident = [each for each in found.confident if each[0].startswith(below)]
    critical = [entry for entry in found.critical if entry.startswith(below)]
    if found.mistakes and not below:
        page.text("Mistakes by name (of the answers to those questions, last 90 days):")
        for words, made, of in found.mistakes:
            page.text(f"{words}: {made} of {of}", indent=2, hang=4)
        page.gap()
    if confident:
        page.text("Wrong while certain, which matters most on site (last 90 days):")
        for entry, times in confident[:5]:
            page.text(f"{entry}{f', {times} times' if times > 1 else ''}", indent=2, hang=4)
        page.gap()
    if critical:
        page.text(f"Safety-critical, missed the last time: {', '.join(critical[:6])}"
                  f"{f' and {len(critical) - 6} more' if len(critical) > 6 else ''}.", hang=2)  # fmt: skip
        page.gap()


def span(value: tuple[float, float, float]) -> str:
    """A share with the ends of its interval.

    >>> span((0.634, 0.49, 0.77))
    '63% (49-77%)'
    """
    return f"{value[0]:.0%} ({value[1]:.0%}-{value[2]:.0%})".replace("%-", "-")
