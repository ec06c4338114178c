"""The screens of `quizzer weak`: one person's topics, or people by topics for a tutor."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.cli.feedback_page import day_words
from quizzer.cli.ready_page import DECIDES
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.plots import band
from quizzer.workflows.readiness import ENOUGH
from quizzer.workflows.report_words import count
from quizzer.workflows.weakness import STRONG, WEAK, TopicState, Weakness

SIGNS = {"weak": "!!", "fair": "~", "strong": "ok", "unknown": "?"}
_MOST_PARTS = 8
_NAME = 19  # letters of a name beside its row; a longer one stands above it
_COLUMNS = 15  # topics of a table, so that it is as wide as the screen


def add_weak(page: Canvas, found: Weakness, wanted: str | None) -> None:
    """Topics, the weightiest sub-topics, mistakes, confident and safety-critical errors."""
    when = f"exam {day_words(found.exam, found.today)}" if found.exam else "no exam day set"
    page.heading(f"Weak topics: {found.trainee.name}", when)
    later = ", and on the exam day if nothing more is studied" if found.exam else ""
    page.text(
        f"Recall now{later}, with 90 % intervals, from {found.answers} answers. Weak is under {WEAK:.0%}, strong "
        f"from {STRONG:.0%}. Marks are what a topic counts in the paper; "
        "what costs most of them comes first."
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


def add_weak_group(page: Canvas, name: str, people: Sequence[Weakness], wanted: str | None) -> None:
    """People by topics: signs in a table with their words below; on a plain page words alone."""
    topics = columns_of(people, wanted)
    page.heading(f"Weak topics: {name}", count(len(people), "person", "people"))
    page.text("As of each one's own exam day, or today, if nothing more is studied.")
    if page.look.plain:
        for one in people:
            page.text(f"{one.trainee.name}: {_in_words(one, topics)}", hang=2)
    else:
        _add_signs(page)
        for first in range(0, len(topics), _COLUMNS):
            _add_table(page, people, topics[first : first + _COLUMNS])
    page.gap()
    for topic in topics:
        words = [words_of(one, [topic])[0] for one in people]
        counts = ", ".join(f"{words.count(word)} {word}" for word in SIGNS if words.count(word))
        page.text(f"{topic}: {counts}", hang=2)
    page.gap()
    page.text(DECIDES)


def columns_of(people: Sequence[Weakness], wanted: str | None) -> list[str]:
    """The topics of a group's table: all, or one with its sub-topics."""
    if not wanted:
        return sorted({state.name for one in people for state in one.topics})
    below = f"{wanted}/"
    return sorted({state.name for one in people for state in (*one.topics, *one.parts)
                   if f"{state.name}/".startswith(below)})  # fmt: skip


def words_of(found: Weakness, topics: Sequence[str]) -> list[str]:
    """The word for each of these topics or sub-topics: weak, fair, strong or unknown."""
    words = {state.name: state.word for state in (*found.parts, *found.topics)}
    return [words.get(topic, "unknown") for topic in topics]


def _add_signs(page: Canvas) -> None:
    page.gap()
    page.text(f"!!  weak: recall under {WEAK:.0%}", indent=2)
    page.text(f" ~  fair: from {WEAK:.0%} to {STRONG:.0%}", indent=2)
    page.text(f"ok  strong: {STRONG:.0%} or more", indent=2)
    page.text(f" ?  not enough answers to say: fewer than {ENOUGH}", indent=2)


def _add_table(page: Canvas, people: Sequence[Weakness], topics: Sequence[str]) -> None:
    page.gap()
    for at, topic in enumerate(topics, 1):
        page.lines.append(f"{at:>4} {topic}")
    page.gap()
    page.lines.append(" " * (_NAME + 1) + "".join(f"{at:>4}" for at in range(1, len(topics) + 1)))
    for one in people:
        cells = "".join(f"{SIGNS[word]:>4}" for word in words_of(one, topics))
        if len(one.trainee.name) > _NAME:
            page.lines.append(one.trainee.name[: page.look.width])
        page.lines.append(f"{'' if len(one.trainee.name) > _NAME else one.trainee.name:<{_NAME + 1}}{cells}")


def _in_words(found: Weakness, topics: Sequence[str]) -> str:
    parts = []
    for word in SIGNS:
        names = [topic for topic, each in zip(topics, words_of(found, topics), strict=True) if each == word]
        label = "not enough answers to say in" if word == "unknown" else f"{word} in"
        parts += [f"{label} {', '.join(names)}"] if names else []
    return "; ".join(parts) + "."


def _add_states(page: Canvas, states: Sequence[TopicState], exam: bool) -> None:
    if all(state.word == "unknown" for state in states):
        return
    page.lines.append(f"{'':<15}{'now':<18}{'on the exam day' if exam else '':<18}{'answers':>8} {'marks':>5}")
    for state in states:
        if state.word == "unknown":
            continue
        later = span(state.then) if exam else ""
        row = f"{state.name:<15}{span(state.now):<18}{later:<18}{state.answers:>8} {state.weight:>5.1f} {state.word}"
        page.lines.append(page.styled(row, "caution" if state.word == "weak" else ""))
        if not page.look.plain:
            page.lines.append(" " * 15 + band(state.then[1], state.then[0], state.then[2], 51, STRONG))
    if not page.look.plain:
        page.text(f"(from 0 to 100 %{', on the exam day' if exam else ''}; ¦ is {STRONG:.0%})", indent=15)
    page.gap()


def _add_unknown(page: Canvas, states: Sequence[TopicState]) -> None:
    if states:
        names = ", ".join(f"{state.name} ({state.answers})" for state in states)
        page.text(f"Not enough answers to say (fewer than {ENOUGH}): {names}.", hang=2)
        page.gap()


def _add_parts(page: Canvas, found: Weakness, wanted: str | None) -> None:
    parts = [part for part in found.parts if not wanted or (part.name + "/").startswith(wanted + "/")]
    weak = [part for part in parts if part.word in {"weak", "fair"} or (wanted and part.word != "unknown")]
    if not weak:
        return
    when = " (recall on the exam day)" if found.exam else " (recall now)"
    page.text(f"Sub-topics to study first{when}:" if not wanted else f"Sub-topics of {wanted}{when}:")
    for part in weak[: None if wanted else _MOST_PARTS]:
        page.lines.append(f"  {part.name:<36}{span(part.then):<18}{part.answers:>6} answers, {part.word}")
    page.gap()


def _add_errors(page: Canvas, found: Weakness, below: str) -> None:
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
