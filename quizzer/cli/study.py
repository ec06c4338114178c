"""`quizzer study`: the session at the terminal."""

from __future__ import annotations

from contextlib import suppress

from quizzer.blocks.words import capital
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.opening import open_world
from quizzer.cli.study_choice import StudyOptions, choice, refuse_senseless
from quizzer.errors import NotFound
from quizzer.pages.question import about_page, asked_again, question_page
from quizzer.pages.session import summary_page, welcome_page
from quizzer.question.question import AskAgain
from quizzer.question.replies import Reply, by_letter, read_reply, wanted
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import add_blocks
from quizzer.schedule import Confidence
from quizzer.store import Trainee
from quizzer.workflows.study.asked import Asked
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Session
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World

_SURENESS = {"1": Confidence.CERTAIN, "2": Confidence.FAIRLY_SURE, "3": Confidence.GUESSING}
_HOW_SURE = "How sure? 1 certain, 2 fairly sure, 3 guessing: "


def study(wishes: StudyOptions) -> None:
    """Run a session until it is over or stopped, and tell what was done."""
    refuse_senseless(wishes)  # before anything is opened
    keys = keyboard(wishes.plain)
    with open_world(wishes.bank, wishes.store, wishes.now, wishes.seed) as world:
        try:
            trainee = _trainee(keys, world, wishes)
        except (Stopped, KeyboardInterrupt):  # at the questions of the first start: nothing was done yet
            keys.screen.write("\n")
            return
        chosen = choice(world, trainee, wishes)
        session, today = start(world, trainee, chosen.topics, chosen.limits, chosen.new, chosen.only, keep=chosen.keep)
        keys.clear()
        try:
            keys.page(welcome_page(today, session, world.now().date(), chosen.topics if chosen.weak else ()))
            _ask_all(keys, session)
        except (Stopped, KeyboardInterrupt):
            keys.screen.write("\n")
        _tell_the_end(keys, session)


def _trainee(keys: Keyboard, world: World, wishes: StudyOptions) -> Trainee:
    """Who studies, with the exam day that was named, or with what the first start asks for."""
    trainee = who(world, wishes.trainee)
    if wishes.exam is not None:
        from quizzer.workflows.study.wishes import exam_day  # few starts name the day

        trainee = trainee._replace(exam=exam_day(wishes.exam, world.now().date()))
        world.store.set_exam(trainee.id, trainee.exam)
    if not _is_first(keys, world, trainee):
        return trainee
    from quizzer.cli.first_start import first_start  # here, not above: there is one such start

    return first_start(keys, world, trainee)


def _is_first(keys: Keyboard, world: World, trainee: Trainee) -> bool:
    """Whether somebody sits at a terminal who has neither answered nor set anything."""
    told = trainee.blueprint or trainee.exam or trainee.minutes
    return keys.source.isatty() and keys.screen.isatty() and not told and not world.store.tallies(trainee.id)


def _ask_all(keys: Keyboard, session: Session) -> None:
    titles = session.world.shelf.topics()
    while asked := session.next_question():
        if session.done:
            keys.clear()
        title = titles.get(asked.question.topic, asked.question.topic)
        keys.page(question_page(asked.question, title, _progress(session, asked), session.told, answering=True))
        session.told |= {each.id for each in asked.question.head.cautions if each.before}
        _ask(keys, session, asked)


def _progress(session: Session, asked: Asked) -> str:
    if asked.lines:
        return f"line {len(asked.question.working)} of {asked.lines}"
    if asked.drill:
        return asked_again(asked.help)
    limits = session.limits
    if limits.questions is not None:
        return f"question {session.asked} of {limits.questions}"
    return f"question {session.asked}, {session.minutes():.0f} of {limits.minutes:g} min"


def _ask(keys: Keyboard, session: Session, asked: Asked) -> None:
    replied = _replied(keys, session, asked)
    if replied is None:
        return
    from quizzer.pages.feedback import feedback  # here, not above: the first question does not wait for it

    reply, confidence = replied
    result = session.answer(asked, reply, confidence)
    today = session.world.now().date()
    canvas = Canvas(keys.look)
    add_blocks(canvas, [*feedback(asked.question, reply, confidence, result, today, session.told)])
    session.told |= {each.id for each in asked.question.head.cautions}
    keys.show_in_parts(canvas)
    while key := keys.line("\nEnter to go on (w where from, d dispute, q stop): ").lower():
        if key == "q":
            raise Stopped
        _after(keys, session, asked, key)


def _after(keys: Keyboard, session: Session, asked: Asked, key: str) -> None:
    """What a key does once the answer is marked."""
    match key:
        case "d" | "dispute":
            _dispute(keys, session, asked)
        case "w":
            keys.page(about_page(asked.question))
        case _:
            _look_up(keys, session, key)


def _look_up(keys: Keyboard, session: Session, typed: str) -> None:
    """The keys, or a word of the glossary where one stands behind ? or g."""
    word = typed.removeprefix("?" if typed.startswith("?") else "g ").strip()
    if not word or typed == word:
        _help(keys)
        return
    from quizzer.workflows.bank.finding import term_of  # few sessions look a word up

    try:
        term, plain = term_of(session.world.shelf, word)
        keys.say(f"{term}: {plain}.")
    except NotFound as unknown:
        keys.say(f"{capital(unknown.message)}: {unknown.mend}")


def _replied(keys: Keyboard, session: Session, asked: Asked) -> tuple[Reply, Confidence | None] | None:
    """A reply and how sure they are of it, or None when the question is skipped; with help nobody asks how sure."""
    while reply := _reply(keys, session, asked):
        if asked.question.exercise:
            return reply, None
        confidence = _SURENESS[str(reply.sureness)] if reply.sureness else _confidence(keys)
        if confidence is not None:
            return reply, confidence
    return None


def _reply(keys: Keyboard, session: Session, asked: Asked) -> Reply | None:
    """A reply that can be marked, or None when the question is skipped."""
    while True:
        typed = keys.line(f"\n{wanted(asked.question)} (? help): ")
        match typed.lower():
            case "q":
                raise Stopped
            case "s":
                keys.say("Skipped for today.")
                return None
            case look if look.startswith(("?", "g ")):
                _look_up(keys, session, look)
            case "w":
                keys.page(about_page(asked.question, given=False))
            case "dispute":
                _dispute(keys, session, asked)
            case "d" if not by_letter(asked.question.kind):  # among options the letter chooses one of them
                _dispute(keys, session, asked)
            case _:
                reply = read_reply(asked.question, typed)
                if not isinstance(reply, AskAgain):
                    if reply.worked:
                        keys.say(f"  {reply.worked}")
                    return reply
                keys.say(reply.why)


def _confidence(keys: Keyboard) -> Confidence | None:
    """How sure they are; None for another answer first."""
    while (typed := keys.line(_HOW_SURE)) not in _SURENESS:
        match typed.lower():
            case "q":
                raise Stopped
            case "<":
                return None
            case "?":
                _help(keys)
                keys.say("")
            case _:
                keys.say("Type 1, 2 or 3, or < to change your answer.")
    return _SURENESS[typed]


def _dispute(keys: Keyboard, session: Session, asked: Asked) -> None:
    reason = keys.line("What is wrong with it? (one line; empty to leave it): ")
    if reason:
        session.dispute(asked, reason[:2000])
        keys.say(f"Kept for your tutor, with the question's name {asked.question.name}.")


def _help(keys: Keyboard) -> None:
    from quizzer.cli.key_help import STUDY, add_help

    canvas = Canvas(keys.look)
    add_help(canvas, STUDY)
    keys.show(canvas)


def _tell_the_end(keys: Keyboard, session: Session) -> None:
    from quizzer.workflows.study.summary import summary  # here, not above: the first question does not wait for it

    keys.say("")
    with suppress(Stopped):  # a long page waits on a low terminal, and may be left there
        keys.page(summary_page(summary(session), session.world.now().date(), session.notes))
