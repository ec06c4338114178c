"""The commands of mock papers and groups: their options. The work is in a file for each."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from quizzer.cli.options import Add, Bank, Now, Plain, Store

paper_app = typer.Typer(help="Mock papers: make, print, mark, understand.", no_args_is_help=True, rich_markup_mode=None)
blueprint_app = typer.Typer(help="Blueprints of papers.", no_args_is_help=True, rich_markup_mode=None)
paper_app.add_typer(blueprint_app, name="blueprint")

LargePrint = Annotated[
    list[int] | None, typer.Option(help="A large-print variant too: 18 or 24 points.", metavar="POINTS")
]
Centre = Annotated[
    Path | None, typer.Option(help="Whose papers they are; the centre.toml here when none.", metavar="FILE")
]
EasyRead = Annotated[bool, typer.Option("--wide-spaced", help="A variant on cream, with wide lines and words, too.")]


@paper_app.command("make")
def paper_make(
    blueprint: Annotated[str, typer.Argument(help="A blueprint's name, or a .toml file of your own.")],
    forms: Annotated[int, typer.Option(help="How many parallel forms.", metavar="K")] = 1,
    questions: Annotated[int, typer.Option(help="Another number of questions than the blueprint's.", metavar="N")] = 0,
    seed: Annotated[int | None, typer.Option(help="The same seed and bank make the same paper.", metavar="S")] = None,
    edition: Annotated[str, typer.Option(help="Only entries that hold in this edition.", metavar="E")] = "",
    signed_only: Annotated[bool, typer.Option("--signed-only", help="Only entries a tutor has signed off.")] = False,
    per_trainee: Annotated[
        str | None, typer.Option(help="Everybody of this group gets numbers of their own.", metavar="GROUP")
    ] = None,
    large_print: LargePrint = None,
    wide_spaced: EasyRead = False,
    out: Annotated[Path | None, typer.Option(help="The folder to write to.", metavar="DIR")] = None,
    on: Annotated[str | None, typer.Option(help="The day the paper is for; today when none.", metavar="DATE")] = None,
    centre: Centre = None,
    bank: Bank = None,
    store: Store = None,
) -> None:
    """Make a mock paper: forms, answer sheets, mark schemes."""
    from quizzer.cli.paper_make import PaperWishes, make

    large = tuple(large_print or ())
    wishes = (
        blueprint,
        forms,
        questions,
        seed,
        edition,
        signed_only,
        per_trainee,
        large,
        wide_spaced,
        out,
        on,
        centre,
        bank,
        store,
    )
    make(PaperWishes(*wishes))


@paper_app.command("print")
def paper_print(
    paper: Annotated[Path, typer.Argument(help="The folder of the paper, or its paper.json.")],
    large_print: LargePrint = None,
    wide_spaced: EasyRead = False,
    seats: Annotated[
        str | None,
        typer.Option("--class", help="One file for a class: a group, or a list as CSV or .xlsx.", metavar="CLASS"),
    ] = None,
    centre: Centre = None,
    out: Annotated[Path | None, typer.Option(help="The folder to write to.", metavar="DIR")] = None,
    bank: Bank = None,
    store: Store = None,
) -> None:
    """Make the files of a paper again, or one file for a class."""
    from quizzer.cli.paper_print import PrintWishes, print_again

    print_again(PrintWishes(paper, large_print or (), wide_spaced, seats, centre, out, bank, store))


@paper_app.command("sheet")
def paper_sheet(
    topic: Annotated[list[str] | None, typer.Option(help="A topic or sub-topic; may be given again.")] = None,
    count: Annotated[int, typer.Option(help="How many questions.", metavar="N")] = 12,
    answers: Annotated[bool, typer.Option("--answers", help="With worked solutions behind each sheet.")] = False,
    seed: Annotated[int | None, typer.Option(help="The same seed and bank make the same sheet.", metavar="S")] = None,
    per_trainee: Annotated[
        str | None,
        typer.Option(help="One for each of this group, numbers of their own.", metavar="GROUP"),
    ] = None,
    variant: Annotated[str, typer.Option(help="standard, large-print-18, large-print-24 or wide-spaced.")] = "standard",
    out: Annotated[Path | None, typer.Option(help="The file to write.", metavar="FILE.pdf")] = None,
    bank: Bank = None,
    store: Store = None,
    now: Now = None,
) -> None:
    """Print pages to practise a topic on, numbers new each time."""
    from quizzer.cli.paper_sheet import SheetWishes, sheet

    sheet(SheetWishes(tuple(topic or ()), count, answers, seed, per_trainee, variant, out, bank, store, now))


@blueprint_app.command("check")
def blueprint_check(
    blueprint: Annotated[str | None, typer.Argument(help="A blueprint; all of them when none is named.")] = None,
    bank: Bank = None,
) -> None:
    """Say how many forms the bank can serve, section by section."""
    from quizzer.cli.paper_make import check

    raise typer.Exit(check(blueprint, bank))


@paper_app.command("export")
def paper_export(
    paper: Annotated[Path, typer.Argument(help="The folder of the paper, or its paper.json.")],
    kind: Annotated[str, typer.Option("--format", help="qti22, qti3, csv or json.")] = "qti22",
    form: Annotated[str | None, typer.Option(help="Which form, by letter or serial.", metavar="F")] = None,
    out: Annotated[Path | None, typer.Option(help="The file to write.", metavar="FILE")] = None,
    bank: Bank = None,
) -> None:
    """Write a form, keys and all, for a learning platform."""
    from quizzer.cli.paper_export import export

    export(paper, kind, form, out, bank)


@paper_app.command("report")
def paper_report(
    paper: Annotated[str, typer.Argument(help="The paper's id, its folder, or its paper.json.")],
    person: Annotated[str | None, typer.Option(help="The page of one who sat it.", metavar="NAME")] = None,
    items: Annotated[bool, typer.Option("--items", help="The page on the questions and the paper.")] = False,
    out: Annotated[Path | None, typer.Option(help="Write to this file, .pdf or .csv.", metavar="FILE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
) -> None:
    """Report on a group, a person or the questions."""
    from quizzer.cli.paper_report import ReportWishes, report

    report(ReportWishes(paper, person, items, out, bank, store, plain))


@paper_app.command("mark")
def paper_mark(
    paper: Annotated[str, typer.Argument(help="The paper's id, its folder, or its paper.json.")],
    answers: Annotated[
        Path | None, typer.Option(help="A table: name, form, answers (one letter each, - for none).", metavar="FILE")
    ] = None,
    enter: Annotated[bool, typer.Option("--enter", help="Key the answers from the sheets, twice.")] = False,
    add: Add = False,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Mark answers: a table, keyed in, or handed in on screen."""
    from quizzer.cli.paper_mark import MarkWishes, mark

    raise typer.Exit(mark(MarkWishes(paper, answers, enter, add, bank, store, plain, now)))


@paper_app.command("scan")
def paper_scan(
    files: Annotated[list[Path], typer.Argument(help="Scans or photographs: PDF, JPEG or PNG.", metavar="FILE...")],
    paper: Annotated[str, typer.Option("--paper", help="The paper's id, its folder, or its paper.json.", metavar="P")],
    seats: Annotated[
        Path | None, typer.Option("--class", help="The list that `paper print --class` wrote.", metavar="FILE")
    ] = None,
    out: Annotated[Path | None, typer.Option(help="The table to write.", metavar="FILE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
) -> None:
    """Read answer sheets off scans, for `paper mark`."""
    from quizzer.cli.paper_scan import ScanWishes, scan

    raise typer.Exit(scan(ScanWishes(tuple(files), paper, seats, out, bank, store, plain)))


@paper_app.command("correct")
def paper_correct(
    paper: Annotated[str, typer.Argument(help="The paper's id, its folder, or its paper.json.")],
    reason: Annotated[str, typer.Option(help="Why; it is kept with the change.", metavar="WORDS")],
    by: Annotated[str, typer.Option(help="Who says so; kept with the change.", metavar="NAME")],
    person: Annotated[str | None, typer.Option(help="Whose script.", metavar="NAME")] = None,
    of: Annotated[str | None, typer.Option(help="Which of their scripts, if several.", metavar="FORM")] = None,
    answers: Annotated[str | None, typer.Option(help="All of its answers anew.", metavar="LETTERS")] = None,
    question: Annotated[int | None, typer.Option(help="One question of the form.", metavar="N", min=1)] = None,
    to: Annotated[str | None, typer.Option(help="Its answer: a letter, - for none.", metavar="LETTER")] = None,
    form: Annotated[str | None, typer.Option(help="The form it is; of a ruling, where N stands.", metavar="F")] = None,
    void: Annotated[bool, typer.Option("--void", help="The script, or the question, counts no more.")] = False,
    absent: Annotated[bool, typer.Option("--absent", help="They were not there: neither passed nor failed.")] = False,
    also_key: Annotated[str | None, typer.Option(help="This letter is right too.", metavar="LETTER")] = None,
    undo: Annotated[bool, typer.Option("--undo", help="Take the last correction back.")] = False,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Put right a script that was marked, or rule about a question."""
    from quizzer.cli.paper_correct import CorrectWishes, put_right

    wishes = (
        *(paper, person, of, answers, question, to, form, void, absent, also_key, undo, reason, by),
        *(bank, store, plain, now),
    )
    put_right(CorrectWishes(*wishes))


@paper_app.command("history")
def paper_history(
    paper: Annotated[str, typer.Argument(help="The paper's id, its folder, or its paper.json.")],
    person: Annotated[str | None, typer.Option(help="Of one who sat it.", metavar="NAME")] = None,
    store: Store = None,
    plain: Plain = False,
) -> None:
    """Show what was corrected: before, now, who, when, why."""
    from quizzer.cli.paper_correct import history

    history(paper, person, store, plain)


@paper_app.command("entries")
def paper_entries(
    blueprint: Annotated[str, typer.Argument(help="The name of the blueprint of the papers.")],
    out: Annotated[Path | None, typer.Option(help="Write a PDF or CSV file instead.", metavar="FILE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
) -> None:
    """Report on the entries over all papers of a blueprint."""
    from quizzer.cli.paper_entries import entries

    entries(blueprint, out, bank, store, plain)
