"""A question with a picture on paper, for a learning platform and in a file of its own."""

import io
import json
import zipfile
from statistics import median
from xml.etree import ElementTree as ET

import pytest
from pypdf import PdfReader

from quizzer.blocks.pictures import Picture
from quizzer.pages.question import question_page
from quizzer.picture.kinds import drawn
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.render.html.fragments import IN_WORDS, fragment, parts
from quizzer.render.qti.package import qti_package
from quizzer.render.svg.pictures import picture_svg
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.bank.showing import as_json
from quizzer.workflows.papers.files import VARIANTS
from tests.banktext import CARD, TEMPLATE, entry
from tests.render.forms import paper, tags

NET = 'picture = { kind = "resistors", net = "R_1 {R_1} + R_2 {R_2}", supply = "{U}" }\nlevel = "apply"'

LOOP = """picture = { kind = "earth-fault-loop", system = "TN-S", Z_e = "Z_e {R_1}", R_2 = "{R_2}", U_0 = "{U}" }
level = "apply\""""


def pictured(seed: int = 1, form: str = "choose") -> Question:
    """A sum with its network drawn."""
    return make(entry(TEMPLATE.replace('level = "apply"', f'form = "{form}"\n{NET}')), seed)


def words_of(question: Question) -> str:
    """What is said of its picture."""
    root = ET.fromstring(picture_svg(question.picture))  # noqa: S314  our own text
    return root.get("aria-label", "")


def test_a_picture_is_told_the_numbers_of_its_question():
    question = pictured(7)
    for given in question.given:
        assert given.text in words_of(question)
    assert question.stem_parts == (question.stem, question.picture)
    assert pictured(7) == question
    assert pictured(8).picture != question.picture


def test_no_question_with_a_picture_has_an_answer_that_is_given():
    """The picture shows every given: a draw whose answer happens to be one of them is thrown away."""
    same = TEMPLATE.replace('level = "apply"', f'form = "choose"\n{NET}')
    for seed in range(300):
        question = make(entry(same), seed)
        assert question.answer.text not in {given.text for given in question.given}


@pytest.mark.parametrize("look", VARIANTS)
def test_a_paper_has_the_picture_with_its_words_for_who_cannot_see_it(look):
    questions = [pictured(1), pictured(2)]
    made = paper(questions)
    for name, content in paper_pdfs(made, made.forms[0], questions, look).items():
        figures = [tag for tag in tags(content) if tag.get("/S") == "/Figure"]
        if "answer-sheet" in name:
            assert not {words_of(each) for each in questions} & {str(figure["/Alt"]) for figure in figures}
        else:
            assert [str(figure["/Alt"]).replace("\u00a0", " ") for figure in figures] == [
                words_of(each) for each in questions
            ], name
            assert PdfReader(io.BytesIO(content)).trailer["/Root"]["/MarkInfo"]["/Marked"]


@pytest.mark.parametrize("look", ["standard", "large-print-24"])
def test_a_wide_picture_is_turned_in_large_print_so_that_its_words_are_large(look):
    loop = LOOP.replace('level = "apply"', 'form = "choose"\nlevel = "apply"')
    questions = [make(entry(TEMPLATE.replace('level = "apply"', loop)), 1)]
    made = paper(questions)
    content = next(iter(paper_pdfs(made, made.forms[0], questions, look).values()))
    sizes = turned_sizes(content)
    if look == "standard":
        assert sizes == []
    else:
        assert median(sizes) > 16  # those that are smaller are subscripts


def turned_sizes(content: bytes) -> list[float]:
    """How large letters are, in points, that are read from below upwards."""
    found: list[float] = []

    def take(text: str, to_page: list[float], to_line: list[float], font: object, size: float) -> None:
        del to_line, font
        if text.strip() and to_page[1]:
            found.append(size * abs(to_page[1]))

    for page in PdfReader(io.BytesIO(content)).pages:
        page.extract_text(visitor_text=take)
    return found


@pytest.mark.parametrize("version", ["qti22", "qti3"])
@pytest.mark.parametrize("form", ["choose", "number"])
def test_a_package_has_the_picture_beside_its_item(version, form):
    question = pictured(3, form)
    made = paper([question])
    with zipfile.ZipFile(io.BytesIO(qti_package(made, made.forms[0], [question], version))) as package:
        names = [name for name in package.namelist() if name.endswith(".svg")]
        assert [package.read(name).decode() for name in names] == [picture_svg(question.picture)]
        item = ET.fromstring(package.read("items/Q001.xml"))  # noqa: S314  our own text
        images = [each for each in item.iter() if each.tag.endswith("img")]
        assert [(each.get("src"), each.get("alt")) for each in images] == [(f"../{names[0]}", words_of(question))]
        assert question.key not in names[0]
        assert f'href="{names[0]}"' in package.read("imsmanifest.xml").decode()


def test_a_page_of_the_web_has_the_drawing_itself():
    question = pictured(1)
    page = fragment(question_page(question, "Title"))
    assert picture_svg(question.picture).partition("viewBox")[2] in page
    assert f'role="img" aria-label="{words_of(question)[:60]}' in page


def test_a_screen_reader_has_a_name_in_one_breath_and_all_of_it_beside_the_picture():
    short = Picture("symbols", {"names": ("lamp",)})
    told = {"net": " + ".join(f"R_{n} 10 Ω" for n in range(1, 9))}
    for picture, opened in ((short, False), (short._replace(needed=True), True), (Picture("resistors", told), True)):
        figure = parts([picture])
        svg = ET.fromstring(figure).find("{http://www.w3.org/2000/svg}svg")  # noqa: S314  our own text
        words = drawn(picture).words
        assert svg.get("role") == "img"
        assert len(svg.get("aria-label")) <= 120
        assert svg.get("aria-label").removesuffix(" …") in words
        assert (f"<summary>{IN_WORDS}</summary><p>{words}</p></details>" in figure) is opened


def test_the_object_of_a_question_says_what_its_picture_is_told():
    found = json.loads(json.dumps(as_json(pictured(1))))["picture"]
    assert found["kind"] == "resistors"
    assert found["told"]["net"].startswith("R_1 ")
    assert found["needed"] is False
    assert as_json(make(entry(CARD), 1))["picture"] is None
