"""What is studied for, until when, and how long a day."""

from __future__ import annotations

from starlette.responses import RedirectResponse, Response

from quizzer.bankfiles.blueprint_files import USUAL
from quizzer.errors import NotFound, UsageError
from quizzer.schedule.pacing import MINUTES
from quizzer.web.forms import fields_of, wanted_of
from quizzer.web.menu import SETTINGS
from quizzer.web.render import answer, refused_words
from quizzer.web.values import SettingsPage
from quizzer.web.visit import Visit
from quizzer.workflows.study.wishes import assessments, set_wishes

_KEPT = f"{SETTINGS.path}?kept=1"


def show_settings(visit: Visit) -> Response:
    """The form, filled in as things stand."""
    return _form(visit, kept="kept" in visit.query)


def change_settings(visit: Visit) -> Response:
    """Keep what was sent; the form again with one sentence where it makes no sense."""
    typed = fields_of(visit.body)
    try:
        set_wishes(visit.world, visit.trainee, wanted_of(typed, [plan.id for plan in assessments(visit.world.shelf)]))
    except (UsageError, NotFound) as error:
        return _form(visit, typed=typed, wrong=refused_words(error))
    return RedirectResponse(_KEPT, 303)


def _form(visit: Visit, *, typed: dict[str, str] | None = None, wrong: str = "", kept: bool = False) -> Response:
    trainee, typed = visit.trainee, typed or {}
    values = SettingsPage(
        heading=SETTINGS.name,
        plans=[(plan.id, plan.title) for plan in assessments(visit.world.shelf)],
        plan=typed.get("plan", trainee.blueprint or USUAL),
        exam=typed.get("exam", trainee.exam.isoformat() if trainee.exam else ""),
        today=visit.world.now().date().isoformat(),
        minutes=typed.get("minutes", f"{trainee.minutes or MINUTES:g}"),
        wrong=wrong,
        kept=kept,
    )
    status = 422 if wrong else 200
    return answer(visit, SETTINGS.name, values, SETTINGS.path, modules=("js/files.js",), status=status)
