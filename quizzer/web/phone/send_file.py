"""Files of the page, which browsers may keep for good."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.web.assets import Asset, asset
from quizzer.web.render import sentence
from quizzer.web.visit import WebCall

_FOR_GOOD = "public, max-age=31536000, immutable"
_NOT_KEPT = "no-cache"


def send_file(call: WebCall) -> Response:
    """The file as of the version in its path. None is sent under the version of another."""
    found = call.site.assets.find(call.path["version"], call.path["name"])
    if found is None:
        return sentence(call.site, 404, "There is no such file", "load the page again")
    return _sent(call, found, _FOR_GOOD)


def send_worker(call: WebCall) -> Response:
    """The service worker, at the root so that all pages are its own: its text names the files of this version."""
    return _sent(call, asset("sw.js", call.site.assets.worker().encode()), _NOT_KEPT)


def send_manifest(call: WebCall) -> Response:
    """What a browser needs to put the page on a home screen."""
    return _sent(call, asset("m.webmanifest", call.site.assets.manifest().encode()), _NOT_KEPT)


def _sent(call: WebCall, found: Asset, kept: str) -> Response:
    packed = call.gzip and bool(found.packed)
    headers = {"Cache-Control": kept, "Vary": "Accept-Encoding"} | ({"Content-Encoding": "gzip"} if packed else {})
    return Response(found.packed if packed else found.plain, media_type=found.kind, headers=headers)
