"""Packs and events of every version that was ever given out: old answers are taken by the program of today.

The samples in `formats/` were recorded when their version was the newest, and are never changed.
"""

import json
from pathlib import Path

import pytest

from quizzer.web import packs
from quizzer.workflows.study.events import READERS, VERSION, read_event

FORMATS = Path(__file__).parent / "formats"


def sample(kind: str, version: int):
    return json.loads((FORMATS / f"{kind}-{version}.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("version", READERS)
def test_events_of_a_version_are_read_for_good(version):
    answer, *drills, dispute = map(read_event, sample("events", version))
    assert answer.right
    assert not answer.drill
    assert [(one.drill, one.exercise, one.confidence) for one in drills] == [(True, "missing-line:2", None)] * (
        version > 1
    )
    assert (answer.confidence, answer.reason, dispute.reason) == ("certain", "", "the key is another one")
    assert answer.device == dispute.device == "a-phone-of-theirs"


def test_every_version_has_its_samples():
    assert {path.stem for path in FORMATS.glob("events-*")} == {f"events-{each}" for each in range(1, VERSION + 1)}
    assert {path.stem for path in FORMATS.glob("pack-*")} == {f"pack-{each}" for each in range(1, packs.VERSION + 1)}


def test_a_pack_is_laid_out_as_its_version_says(tmp_path):
    """A field that comes, goes or means something else is a new version."""
    from tests.web.site import served

    now = served(tmp_path / "bank").browser.get("/study/pack").json()
    then = sample("pack", packs.VERSION)
    assert set(now) == set(then)
    for listed in ("questions", "repeats"):
        fields = [{name for one in pack[listed] for name in one} for pack in (now, then)]
        assert fields[0] == fields[1]
    outcomes = [[each for one in pack["questions"] for each in one["outcomes"].values()] for pack in (now, then)]
    assert {part for each in outcomes[0] for part in each} == {part for each in outcomes[1] for part in each}
