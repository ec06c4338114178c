"""The tables and the statements: the same on both databases, and quick."""

import re
import sqlite3
from pathlib import Path

import pytest
from sqlalchemy import Executable, MetaData, Text, create_engine, inspect
from sqlalchemy.engine import Dialect, make_url
from sqlalchemy.pool import StaticPool
from sqlalchemy.schema import CreateTable

from quizzer.errors import QuizzerError
from quizzer.store import Store, compiled, correction_statements, paper_statements, study_statements
from quizzer.store import statements as sql
from quizzer.store.building import Both
from quizzer.store.lengths import LENGTHS
from quizzer.store.migrations import MIGRATIONS, Migration
from quizzer.store.statements import ALL, NAMED
from quizzer.store.tables import HELD, META
from quizzer.store.wording import StatementText
from scripts.statement_texts import FILE, module, text_of
from tests.stores import held, on_the_server, opened, peopled

TABLES = (META, *HELD)
URLS = {"sqlite": "sqlite://", "postgresql": "postgresql+psycopg://"}


def dialect(name: str) -> Dialect:
    """SQLAlchemy's dialect of that name."""
    return make_url(URLS[name]).get_dialect()()


def test_what_is_run_is_what_the_models_and_statements_say() -> None:
    assert FILE.read_text(encoding="utf-8") == module(), "run scripts/statements"


def wordings() -> dict[str, StatementText]:
    """Every statement that is run, by its name."""
    found: dict[str, StatementText] = {}
    for name, value in vars(compiled).items():
        if isinstance(value, StatementText):
            found[name] = value
        elif isinstance(value, dict) and name != "HELD" and not name.startswith("_"):
            found |= {f"{name} {table}": one for table, one in value.items()}
    return found


def test_the_list_of_statements_is_whole() -> None:
    modules = [vars(module) for module in (study_statements, paper_statements, correction_statements, sql)]
    run = {name: value for its in modules for name, value in its.items() if name.isupper() and name[0] != "_"}
    named = {name: value for name, value in run.items() if isinstance(value, (Executable, Both))}
    groups = {"ROWS", "FILL", "EMPTY", "ROWS_OF", "ERASE"}
    assert set(NAMED) == {*named, *groups}
    tables = [one for group in (sql.ROWS, sql.FILL, sql.EMPTY, sql.ROWS_OF, sql.ERASE) for one in group.values()]
    assert {id(one) for one in (*named.values(), *tables)} == {id(one) for one in ALL}
    assert len(ALL) > 35


@pytest.mark.parametrize("name", URLS)
@pytest.mark.parametrize("statement", ALL, ids=lambda s: text_of(s, "sqlite")[:40])
def test_every_statement_compiles_for_both_databases(statement: Executable | Both, name: str) -> None:
    text = text_of(statement, name)
    assert re.match(r"SELECT|INSERT INTO|UPDATE|DELETE FROM", text)
    assert not re.search(r"\b(LIKE|AVG|RETURNING|AUTOINCREMENT|NOW|RANDOM)\b", text, re.IGNORECASE)


def test_sqlite_understands_every_statement(tmp_path: Path) -> None:
    # A server explains no statement with open parameters; there the verbs run them all.
    with opened("memory", tmp_path) as store:
        for statement in wordings().values():
            text = re.sub(r":\w+", "NULL", statement.sqlite)
            assert store._wire.ask("EXPLAIN " + text), text


def test_the_migrations_make_the_tables_that_are_declared() -> None:
    declared, migrated = sqlite3.connect(":memory:"), sqlite3.connect(":memory:")
    for table in TABLES:
        declared.execute(str(CreateTable(table).compile(dialect=dialect("sqlite"))))
    for migration in MIGRATIONS:
        for statement in migration.on("sqlite"):
            migrated.execute(statement)
    for table in TABLES:
        about = f'PRAGMA table_info("{table.name}")'
        assert migrated.execute(about).fetchall() == declared.execute(about).fetchall()
        assert checks(migrated, table.name) == checks(declared, table.name)
        owner = f'PRAGMA foreign_key_list("{table.name}")'
        assert migrated.execute(owner).fetchall() == declared.execute(owner).fetchall()
    declared.close()
    migrated.close()


def checks(connection: sqlite3.Connection, table: str) -> set[str]:
    """The CHECKs of a table, without blanks."""
    (text,) = connection.execute("SELECT sql FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    found = re.findall(r"CONSTRAINT (\w+ CHECK .*?)(?=,? *(?:CONSTRAINT|\n|$)|, \w+ (?:TEXT|INTEGER|BIGINT))", text)
    return {re.sub(r"\s", "", one).rstrip(",)") for one in found}


def test_the_indexes_are_those_that_are_declared(store: Store) -> None:
    engine = create_engine(URLS["sqlite"], creator=lambda: store._wire._connection, poolclass=StaticPool)
    if store.info().kind != "SQLite":
        names = "SELECT indexname FROM pg_indexes WHERE schemaname = current_schema()"
        made = {name for (name,) in store._wire.ask(names) if "_pkey" not in name and "_key" not in name}
    else:
        made = {i["name"] for table in TABLES for i in inspect(engine).get_indexes(table.name)}
    assert made == {index.name for table in TABLES for index in table.indexes}


def test_a_server_is_given_the_same_tables_compared_by_bytes() -> None:
    assert Migration(1, ("CREATE TABLE t (a TEXT NOT NULL, context INTEGER)",)).on("postgresql") == (
        'CREATE TABLE t (a TEXT COLLATE "C" NOT NULL, context INTEGER)',
    )


@on_the_server
def test_a_server_has_the_columns_that_are_declared(tmp_path: Path) -> None:
    about = """SELECT table_name, column_name, data_type, is_nullable, collation_name
        FROM information_schema.columns WHERE table_schema = current_schema()"""
    words = {"TEXT": ("text", "C"), "INTEGER": ("integer", None), "BIGINT": ("bigint", None)}
    declared = {
        (t.name, c.name, words[str(c.type)][0], "YES" if c.nullable else "NO", words[str(c.type)][1])
        for t in TABLES
        for c in t.columns
    }
    with opened("server", tmp_path) as store:
        assert set(store._wire.ask(about)) == declared


def test_columns_are_of_kinds_that_both_databases_keep_alike() -> None:
    kinds = {type(column.type).__name__ for table in TABLES for column in table.columns}
    assert kinds == {"Text", "Integer", "BigInteger"}


def test_every_text_has_a_length_that_both_refuse_to_pass() -> None:
    for table in HELD:
        rules = {str(c.name) for c in table.constraints}
        for column in table.columns:
            if isinstance(column.type, Text) and not column.foreign_keys and column.name != "confidence":
                assert f"{table.name}_{column.name}" in rules
                assert column.name in LENGTHS


def test_what_is_sorted_by_is_never_null() -> None:
    clauses = [c for one in ALL if isinstance(one, Executable) for c in getattr(one, "_order_by_clauses", ())]
    sorted_by = {getattr(c, "element", c) for c in clauses}  # newest first is an expression around its column
    assert {c.name for c in sorted_by} >= {"due_day", "entry", "answered_at", "name_key", "raised_at"}
    assert not [c.name for c in sorted_by if c.nullable]


SETTING: dict[str, object] = {
    "trainee": "t1",
    "today": "2026-03-02",
    "most": 1,
    "entry": "e",
    "since": "",
    "id": "r1",
}


@pytest.mark.parametrize(
    ("statement", "index"),
    [
        (compiled.DUE, "memory_due"),
        (compiled.STANDINGS, "memory_due"),
        (compiled.MEMORY_OF, "sqlite_autoindex_memory_1"),
        (compiled.REVIEWS, "review_history"),
        (compiled.TALLIES, "review_history"),
        (compiled.RECORDED, "sqlite_autoindex_review_1"),
    ],
)
def test_a_question_asked_often_finds_its_rows_by_an_index(
    statement: StatementText, index: str, tmp_path: Path
) -> None:
    with opened("memory", tmp_path) as store:
        plan = [row[3] for row in store._wire.ask("EXPLAIN QUERY PLAN " + statement.sqlite, SETTING)]
    assert f"USING INDEX {index}" in plan[0]
    if statement is not compiled.TALLIES:
        assert len(plan) == 1, "no sorting after"


def test_a_store_of_its_own_metadata_has_only_our_tables() -> None:
    metadata: MetaData = META.metadata
    assert set(metadata.tables) == {table.name for table in TABLES}


BAD_ROWS = [
    ("trainee", {"id": ""}),
    ("trainee", {"name": "x" * 101}),
    ("trainee", {"name_key": ""}),
    ("trainee", {"exam_day": "soon"}),
    ("trainee", {"added_at": "2026-03-02"}),
    ("trainee", {"blueprint": ""}),
    ("trainee", {"minutes_a_day": 0}),
    ("trainee", {"no_exam": 0}),
    ("memory", {"ease": 129}),
    ("memory", {"repetition": 0}),
    ("memory", {"interval_days": 0}),
    ("memory", {"owed": 3}),
    ("memory", {"due_day": "2026-03-01"}),
    ("memory", {"topic": "x" * 101}),
    ("memory", {"trainee": "nobody"}),
    ("review", {"id": "x" * 101}),
    ("review", {"seed": -1}),
    ("review", {"quality": 6}),
    ("review", {"was_right": 2}),
    ("review", {"was_rounded": -1}),
    ("review", {"was_drill": 2}),
    ("review", {"confidence": "perhaps"}),
    ("review", {"reply": "x" * 4001}),
    ("review", {"asked": "x" * 100_001}),
    ("review", {"slip": ""}),
    ("review", {"seconds": -1}),
    ("review", {"day": "today"}),
    ("review", {"entry": None}),
    ("challenge", {"reason": "x" * 2001}),
    ("challenge", {"digest": ""}),
    ("challenge", {"trainee": "nobody"}),
    ("trainee_group", {"name": ""}),
    ("trainee_group", {"name_key": "x" * 401}),
    ("trainee_group", {"added_at": "today"}),
    ("group_member", {"trainee": "nobody"}),
    ("group_member", {"group_key": "nobody's"}),
    ("paper", {"record": ""}),
    ("paper", {"id": ""}),
    ("paper", {"kept": 0}),
    ("sitting", {"trainee": "nobody"}),
    ("sitting", {"paper": "none"}),
    ("sitting", {"form": "x" * 21}),
    ("sitting", {"answers": ""}),
    ("sitting", {"flags": ""}),
    ("sitting", {"place": -1}),
    ("sitting", {"seconds": -1}),
    ("sitting", {"allowed": 0}),
    ("sitting", {"turn": -1}),
    ("sitting", {"started_at": "today"}),
    ("sitting", {"submitted_at": "today"}),
    ("script", {"trainee": "nobody"}),
    ("script", {"paper": "none"}),
    ("script", {"answers": "A" * 401}),
    ("script", {"origin": ""}),
    ("script", {"form": ""}),
    ("script", {"marked_at": "today"}),
]


@pytest.mark.parametrize(("table", "change"), BAD_ROWS, ids=lambda v: str(v)[:40])
def test_the_database_itself_refuses_a_row_that_breaks_a_rule(
    store: Store, table: str, change: dict[str, object]
) -> None:
    before = held(peopled(store))
    (columns,) = [t.columns.keys() for t in HELD if t.name == table]
    row = dict(zip(columns, before[table][0], strict=True))
    spare = {
        "id": "t9",
        "name_key": "nine",
        "entry": "another",
        "raised_at": "2026-03-03T12:00:00.000000Z",
        "form": "B",
    }
    row |= {name: value for name, value in spare.items() if name in row} | change
    with pytest.raises(QuizzerError), store._wire.transaction("write"):
        store._wire.run(compiled.FILL[table], row)
    assert held(store) == before
