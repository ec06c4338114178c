"""The options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Bank = Annotated[
    list[Path] | None,
    typer.Option("--bank", help="A bank folder, or shipped; again for one beside it.", metavar="DIR"),
]
Store = Annotated[str | None, typer.Option("--store", help="Where the data is: a file, or a database URL.")]
Plain = Annotated[bool, typer.Option("--plain", help="For screen readers and simple terminals: no signs, no lines.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Add = Annotated[bool, typer.Option("--add", help="Make trainees of names that are new.")]
Now = Annotated[str | None, typer.Option(hidden=True)]
