"""Papers as they were made, which of them people had lately, and how entries were answered."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterator

from quizzer.errors import NotFound, Refused
from quizzer.paper.pool import Facilities
from quizzer.paper.record import Form, Paper, to_json
from quizzer.paper.record_reading import from_json
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.names import name_key
from quizzer.store.paper_rows import observed_of
from quizzer.store.row_mapping import pair_of, words

LAST = 2
Asked = tuple[str, int]  # an entry and a seed


def keep(wire: Connection, paper: Paper) -> None:
    """Keep a paper; the same one is kept once. Raises Refused when another one has its id."""
    text = to_json(paper)
    row = {"id": words(paper.id, "id"), "record": words(text, "record")}
    with wire.transaction("write"):
        ((last,),) = wire.run(sql.LAST_KEPT).fetchall()
        if wire.run(sql.ADD_PAPER, {**row, "kept": (last or 0) + 1}).rowcount:
            return
        ((there,),) = wire.run(sql.PAPER_BY_ID, {"id": paper.id}).fetchall()
    if there != text and not _same_but_names(from_json(there, "the store"), paper):
        raise Refused(
            f"another paper is kept as {paper.id}",
            mend="make the paper again with another --seed, or name the folder of the one that is kept",
        )


def find(wire: Connection, id: str) -> Paper:
    """The paper of an id. Raises NotFound."""
    for (text,) in wire.ask(sql.PAPER_BY_ID, {"id": id}):
        return from_json(text, f"paper {id} in the store")
    known = [key for key, _ in wire.ask(sql.PAPERS)]
    near = difflib.get_close_matches(id, known, n=1) or known[-1:]
    hint = f"did you mean {near[0]}? Or name" if near else "name"
    raise NotFound(f"there is no paper {id!r:.120}", mend=f"{hint} the folder that `quizzer paper make` wrote")


def every(wire: Connection) -> tuple[Paper, ...]:
    """All papers, in the order in which they were kept."""
    return tuple(from_json(text, f"paper {id} in the store") for id, text in wire.ask(sql.PAPERS))


def facilities(wire: Connection) -> Facilities:
    """Of each entry as it was then, how many trainees answered it and how many were right at their first try.

    Drills are left out.
    """
    return dict(map(observed_of, wire.ask(sql.FACILITIES)))


def recent_questions(wire: Connection, people: Collection[str]) -> frozenset[Asked]:
    """The questions of the last two papers each of these people had; with no people, of the last two kept."""
    with wire.transaction("read"):
        taken = {(name_key(name), paper) for name, paper in map(pair_of, wire.run(sql.TAKEN).fetchall())}
        papers = [from_json(text, f"paper {id} in the store") for id, text in wire.run(sql.PAPERS).fetchall()]
    if not people:
        return _asked(papers[-LAST:])
    had = [_had(papers, taken, name_key(name))[-LAST:] for name in people]
    return frozenset().union(*map(_asked, had))


def made_for(wire: Connection, name: str) -> Iterator[tuple[Paper, Form]]:
    """Every form made for a person of that name, inside a transaction."""
    for id, text in wire.run(sql.PAPERS).fetchall():
        paper = from_json(text, f"paper {id} in the store")
        for form in paper.forms:
            if form.person and name_key(form.person) == name_key(name):
                yield paper, form


def give_forms(wire: Connection, places: Collection[tuple[str, str]], name: str) -> None:
    """Put a person's name on forms, by paper and serial, inside a transaction."""
    for id in sorted({paper for paper, _ in places}):
        for (text,) in wire.run(sql.PAPER_BY_ID, {"id": id}).fetchall():
            paper = from_json(text, f"paper {id} in the store")
            forms = tuple(form._replace(person=name) if (id, form.serial) in places else form for form in paper.forms)
            wire.run(sql.SET_RECORD, {"paper": id, "text": to_json(paper._replace(forms=forms))})


def forget(wire: Connection, name: str) -> None:
    """Take a person's name out of the forms made for them, inside a transaction; the questions stay."""
    for paper in {paper.id: paper for paper, _ in made_for(wire, name)}.values():
        forms = tuple(
            form._replace(person="") if name_key(form.person) == name_key(name) else form for form in paper.forms
        )
        wire.run(sql.SET_RECORD, {"paper": paper.id, "text": to_json(paper._replace(forms=forms))})


def _same_but_names(kept: Paper, paper: Paper) -> bool:
    """Whether the two differ only in whose forms they are: a person was erased, or made one with another."""
    if len(kept.forms) != len(paper.forms):
        return False
    named = tuple(
        new._replace(person=old.person) if new.person else new for old, new in zip(kept.forms, paper.forms, strict=True)
    )
    return paper._replace(forms=named) == kept


def _had(papers: list[Paper], taken: set[tuple[str, str]], key: str) -> list[Paper]:
    return [
        paper
        for paper in papers
        if (key, paper.id) in taken or any(form.person and name_key(form.person) == key for form in paper.forms)
    ]


def _asked(papers: list[Paper]) -> frozenset[Asked]:
    return frozenset((item.entry, item.seed) for paper in papers for form in paper.forms for item in form.items)
