"""The shell of a session: the page's own modules fetch the questions and mark the replies."""

from __future__ import annotations

from urllib.parse import urlencode

from starlette.responses import Response

from quizzer.web.menu import STUDY
from quizzer.web.render import answer
from quizzer.web.values import StudyPage
from quizzer.web.visit import Visit

MODULE = "js/phone.js"
_WISHES = ("weak", "mistakes", "like", "topic", "minutes", "keep")  # as the options of `study`


def show_study(visit: Visit) -> Response:
    """The shell, with where its questions come from: wishes of the address are handed on."""
    wishes = {name: value[:200] for name, value in visit.query.items() if name in _WISHES}
    query = f"?{urlencode(wishes)}" if wishes else ""
    values = StudyPage(visit.trainee.id, f"/study/pack{query}", visit.site.assets.version)
    return answer(visit, STUDY.name, values, STUDY.path, modules=(MODULE,))
