"""The days to the exam, and the same for a calendar."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.pages.plan import ahead_page
from quizzer.web.forms import plan_of
from quizzer.web.menu import PLAN, MenuPlace
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.forecast.calendars import calendar_ahead
from quizzer.workflows.forecast.plan import Plan, RoadAhead, ahead_of

_EVERY_DAY = range(7)
CALENDAR = MenuPlace("/plan.ics", "Calendar file", "the days of study, for the calendar of a phone")


def show_plan(visit: Visit) -> Response:
    """The page of the plan, and where its calendar file is."""
    return page_answer(visit, ahead_page(_ahead(visit)), PLAN.path, [CALENDAR])


def send_calendar(visit: Visit) -> Response:
    """The calendar file."""
    text = calendar_ahead(_ahead(visit), visit.world.now())
    headers = {"Content-Disposition": 'attachment; filename="quizzer.ics"'}
    return Response(text, media_type="text/calendar; charset=utf-8", headers=headers)


def _ahead(visit: Visit) -> Plan | RoadAhead:
    wish = plan_of(visit.query, visit.world.now().date())
    return ahead_of(visit.world, visit.trainee, visit.blueprint(), wish.exam, wish.minutes, _EVERY_DAY)
