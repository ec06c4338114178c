"""What a session is made of, as the options of `study` say it: how long, and which entries."""

from __future__ import annotations

from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.cli.opening import Banks
from quizzer.cli.option_values import limits_of, new_of
from quizzer.errors import UsageError
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.study.session import Limits
from quizzer.workflows.world import World


class StudyOptions(NamedTuple):
    """The options of the command."""

    trainee: str | None
    topics: tuple[str, ...]
    minutes: float | None
    questions: int | None
    new: int | None
    weak: bool
    mistakes: bool
    like: str | None
    keep: bool
    exam: str | None
    bank: Banks
    store: str | None
    plain: bool
    now: str | None
    seed: int | None


class SessionChoice(NamedTuple):
    """A session: its limits, its topics, the entries it is kept to (None: all), new ones at most, what it is for."""

    limits: Limits
    topics: tuple[str, ...] = ()
    only: frozenset[str] | None = None
    new: int | None = None
    weak: bool = False
    keep: bool = False


def refuse_senseless(wishes: StudyOptions) -> None:
    """Raises UsageError for limits out of range, and where two options each say what is to be asked."""
    limits_of(wishes.minutes, wishes.questions)
    new_of(wishes.new)
    if len(named := _picks(wishes)) > 1:
        raise UsageError(f"{named[0]} picks the questions itself", mend=f"leave out {named[0]}, or {named[1]}")


def choice(world: World, trainee: Trainee, wishes: StudyOptions) -> SessionChoice:
    """What is asked: as the options say; without any, where no exam lies ahead, what keeps the work's topics alive."""
    limits = limits_of(wishes.minutes, wishes.questions, trainee.minutes)
    if wishes.weak:
        return SessionChoice(limits, _weak_topics(world, trainee), new=wishes.new, weak=True)
    if wishes.keep or _says_nothing(wishes):
        from quizzer.workflows.study.keeping import ROAD_MINUTES, keeps_alive, kept_topics

        topics = kept_topics(world.shelf) if wishes.keep or keeps_alive(world, trainee) else ()
        if topics:
            limits = limits_of(wishes.minutes, wishes.questions, ROAD_MINUTES)
            return SessionChoice(limits, topics, new=wishes.new, keep=True)
    return SessionChoice(limits, wishes.topics, _only(world, trainee, wishes), wishes.new)


def _says_nothing(wishes: StudyOptions) -> bool:
    """Whether no option says how long a session is, or what is asked in it."""
    return not _picks(wishes) and wishes.minutes is None and wishes.questions is None and wishes.new is None


def _picks(wishes: StudyOptions) -> list[str]:
    """The options given that each say what is to be asked."""
    picks = {
        "--weak": wishes.weak,
        "--mistakes": wishes.mistakes,
        "--like": wishes.like,
        "--keep": wishes.keep,
        "--topic": wishes.topics,
    }
    return [option for option, given in picks.items() if given]


def _only(world: World, trainee: Trainee, wishes: StudyOptions) -> frozenset[str] | None:
    """The entries to ask from, where an option picks them; None for all."""
    if not wishes.mistakes and wishes.like is None:
        return None
    from quizzer.workflows.study.mistaken import like, to_mend  # only these wishes need them

    return to_mend(world, trainee) if wishes.like is None else like(world.shelf, wishes.like)


def _weak_topics(world: World, trainee: Trainee) -> tuple[str, ...]:
    from quizzer.workflows.forecast.weakness import weak_parts  # only this wish opens the statistics

    return tuple(weak_parts(world, trainee, blueprint(world.shelf, trainee.blueprint or USUAL)))
