"""The page of every code. Opening it opens no library of units, so that `explain` starts at once."""

from __future__ import annotations

from difflib import get_close_matches

from quizzer.errors import NotFound
from quizzer.lint import (
    alike,
    amounts,
    articles,
    belief_pages,
    counts,
    cue_rules,
    cue_share,
    cues,
    currency,
    diagnoses,
    dimensions,
    draws,
    ease,
    entry_pages,
    family_cases,
    family_pages,
    family_pools,
    file_pages,
    forewarned,
    half_right,
    lengths,
    overrides,
    pictures,
    places,
    proofs,
    replacing,
    shared,
    slips,
    stems,
    stock,
    told,
    usage,
)
from quizzer.lint.page import CodeDoc

_FAMILIES = (
    file_pages,
    entry_pages,
    overrides,
    usage,
    told,
    dimensions,
    proofs,
    slips,
    places,
    counts,
    stems,
    articles,
    stock,
    lengths,
    cues,
    amounts,
    forewarned,
    half_right,
    ease,
    family_pages,
    family_pools,
    family_cases,
    pictures,
    diagnoses,
    alike,
    cue_rules,
    replacing,
    cue_share,
    currency,
    draws,
    belief_pages,
    shared,
)
CATALOGUE: dict[str, CodeDoc] = {
    page.code: page for page in sorted(page for family in _FAMILIES for page in family.PAGES)
}


def page_of(code: str) -> CodeDoc:
    """The page of a code, written in any case. Raises NotFound, naming one that is near."""
    wanted = code.strip().upper()
    if wanted not in CATALOGUE:
        near = get_close_matches(wanted, CATALOGUE, n=1)
        hint = f"did you mean {near[0]}? " if near else ""
        raise NotFound(f"no code {code!r}", mend=f"{hint}`quizzer explain` lists the codes")
    return CATALOGUE[wanted]


def is_warning(code: str) -> bool | None:
    """Whether what a code stands for may be accepted with a reason; None when there is no such code."""
    return CATALOGUE[code].warning if code in CATALOGUE else None
