"""Which entries a paper of an edition takes: those that follow it, and those whose fact holds in it."""

import pytest

from quizzer.bank.signoffs import Ledger, SignOff
from quizzer.bankfiles.shelf import Shelf
from quizzer.editions import NOT_TIED
from quizzer.lint.starts import start
from quizzer.workflows.papers.usable import usable
from tests.sitting import SHARED

OLDER, LATEST = "BS 7671:2018+A2:2022+A3:2024", "BS 7671:2018+A4:2026"
SOURCE = 'evidence = "published"'
ENTRIES = {
    "not-tied": (NOT_TIED, ""),
    "older-unknown": (OLDER, ""),
    "older-unaffected": (OLDER, "unaffected"),
    "older-changed": (OLDER, "changed"),
    "latest": (LATEST, ""),
}


FAMILY = "safety/case/what-to-measure-with"


@pytest.fixture
def shelf(tmp_path):
    """A card for each way to follow an edition, and a family of which one case has a word of its own."""
    (tmp_path / "safety").mkdir()
    for name in ("topics.toml", "cautions.toml", "slips.toml"):
        (tmp_path / name).write_bytes((SHARED / name).read_bytes())
    for id, (edition, state) in ENTRIES.items():
        text = start("card").replace(NOT_TIED, edition).replace("series-current", id)
        own = f'\ncurrency = "{state}"\ncurrency_source = "two summaries"' if state else ""
        (tmp_path / "safety" / f"{id}.toml").write_text(text.replace(SOURCE, SOURCE + own), encoding="utf-8")
    family = start("family").replace('key = "speed-gauge"', f'key = "speed-gauge"\nedition = "{OLDER}"', 1)
    (tmp_path / "safety" / "case.toml").write_text(family, encoding="utf-8")
    return Shelf(tmp_path)


def cases(shelf, edition, told=None):
    """What may stand in a paper of the edition: the files, with the case where the entry is a family."""
    pool = usable(shelf, told or Ledger(), (), edition=edition).pool
    return [(one.id.split("/")[1], one.case) for one in pool]


def taken(shelf, edition, told=None):
    """The files of which something may stand in a paper of the edition."""
    return {file for file, _ in cases(shelf, edition, told)}


def test_the_latest_takes_what_it_leaves_unaffected_and_neither_unknown_nor_changed(shelf):
    assert taken(shelf, "A4") == taken(shelf, LATEST) == {"not-tied", "older-unaffected", "latest", "case"}


def test_a_family_is_taken_by_its_cases_that_follow_the_edition(shelf):
    (tied,) = [at for at, stem in enumerate(shelf.find(FAMILY).stems, 1) if stem.head.edition == OLDER]
    every = {("case", case) for case in range(1, 7)}
    assert {one for one in cases(shelf, "A4") if one[0] == "case"} == every - {("case", tied)}
    assert {one for one in cases(shelf, "A3") if one[0] == "case"} == every


def test_an_older_edition_takes_what_follows_it_whatever_came_later(shelf):
    assert taken(shelf, "A3") == {"not-tied", "older-unknown", "older-unaffected", "older-changed", "case"}
    assert taken(shelf, "A1") == {"not-tied", "case"}


def test_without_an_edition_all_are_taken(shelf):
    assert taken(shelf, "") == {*ENTRIES, "case"}


def test_a_sign_off_against_the_edition_is_enough(shelf):
    entry = shelf.find(FAMILY)
    signed = SignOff(entry.head.id, "Farah", LATEST, "2026-11-25", entry.head.digest)
    assert {case for file, case in cases(shelf, "A4", Ledger((signed,))) if file == "case"} == set(range(1, 7))
