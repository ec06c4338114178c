"""`quizzer paper sheet`: pages to practise on, answers behind, numbers of one's own, and refusals in one sentence."""

import pytest
from pypdf import PdfReader

from tests.cli.running import ran

DAY = ("--now", "2026-11-30T07:00+00:00")


def sheet(monkeypatch, *words):
    return ran(monkeypatch, "paper", "sheet", *words, *DAY)


def text_of(path):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def test_twelve_questions_of_a_topic_with_their_answers_behind(tmp_path, monkeypatch):
    out = tmp_path / "loop.pdf"
    done = sheet(monkeypatch, "--topic", "design/loop", "--count", "12", "--answers", "--seed", "7", "--out", str(out))
    assert done.code == 0, done.err
    assert "1 sheet of 12 questions, answers behind each, from seed 7" in " ".join(done.out.split())
    text = text_of(out)
    assert text.startswith("Circuit design: loop Practice")
    questions, _, answers = text.partition(" Answers ")
    for number in range(1, 13):
        assert f"Question {number}:" in answers, number
        assert f"Question {number}:" not in questions
    assert "Worked solution" in answers
    assert "Worked solution" not in questions
    assert "Mistake:" not in questions


def test_without_answers_nothing_gives_a_key_away_and_the_same_seed_makes_the_same_sheet(tmp_path, monkeypatch):
    paths = [tmp_path / name for name in ("one.pdf", "two.pdf", "three.pdf")]
    for path, seed in zip(paths, ("7", "7", "8"), strict=True):
        assert (
            sheet(monkeypatch, "--topic", "testing/ring", "--count", "5", "--seed", seed, "--out", str(path)).code == 0
        )
    assert paths[0].read_bytes() == paths[1].read_bytes()
    assert text_of(paths[0]) != text_of(paths[2])
    assert "Mistake:" not in text_of(paths[0])


def test_everybody_of_a_group_has_numbers_of_their_own(tmp_path, monkeypatch):
    store = ("--store", str(tmp_path / "store.db"))
    people = tmp_path / "people.csv"
    people.write_text("name\nAisha\nBen\n", encoding="utf-8")
    assert ran(monkeypatch, "group", "import", "autumn", str(people), "--add", *store).code == 0
    out = tmp_path / "class.pdf"
    done = sheet(
        monkeypatch, "--topic", "design/loop", "--count", "3", "--per-trainee", "autumn", "--out", str(out), *store
    )
    assert done.code == 0, done.err
    reader = PdfReader(out)
    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    firsts = [page for page in pages if "For Aisha" in page or "For Ben" in page]
    assert len(firsts) == 2
    assert firsts[0].partition("charge decide.")[2] != firsts[1].partition("charge decide.")[2]
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--count", "0"), "--count 0 is no length for a sheet"),
        (("--topic", "design/lop"), "no topic 'design/lop': did you mean 'design/loop'?"),
        (("--variant", "huge"), "--variant 'huge' is unknown"),
        (("--out", "sheet.doc"), "--out 'sheet.doc' is no .pdf"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(monkeypatch, words, told):
    done = sheet(monkeypatch, *words)
    assert done.code != 0
    assert told in " ".join(done.err.split())
