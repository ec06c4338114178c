"""`bank check --cues` as it is run: the page, the object of the same figures, and what it refuses."""

import json

from quizzer.bankfiles.shelf import shipped
from tests.cli.running import ran

PART = str(shipped() / "principles")


def test_page_and_object_tell_the_same_figures(monkeypatch):
    page, found = (ran(monkeypatch, "bank", "check", "--cues", PART, *more) for more in ((), ("--json",)))
    told = json.loads(found.out)
    assert page.code == found.code
    assert told["entries"] > 90
    assert told["questions"] > told["entries"]
    assert f"Each of {told['entries']} entries counts once" in " ".join(page.out.split())
    best, model = told["best_rule"], told["model"]
    assert f"Best single rule: {best['share'] * 100:.1f} % of keys" in page.out
    assert f"Model: {model['share'] * 100:.1f} % of keys" in page.out
    assert best["share"] == max(one["share"] for one in told["rules"]["all"] if one["name"] != model["name"])
    assert all(one["entry"].startswith("principles/") for one in told["flagged"])
    met = best["share"] <= 0.30 and model["share"] <= 0.33 and not told["flagged"]
    assert found.code == (0 if met else 1)


def test_too_few_entries_are_refused(monkeypatch):
    found = ran(monkeypatch, "bank", "check", "--cues", str(shipped() / "testing" / "ring.toml"))
    assert found.code == 1
    assert "too few to tell a cue from chance" in found.err
    assert len(found.err.strip().split("\n")) == 1


def test_cues_and_counting_are_two_looks(monkeypatch):
    found = ran(monkeypatch, "bank", "check", "--cues", "--count", "5")
    assert found.code == 2
    assert "ask for one at a time" in found.err


def test_a_path_that_is_not_there_is_told(monkeypatch):
    found = ran(monkeypatch, "bank", "check", "--cues", "/no/such.toml")
    assert (found.code, "/no/such.toml" in found.err) == (1, True)
