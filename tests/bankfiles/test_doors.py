"""Files of people: read no further than their limit, written whole or not at all, special ones left alone."""

import os
import stat
from pathlib import Path

import pytest

from quizzer.bankfiles.doors import TooLarge, read_at_most, save_whole
from quizzer.bankfiles.sheets import LARGEST
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused, StoreError
from quizzer.store import open_store
from quizzer.workflows.papers.writing import write_paper
from quizzer.workflows.people.table_rows import columns, read_rows
from tests.cli.running import ran
from tests.exam import bank_of_cards, paper_of
from tests.sitting import small_bank


def names_in(folder):
    return sorted(path.name for path in folder.iterdir())


posix = pytest.mark.skipif(os.name != "posix", reason="only POSIX has such files")


@posix
def test_a_device_without_end_is_read_no_further_than_the_limit():
    with pytest.raises(TooLarge):
        read_at_most(Path("/dev/zero"), 1000)
    with pytest.raises(Refused, match=f"more than {LARGEST:,} bytes"):
        read_rows(Path("/dev/zero"), columns("name"))


def test_a_file_of_just_the_limit_is_read(tmp_path):
    path = tmp_path / "x"
    path.write_bytes(b"12345")
    assert read_at_most(path, 5) == b"12345"
    with pytest.raises(TooLarge):
        read_at_most(path, 4)


def test_a_file_is_replaced_whole_and_keeps_its_permissions(tmp_path):
    path = tmp_path / "x"
    path.write_bytes(b"old")
    path.chmod(0o640)
    save_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert os.name != "posix" or stat.S_IMODE(path.stat().st_mode) == 0o640
    assert names_in(tmp_path) == ["x"]


def test_a_name_that_is_taken_is_left_alone_unless_it_was_named(tmp_path):
    path = tmp_path / "x"
    path.write_bytes(b"old")
    with pytest.raises(Refused, match="there already"):
        save_whole(path, b"new", replacing=False)
    assert path.read_bytes() == b"old"


@posix
def test_a_link_keeps_leading_to_its_file(tmp_path):
    (tmp_path / "file").write_bytes(b"old")
    (tmp_path / "link").symlink_to("file")
    save_whole(tmp_path / "link", b"new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "file").read_bytes() == b"new"


@posix
def test_a_pipe_a_device_and_a_folder_are_never_replaced(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "null").symlink_to("/dev/null")
    for name, why in (("pipe", "a device or a pipe"), ("null", "a device or a pipe"), (".", "is a folder")):
        with pytest.raises(Refused, match=why):
            save_whole(tmp_path / name, b"new")
    assert stat.S_ISFIFO((tmp_path / "pipe").stat().st_mode)
    assert names_in(tmp_path) == ["null", "pipe"]


@posix
def test_what_cannot_be_written_leaves_nothing_behind(tmp_path):
    with pytest.raises(Refused, match="No such file"):
        save_whole(tmp_path / "no" / "x", b"new")
    assert names_in(tmp_path) == []


@posix
@pytest.mark.parametrize(
    "args",
    [
        ("plan", "--exam", "2027-01-01", "--now", "2026-11-25T07:00+00:00", "--ics"),
        ("plan", "--exam", "2027-01-01", "--now", "2026-11-25T07:00+00:00", "--out"),
        ("weak", "--now", "2026-11-25T07:00+00:00", "--out"),
        ("trainee", "export", "Ada", "--out"),
        ("store", "backup"),
    ],
)
def test_no_command_replaces_a_pipe(args, tmp_path, monkeypatch):
    bank = small_bank(tmp_path / "bank")
    store = ("--store", str(tmp_path / "s.db"))
    ran(monkeypatch, "trainee", "add", "Ada", *store)
    pipe = tmp_path / "pipe.txt"
    os.mkfifo(pipe)
    of_bank = ("--bank", str(bank)) if args[0] in {"plan", "weak"} else ()
    found = ran(monkeypatch, *args, str(pipe), *of_bank, *store)
    assert found.code == 1, found.err + found.out
    assert stat.S_ISFIFO(pipe.stat().st_mode)


@posix
def test_a_store_is_a_file(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    for place in ("/dev/null", "/dev/zero", str(tmp_path / "pipe")):
        with pytest.raises(StoreError, match="a device or a pipe, not a store"):
            open_store(place)
    assert names_in(tmp_path) == ["pipe"]


def test_no_file_of_a_paper_leaves_its_folder(tmp_path):
    bank = bank_of_cards(tmp_path / "bank")
    paper = paper_of(Shelf(bank))
    paper = paper._replace(forms=(paper.forms[0]._replace(serial="../../X"),))
    with pytest.raises(Refused, match="would leave the folder"):
        write_paper(Shelf(bank), paper, tmp_path / "deep" / "out")
    assert names_in(tmp_path) == ["bank", "deep"]
    assert names_in(tmp_path / "deep") == []


@posix
def test_a_pipe_in_a_bank_is_told_and_not_waited_for(tmp_path):
    bank = small_bank(tmp_path / "bank")
    folder = next(path for path in bank.iterdir() if path.is_dir() and path.name not in {"tables", "blueprints"})
    os.mkfifo(folder / "pipe.toml")
    shelf = Shelf(bank)
    assert [issue.code for issue in shelf.load(folder / "pipe.toml").issues] == ["Q103"]
    assert shelf.listed()
