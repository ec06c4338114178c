"""What somebody wins who sees the options and no stem, over the bank and entry by entry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from quizzer.bank.entries import Card, Diagnose, Entry, Template
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.lint.cue_features import CUES, Blind, blind
from quizzer.lint.cue_model import MODEL, model_shares
from quizzer.lint.cue_rules import BlindEntry, Won, blind_entry, flagged, picking, share, won
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.question.replies import by_letter
from quizzer.workflows.bank.checking import Progress, files_of

DRAWS, SEEDS = 6, 20  # questions looked at of each entry, out of so many seeds: some ask for a typed number
BEST_RULE, MODEL_GOAL = 0.30, 0.33  # of four options, over the bank
FEWEST = 40  # entries; with fewer a model learns nothing
_KINDS = {Template: "templates", Card: "cards", Diagnose: "circuits"}


@dataclass(frozen=True, slots=True)
class Told:
    """An entry whose key many rules pick, and which."""

    id: str
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CueFigures:
    """What each rule and the model win over all entries, the same for each kind of entry, and the entries flagged."""

    questions: int
    all: tuple[Won, ...]
    by_kind: dict[str, tuple[Won, ...]]
    told: tuple[Told, ...]

    @property
    def best_rule(self) -> Won:
        """The single rule that wins most."""
        return next(one for one in self.all if one.name != MODEL)

    @property
    def model(self) -> Won:
        """What the model wins."""
        return next(one for one in self.all if one.name == MODEL)

    @property
    def met(self) -> bool:
        """Whether both goals are met and no entry is flagged."""
        return self.best_rule.share <= BEST_RULE and self.model.share <= MODEL_GOAL and not self.told


def cue_figures(shelf: Shelf, paths: Iterable[Path], progress: Progress) -> CueFigures:
    """The figures over the files and folders named, or the whole bank.

    Raises NotFound for a path that is not there, Refused where the entries are too few for figures.
    """
    files = files_of(shelf, [path.resolve() for path in paths])
    read: list[BlindEntry] = []
    for done, path in enumerate(files):
        progress(done, len(files))
        read += [found for entry in shelf.load(path).entries if (found := read_blind(entry))]
    progress(len(files), len(files))
    if len(read) < FEWEST:
        what = f"{len(read)} entries with options are too few to tell a cue from chance"
        raise Refused(what, mend=f"name files with {FEWEST} or more, or none for the whole bank")
    return figures_of(read)


def figures_of(entries: Sequence[BlindEntry]) -> CueFigures:
    """The figures over entries as they are read without their stems."""
    shares = {name: [share(name, entry) for entry in entries] for name in CUES} | {MODEL: model_shares(entries)}
    kinds = {kind: [at for at, entry in enumerate(entries) if entry.kind == kind] for kind in _kinds(entries)}
    by_kind = {
        kind: won({name: [each[at] for at in own] for name, each in shares.items()}, [entries[at] for at in own])
        for kind, own in kinds.items()
    }
    told = tuple(Told(entry.id, picking(entry)) for entry in entries if flagged(entry))
    return CueFigures(sum(len(entry.asked) for entry in entries), won(shares, entries), by_kind, told)


def _kinds(entries: Sequence[BlindEntry]) -> list[str]:
    return sorted({entry.kind for entry in entries})


def read_blind(entry: Entry) -> BlindEntry | None:
    """The first draws of an entry that offer a choice, as they are read without the stem; None when none does."""
    asked: list[Blind] = []
    for seed in range(SEEDS):
        try:
            question = make(entry, seed)
        except Refused:  # what `bank check` tells of an entry that cannot be drawn is not told here again
            break
        offers = by_letter(question.kind)
        if offers:
            asked.append(_blind(question))
        if len(asked) == DRAWS or (question.options and not offers):  # steps to order offer no choice in any draw
            break
    if not asked:
        return None
    return blind_entry(entry.head.id, _KINDS.get(type(entry), "families"), entry.head.topic, asked)


def _blind(question: Question) -> Blind:
    texts = [option.text for option in question.options]
    return blind(texts, [option.value for option in question.options], question.labels.index(question.key))
