"""Bad rows of a table: each told, but many with one mend in one line; nothing taken."""

from tests.cli.running import ran


def register(path, people):
    """A register of so many people of one surname, as a centre's own program exports it."""
    rows = [f"{number};Khan;Aisha {number};a@example.org" for number in range(people)]
    path.write_text("\n".join(["Ref;Surname;First name;E-mail", *rows]) + "\n", encoding="utf-16")
    return str(path)


def test_new_names_are_told_in_one_line_and_taken_with_add(tmp_path, monkeypatch):
    wanted = [
        "group",
        "import",
        "Monday",
        register(tmp_path / "r.csv", 41),
        "--store",
        f"sqlite:///{tmp_path / 's.db'}",
    ]
    done = ran(monkeypatch, *wanted)
    assert done.code == 1
    assert " ".join(done.err.split()) == (
        "r.csv:2: no trainee 'Aisha 0 Khan': --add makes trainees of new names. Likewise 40 more: lines 3 to 42. "
        "41 rows are bad, so nothing was taken from the file. Mend and try again."
    )
    done = ran(monkeypatch, *wanted, "--add")
    assert (done.code, done.err) == (0, "")
    assert " ".join(done.out.split()) == (
        "41 joined Monday, 41 of them new trainees. Columns passed over: Ref, E-mail."
    )


def test_a_few_new_names_and_other_faults_are_told_one_by_one(tmp_path, monkeypatch):
    path = tmp_path / "r.csv"
    path.write_text("name\nAda\nx,y\nBen\n", encoding="utf-8")
    done = ran(monkeypatch, "group", "import", "Monday", str(path), "--store", f"sqlite:///{tmp_path / 's.db'}")
    assert [line.partition(": ")[0] for line in done.err.splitlines()[:3]] == ["r.csv:2", "r.csv:3", "r.csv:4"]
