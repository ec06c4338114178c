"""The shell of a session: the page's own modules fetch the questions and mark the replies."""

from __future__ import annotations

from urllib.parse import urlencode

from starlette.responses import Response

from quizzer.blocks.notices import NOTICE
from quizzer.schedule import Confidence
from quizzer.web.menu import STUDY
from quizzer.web.phone.send_pack import pack_of
from quizzer.web.render import answer
from quizzer.web.values import StudyPage
from quizzer.web.visit import Visit
from quizzer.workflows.study.keeping import keeps_alive, kept_topics

MODULE = "js/phone.js"
_WISHES = ("weak", "mistakes", "like", "topic", "minutes", "keep")  # as the options of `study`


def show_study(visit: Visit) -> Response:
    """The shell, with where its questions come from: the wishes of the address, or what `study` does without any.

    The first question comes with it, so that a first visit waits for no second answer. A worker in control asks for the
    `shell` alone: it keeps that for good, and there are questions on the phone already.
    """
    wishes = {name: value[:200] for name, value in visit.query.items() if name in _WISHES}
    if not wishes and keeps_alive(visit.world, visit.trainee) and kept_topics(visit.world.shelf):
        wishes = {"keep": "1"}
    query = f"?{urlencode(wishes)}" if wishes else ""
    first = "" if "shell" in visit.query else "".join(pack_of(visit, wishes, begun=True))
    sure = [str(each) for each in Confidence]
    version = visit.site.assets.version
    values = StudyPage(visit.trainee.id, f"/study/pack{query}", version, NOTICE, first, sure)
    return answer(visit, STUDY.name, values, STUDY.path, modules=(MODULE,))
