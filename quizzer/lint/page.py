"""The documentation page of a code."""

from __future__ import annotations

from typing import NamedTuple


class CodeDoc(NamedTuple):
    """What a code means. `bad` in place of `good` in the starting file `start` gives exactly this finding.

    The line that is named is the one that holds `at`, or else the first of `bad`; `place` is its file, where that is
    another than the starting file. `mend` says what to do. A warning may be accepted in the entry's `overrides` with a
    reason; an error has to be mended.
    """

    code: str
    title: str
    why: str
    bad: str
    good: str
    mend: str
    warning: bool = False
    start: str = "template"
    at: str = ""
    place: str = ""

    @property
    def acceptable(self) -> bool:
        """Whether an entry may accept it: not what is found in a shared list, nor in the overrides themselves."""
        return self.warning and not self.place and "overrides" not in self.bad
