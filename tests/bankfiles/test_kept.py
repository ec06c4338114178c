"""What was read of a bank is kept, and never longer than the file stays as it was."""

import os

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound
from tests.sitting import small_bank


@pytest.fixture
def shelf(tmp_path):
    return Shelf(small_bank(tmp_path / "bank"))


def entries(shelf):
    return [entry for _, loaded in shelf.everything() for entry in loaded.entries]


def test_a_file_is_read_once(shelf):
    first = entries(shelf)
    assert all(one is other for one, other in zip(first, entries(shelf), strict=True))


@pytest.mark.parametrize("later", [0, 1_000_000], ids=["other size", "as long as before"])
def test_a_file_that_was_written_anew_is_read_anew(shelf, later):
    path = shelf.root / "circuits" / "first.toml"
    before, listed, old = entries(shelf), shelf.listed(), path.read_text(encoding="utf-8")
    (name,) = (one.id.rpartition("/")[2] for one in listed if one.topic == "circuits")
    new = old.replace(f'id = "{name}"', f'id = "{name[:-1]}{"xx" if later == 0 else "x"}"')
    times = path.stat()
    path.write_text(new, encoding="utf-8")
    os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns + later))
    changed = {entry.head.id for entry in entries(shelf)} - {entry.head.id for entry in before}
    assert changed == {one.id for one in shelf.listed()} - {one.id for one in listed} != set()
    assert [shelf.find(id).head.id for id in changed] == [*changed]


def test_a_file_that_is_gone_is_in_nothing(shelf):
    many = len(entries(shelf))
    (gone,) = (one.id for one in shelf.listed() if one.topic == "circuits")
    (shelf.root / "circuits" / "first.toml").unlink()
    assert len(entries(shelf)) == len(shelf.listed()) == many - 1
    with pytest.raises(NotFound):
        shelf.find(gone)
