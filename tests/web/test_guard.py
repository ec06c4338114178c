"""What is refused before any handler sees it."""

import pytest

from quizzer.web.guard import MOST_BYTES, refusal
from quizzer.web.headers import ALWAYS, POLICY
from quizzer.web.routes import OPEN, ROUTES
from tests.web.site import ADDRESS, HERE, PORT, served

HOST = {"host": f"127.0.0.1:{PORT}"}


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    return served(tmp_path_factory.mktemp("guard"))


@pytest.mark.parametrize(
    ("method", "headers", "status"),
    [
        ("GET", {}, None),
        ("HEAD", {"sec-fetch-site": "cross-site"}, None),
        ("GET", {"host": "evil.example:8417"}, 421),
        ("GET", {"host": "localhost:8417"}, 421),
        ("GET", {"host": "127.0.0.1"}, 421),
        ("GET", {"host": ""}, 421),
        ("POST", {"sec-fetch-site": "same-origin"}, None),
        ("POST", {"sec-fetch-site": "same-origin", "origin": "http://evil.example"}, None),
        ("POST", {"sec-fetch-site": "same-site", "origin": ADDRESS}, 403),
        ("POST", {"sec-fetch-site": "cross-site", "origin": ADDRESS}, 403),
        ("POST", {"sec-fetch-site": "none"}, 403),
        ("POST", {"origin": ADDRESS}, None),
        ("POST", {"origin": "http://127.0.0.1:8418"}, 403),
        ("POST", {"origin": "null"}, 403),
        ("POST", {}, 403),
        ("PUT", {"sec-fetch-site": "same-origin"}, 405),
    ],
)
def test_only_our_own_pages_write_and_only_our_address_is_answered(method, headers, status):
    found = refusal(method, HOST | headers, ADDRESS)
    assert (found and found.status) == status


def test_a_refused_request_reaches_no_handler_and_has_the_headers_too(site):
    answer = site.browser.get("/progress", headers={"host": "evil.example"})
    assert answer.status_code == 421
    assert ADDRESS in answer.text
    assert answer.headers["content-security-policy"] == POLICY


@pytest.mark.parametrize("path", ["/study", "/nothing", "/hello", "/sw.js", "/enter"])
def test_every_answer_has_the_headers(site, path):
    headers = site.browser.get(path).headers
    assert {name: headers[name] for name in ALWAYS} == ALWAYS
    assert "server" not in headers


def test_the_policy_allows_nothing_inline_and_nothing_from_elsewhere():
    rules = dict(rule.split(" ", 1) for rule in POLICY.split("; "))
    assert rules["default-src"] == rules["frame-ancestors"] == rules["base-uri"] == "'none'"
    assert {value for name, value in rules.items() if name.endswith("-src") and name != "default-src"} == {"'self'"}
    assert "unsafe" not in POLICY


def test_nobody_who_is_not_in_sees_a_page(site):
    """Every route of the table that is not open, by its method."""
    for method, path, _ in ROUTES:
        answer = site.stranger.request(method, path.replace("{", "").replace("}", ""), headers=HERE)
        assert answer.status_code == 401, path
        assert "quizzer web" in answer.text
    assert {path for _, path, _ in OPEN} == {
        "/enter",
        "/hello",
        "/sw.js",
        "/manifest.webmanifest",
        "/static/{version}/{name:path}",
    }


def test_a_body_without_end_is_refused(site):
    answer = site.browser.post("/enter", content=b"x", headers=HERE)
    assert answer.status_code == 405
    for path in ("/study", "/hello"):
        answer = site.browser.request("GET", path, content=b"x" * (MOST_BYTES + 1))
        assert answer.status_code == 413
