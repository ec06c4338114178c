"""Opening a store for a command."""

import gc

from quizzer.cli.opening import opened_store


def test_what_a_store_finds_open_is_never_searched_for_rubbish(tmp_path):
    try:
        with opened_store(str(tmp_path / "s.db")):
            assert gc.isenabled()
            assert gc.get_freeze_count() > 10_000
    finally:
        gc.unfreeze()
