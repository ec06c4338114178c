"""A form on paper: what stands in its documents, that a screen reader can read them, and that no text runs as code."""

import io
import itertools
import json
import re
from datetime import date

import pytest
from fontTools.ttLib import TTFont
from page import validate_pdf_bytes
from pypdf import PdfReader, PdfWriter
from pypdfium2 import PdfDocument
from typst import Compiler, Fonts

from quizzer.blocks.pictures import Picture
from quizzer.blocks.text import DataTable
from quizzer.paper.sheet_layout import LOOKS
from quizzer.question.question import RecordSheet
from quizzer.render.typst.glyphs import FONTS
from quizzer.render.typst.paper_words import candidate_words, sheet_words
from quizzer.render.typst.papers import paper_pdfs
from quizzer.render.typst.question_words import LABEL_WIDTHS
from quizzer.render.typst.typesetting import TEMPLATES, pdf
from quizzer.workflows.papers.files import VARIANTS
from tests.render.forms import HOSTILE, card, catalogue, number, paper, sum_, tags, words

QUESTIONS = [card(), sum_(), card("Which cable is thicker?"), sum_(2)]
SAMPLE = paper(QUESTIONS)
READINGS = (
    ("Device seen", "", "B6"),
    ("End to end", "line", "0.31 Ω"),
    ("", "neutral", "0.30 Ω"),
    ("Polarity", "", "as it is"),
)
RECORD = RecordSheet(
    "device B6; line 0.31, neutral 0.30", DataTable("", ("Test", "Where", "Reading"), READINGS, spanning=True)
)
WITH_A_RECORD = card(f"A ring was tested:\n{RECORD.text}\nWhich fault?")._replace(
    sheet=RECORD, picture=Picture("symbols", {"names": ("lamp",)})
)
RECORDS = [card(), WITH_A_RECORD, sum_(), number()]
SHEETED = paper(RECORDS)
PDFS = paper_pdfs(SAMPLE, SAMPLE.forms[0], QUESTIONS)
SIZES = {"standard": 11.5, "large-print-18": 18, "large-print-24": 24, "wide-spaced": 13}  # points
CREAM = b"0.9843137 0.95686275 0.8745098"
PAPER, SHEET, SCHEME = "A-paper.pdf", "A-answer-sheet.pdf", "mark-scheme/A-mark-scheme.pdf"


def test_a_form_has_three_documents_and_the_mark_scheme_lies_apart():
    assert list(PDFS) == [PAPER, SHEET, SCHEME]


def test_the_cover_says_what_a_candidate_needs_to_know():
    cover = words(PDFS[PAPER]).split("1 What is the same")[0]
    for each in (
        "Sample",
        "Form A",
        "sample-1/A",
        "4 questions, 50 minutes",
        "Date",
        "MOCK: not a live paper",
        "a ruler",
        "100 % 50",
        "125 % 63",
        "150 % 75",
        "Finish",
        "pass mark is 3 of 4",
        "Edition followed: A3",
        "no certificate of competence",
        "“Second part” must be right",
    ):
        assert each in cover, each


def test_every_page_names_form_and_serial_and_its_number():
    many = [sum_(seed) for seed in range(1, 25)]
    made = paper(many)
    for name, content in paper_pdfs(made, made.forms[0], many).items():
        pages = PdfReader(io.BytesIO(content)).pages
        assert len(pages) > 1 or name == SHEET
        for number_, page in enumerate(pages, 1):
            text = " ".join(page.extract_text().split())
            assert f"Page {number_} of {len(pages)}" in text, name
            assert "Form A Serial sample-1/A" in text, name


def test_the_lines_of_a_record_sheet_stay_lines():
    sheet = [card("Readings:\nsocket 1 0.2 Ω.\nWhich fault?")]
    made = paper(sheet)
    for name, content in paper_pdfs(made, made.forms[0], sheet).items():
        lines = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages).split("\n")
        lines = [" ".join(line.replace("\u00a0", " ").split()) for line in lines]
        assert name == SHEET or "socket 1 0.2 Ω." in lines, lines


def test_the_text_gives_the_questions_and_their_options_in_order():
    text = words(PDFS[PAPER])
    at = 0
    for number_, question in enumerate(QUESTIONS, 1):
        asked = [f"{number_} {question.stem}", *(f"{each.label} {each.text}" for each in question.options)]
        for each in asked:
            found = text.find(each, at)
            assert found >= at, each
            at = found + len(each)
    assert text.find("End of questions", at) > at


def test_no_question_is_split_over_two_pages():
    """Every page that holds a stem holds all four of its options."""
    many = [card(f"Question {'word ' * (seed % 30)} number {seed}?") for seed in range(60)]
    made = paper(many)
    for variant in ("standard", "large-print-24"):
        pdf = next(iter(paper_pdfs(made, made.forms[0], many, variant).values()))
        pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
        stems = [len(re.findall(r"number \d+\?", " ".join(page.split()))) for page in pages]
        assert sum(stems) == 60
        for letter in "ABCD":
            assert [len(re.findall(rf"^{letter} ", page, re.MULTILINE)) for page in pages] == stems


def test_a_question_taller_than_a_page_goes_on_overleaf():
    tall = [card("word " * 900 + "the end?")]
    made = paper(tall)
    text = words(paper_pdfs(made, made.forms[0], tall, "large-print-24")["A-paper-large-print-24.pdf"])
    assert text.count("word") == 900
    assert "the end?" in text
    assert all(option.text in text for option in tall[0].options)


def test_the_answer_sheet_has_every_question_and_shows_how_to_mark():
    text = words(PDFS[SHEET])
    assert "Cross one box for each question" in text
    assert "To change your mind" in text
    for number_ in range(1, 5):
        assert f"{number_} A B C D" in text


def test_the_answer_sheet_of_sixty_questions_is_one_page():
    many = [card()] * 60
    made = paper(many)
    sheet = paper_pdfs(made, made.forms[0], many)[SHEET]
    assert len(PdfReader(io.BytesIO(sheet)).pages) == 1
    assert "60 A B C D" in words(sheet)


def test_the_paper_and_the_answer_sheet_hold_no_key_no_reason_and_no_name_of_an_entry():
    for content in (PDFS[PAPER], PDFS[SHEET]):
        assert "It divides" not in words(content)
        assert QUESTIONS[0].reason not in words(content)
        assert b"topic/file" not in content
        assert "topic/file" not in words(content)


def test_the_mark_scheme_explains_every_key_and_every_mistake():
    text = words(PDFS[SCHEME])
    for number_, question in enumerate(QUESTIONS, 1):
        assert f"Question {number_}: {question.key}" in text
        assert question.reason in text
        assert question.name in text
        for option in question.options:
            assert f"Mistake: {option.why}" in text or option.label == question.key
        for step in question.working:
            assert step.say in text
    for each in ("Keys", "Source: Kirchhoff's first law", "seen in the publication named", "for markers only"):
        assert each in text
    assert "Pass mark 3 of 4" in text


def test_the_working_is_mathematics_with_the_same_in_words():
    alts = [tag["/Alt"].replace("\u00a0", " ") for tag in tags(PDFS[SCHEME]) if tag["/S"] == "/Formula"]
    assert len(alts) == sum(len(question.working) for question in QUESTIONS)
    step = QUESTIONS[1].working[1]
    assert f"U 1 equals U times R 1 divided by R, equals {step.figures}, equals {step.result}" in alts


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_a_document_is_tagged_and_says_what_it_is(name):
    root = catalogue(PDFS[name])
    assert root["/MarkInfo"]["/Marked"] == True  # noqa: E712  a PDF's own boolean
    assert root["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] == True  # noqa: E712
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()
    assert "Sample, form A" in PdfReader(io.BytesIO(PDFS[name])).metadata.title


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_headings_do_not_skip_and_heads_of_tables_have_a_scope(name):
    found = list(tags(PDFS[name]))
    levels = [int(tag["/S"][2]) for tag in found if re.fullmatch(r"/H\d", tag["/S"])]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    for head in (tag for tag in found if tag["/S"] == "/TH"):
        assert any(each.get_object().get("/Scope") for each in head["/A"])
    assert all(tag.get("/Alt") for tag in found if tag["/S"] in ("/Figure", "/Formula"))


def listed(content: bytes) -> list[str]:
    """What a reader lists of a document, in order, each beside the page it leads to."""
    read = PdfReader(io.BytesIO(content))

    def under(marks):
        for mark in marks:
            yield from under(mark) if isinstance(mark, list) else [mark]

    marks = list(under(read.outline))
    pages = [read.get_destination_page_number(mark) for mark in marks]
    assert pages == sorted(pages)
    return [mark.title for mark in marks]


def test_what_a_reader_lists_says_what_it_is():
    """A number alone tells nobody where it leads; whose paper it is tells forty in one file apart."""
    asked = listed(PDFS[PAPER])
    assert asked[0] == "Question paper, Form A"
    assert [each for each in asked if each.startswith("Question ")][1:] == [f"Question {n}" for n in range(1, 5)]
    assert listed(PDFS[SHEET])[0] == "Answer sheet, Form A"
    scheme = listed(PDFS[SCHEME])
    assert scheme[0].startswith("Mark scheme: Sample, form A")
    assert [each for each in scheme if each.startswith("Question ")] == [
        f"Question {number_}: {question.key}" for number_, question in enumerate(QUESTIONS, 1)
    ]
    made = paper([card()], person="Ada")
    for name, content in paper_pdfs(made, made.forms[0], [card()]).items():
        assert "Ada" in listed(content)[0] or name == SCHEME, name


def test_in_large_print_a_test_stands_above_its_readings_and_heads_them():
    """Across the sheet: a column of its own would leave the others no room. What has no place keeps to one row."""
    content = paper_pdfs(SHEETED, SHEETED.forms[0], RECORDS, "large-print-24")["A-paper-large-print-24.pdf"]
    assert "Test Where Reading Device seen B6 End to end line 0.31 Ω neutral 0.30 Ω Polarity as it is" in words(content)
    across = [tag for tag in tags(content) if any(each.get_object().get("/ColSpan") == 2 for each in tag.get("/A", []))]
    assert [tag["/S"] for tag in across] == ["/TH"] * 3


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_checker_of_others_finds_every_document_to_be_as_pdf_ua_wants_it(variant):
    """By ISO 14289-1, as far as a program can tell; the checker is held to the corpus of the industry's own."""
    for name, content in paper_pdfs(SHEETED, SHEETED.forms[0], RECORDS, variant).items():
        told = validate_pdf_bytes(content, profile="ua1")
        assert told.rules.total > 100
        assert told.is_compliant, (name, [(each.rule_id, each.message) for each in told.failures])


def test_the_checker_finds_what_is_wrong():
    """Pictures without their words, and a document is no longer so."""
    spoilt, out = PdfWriter(clone_from=io.BytesIO(PDFS[SHEET])), io.BytesIO()
    for one in spoilt._objects:
        if isinstance(one, dict) and one.get("/S") == "/Figure":
            del one["/Alt"]
    spoilt.write(out)
    told = validate_pdf_bytes(out.getvalue(), profile="ua1")
    assert {each.rule_id for each in told.failures} == {"PDFUA1-FIGURE-ALTERNATIVE-TEXT-001"}


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_what_a_checker_of_tagged_documents_asks_for(name):
    """What ISO 14289-1 asks for and a program can check, besides the tests around."""
    read = PdfReader(io.BytesIO(PDFS[name]))
    root = read.trailer["/Root"]
    kinds = {"Document", "Div", "Sect", "P", "H1", "H2", "H3", "L", "LI", "Lbl", "LBody", "Table", "THead", "TBody"}
    kinds |= {"TR", "TH", "TD", "Figure", "Formula", "Span", "Strong", "Em", "Sub", "Sup", "Caption", "Artifact"}
    found = [str(tag["/S"])[1:] for tag in tags(PDFS[name])]
    roles = {str(key)[1:] for key in root["/StructTreeRoot"].get("/RoleMap", {})}
    assert set(found) <= kinds | roles, "only standard kinds, or such as are told apart by a role"
    for tag in tags(PDFS[name]):
        inner = {"/L": {"/LI", "/Caption", "/L"}, "/LI": {"/Lbl", "/LBody"}, "/TR": {"/TH", "/TD"}}.get(tag["/S"])
        below = tag.get("/K", [])
        below = [each.get_object() for each in (below if isinstance(below, list) else [below])]
        assert not inner or {each["/S"] for each in below if isinstance(each, dict) and "/S" in each} <= inner, tag[
            "/S"
        ]
    for page in read.pages:
        assert page.get("/Tabs", "/S") == "/S", "the order of the keyboard is that of the tags"
        assert "/StructParents" in page, "what is on it is found from the page"
    assert root["/StructTreeRoot"]["/ParentTree"]
    assert not root.get("/AcroForm")
    assert "/Encrypt" not in read.trailer


def test_a_page_of_large_print_is_filled_by_two_questions():
    many = [card(f"Question {'word ' * 20} number {seed}?") for seed in range(7)]
    made = paper(many)
    content = paper_pdfs(made, made.forms[0], many, "large-print-24")["A-paper-large-print-24.pdf"]
    lowest = []
    for page in PdfDocument(content):
        rows = page.render(scale=0.5).to_numpy().min(axis=(1, 2)) < 128
        low = rows[: int(len(rows) * 0.9)]  # above the foot
        lowest.append(low.nonzero()[0].max() / len(low))
    assert len(lowest) == 6, "two of a cover, then two questions, two, one of the next section, and two"
    assert min(lowest[2:4]) > 0.9, "one at the top and one at the foot"


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_running_text_stands_in_paragraphs(name):
    """A reader moves by paragraphs: text right under a part of the document, or in an option, is one."""
    inner = {"/Span", "/Strong", "/Em", "/Sub"}
    assert sum(tag["/S"] == "/P" for tag in tags(PDFS[name])) > len(QUESTIONS)
    for tag in tags(PDFS[name]):
        if tag["/S"] in ("/Document", "/Div", "/LBody", "/Sect"):
            under = tag.get("/K", [])
            below = [each.get_object() for each in (under if isinstance(under, list) else [under])]
            loose = [each["/S"] for each in below if isinstance(each, dict) and each.get("/S") in inner]
            assert not loose, (tag["/S"], loose)


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_a_paragraph_holds_words_and_no_part_of_a_document(name):
    """ISO 32000-1, 14.8.4.3: a paragraph is at the lowest level of blocks."""
    for tag in (tag for tag in tags(PDFS[name]) if re.fullmatch(r"/(P|H\d)", tag["/S"])):
        under = tag.get("/K", [])
        below = [each.get_object() for each in (under if isinstance(under, list) else [under])]
        kinds = {each["/S"] for each in below if isinstance(each, dict) and "/S" in each}
        assert kinds <= {"/Span", "/Strong", "/Em", "/Sub", "/Sup", "/Formula"}, kinds


def test_a_row_of_the_answer_sheet_is_a_paragraph_of_its_number_and_its_boxes():
    rows = [tag for tag in tags(PDFS[SHEET]) if tag["/S"] == "/P"][-len(QUESTIONS) :]
    for tag in rows:
        number_, *boxes = tag["/K"]
        assert number_.get_object()["/S"] == "/Strong"
        assert len(boxes) == 4


def test_labels_of_options_are_as_wide_as_the_font_has_them():
    font = TTFont(FONTS / "SourceSansPro-Bold.otf")
    letters, wide = font.getBestCmap(), font["hmtx"]
    assert {label: wide[letters[ord(label)]][0] / 1000 for label in LABEL_WIDTHS} == LABEL_WIDTHS
    assert font["head"].unitsPerEm == 1000


@pytest.mark.parametrize("variant", VARIANTS)
def test_how_to_mark_is_as_large_as_its_room_allows(variant):
    """Its scale is written down, so that it is not looked for on every sheet."""
    sizes = LOOKS[variant]._asdict()
    source = """#import "look.typ": dressed, look
    #import "sheet.typ": how, how-room, how-scale
    #set text(lang: "en", region: "GB")
    #show: dressed.with("how")
    #context [#metadata((how-scale, (1, 0.9, 0.8).find(scale => {
      measure(text(size: look.size * scale, how), width: 170mm).height <= how-room(json(bytes(sys.inputs.data)))
    })))<scales>]"""
    fonts = Fonts(include_system_fonts=False, font_paths=[str(FONTS)])
    sheet = {"look": variant, "sizes": sizes}
    made = Compiler(source.encode(), TEMPLATES, fonts, ignore_system_fonts=True, sys_inputs={"data": json.dumps(sheet)})
    written, found = json.loads(made.query("<scales>", field="value"))[0]
    assert written == found


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_all_text_is_tagged_or_marked_as_decoration(name):
    """Between marked-content brackets everywhere: text is never shown outside BDC/BMC ... EMC."""
    for page in PdfReader(io.BytesIO(PDFS[name])).pages:
        depth = 0
        for operands, operator in page.get_contents().operations:
            depth += {b"BDC": 1, b"BMC": 1, b"EMC": -1}.get(operator, 0)
            assert depth or operator not in (b"Tj", b"TJ", b"'", b'"'), operands


@pytest.mark.parametrize("name", [PAPER, SHEET, SCHEME])
def test_every_font_is_embedded(name):
    fonts = set()
    for page in PdfReader(io.BytesIO(PDFS[name])).pages:
        for font in page["/Resources"]["/Font"].values():
            for inner in font["/DescendantFonts"]:
                descriptor = inner.get_object()["/FontDescriptor"]
                assert {"/FontFile2", "/FontFile3"} & set(descriptor)
                fonts.add(descriptor["/FontName"].partition("+")[2].partition("-")[0])
    assert fonts <= {"SourceSansPro", "NewCMMath"}


def test_the_same_paper_gives_the_same_bytes_and_bears_its_own_day():
    again = paper_pdfs(SAMPLE, SAMPLE.forms[0], QUESTIONS)
    assert again == PDFS
    assert PdfReader(io.BytesIO(PDFS[PAPER])).metadata.creation_date.date() == date(2026, 11, 25)


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_variant_has_the_same_words_in_its_own_size(variant):
    pdfs = paper_pdfs(SAMPLE, SAMPLE.forms[0], QUESTIONS, variant)
    suffix = "" if variant == "standard" else f"-{variant}"
    assert list(pdfs) == [name.replace(".pdf", f"{suffix}.pdf") for name in PDFS]
    content = pdfs[f"A-paper{suffix}.pdf"]
    assert QUESTIONS[3].stem in words(content)
    sizes = sizes_of(content)
    assert max(sizes, key=sizes.get) == SIZES[variant]
    assert (CREAM in _drawn(content)) == (variant == "wide-spaced")


def sizes_of(content):
    """How many pieces of text a PDF shows in each size of letters, in points."""
    found = {}
    size = 0.0
    for page in PdfReader(io.BytesIO(content)).pages:
        for operands, operator in page.get_contents().operations:
            if operator == b"Tf":
                size = round(float(operands[1]), 2)
            elif operator in (b"Tj", b"TJ"):
                found[size] = found.get(size, 0) + 1
    return found


def _drawn(content):
    return PdfReader(io.BytesIO(content)).pages[0].get_contents().get_data()


def test_hostile_text_comes_out_as_it_was_written():
    questions = [card(HOSTILE, HOSTILE), sum_()]
    made = paper(questions, title=HOSTILE, person=HOSTILE)
    pdfs = paper_pdfs(made, made.forms[0], questions)
    for name, content in pdfs.items():
        assert PdfReader(io.BytesIO(content)).metadata.title.startswith(HOSTILE)
        assert words(content).count(HOSTILE) > (1 if name == SHEET else 2)
    assert f"Mistake: {HOSTILE}" in words(pdfs[SCHEME])


def test_hostile_figures_and_symbols_come_out_of_the_mathematics_as_written():
    question = sum_()
    figure = '12" #x $ \\ ) V'
    given = tuple(each._replace(text=figure) if each.name == "U" else each for each in question.given)
    working = tuple(each._replace(result='3") #panic("x")') for each in question.working)
    changed = question._replace(given=given, working=working)
    made = paper([changed])
    pdfs = paper_pdfs(made, made.forms[0], [changed])
    spaceless = words(pdfs[SCHEME]).replace(" ", "")
    assert figure.replace(" ", "") in spaceless
    assert '3")#panic("x")' in spaceless


def test_letters_that_no_font_draws_are_named_and_directions_are_not_turned():
    made = paper([card()], person="李 \u202eevil\u202c Zoë Łuk 😀\x00")
    text = words(paper_pdfs(made, made.forms[0], [card()])[PAPER])
    assert "Made for: [U+674E] evil Zoë Łuk [U+1F600]" in text


def test_a_typed_answer_gets_a_line_and_no_letters():
    made = paper([number()])
    pdfs = paper_pdfs(made, made.forms[0], [number()])
    assert "Answer" in words(pdfs[PAPER])
    assert f"Question 1: {number().key}" in words(pdfs[SCHEME])


def test_extra_time_is_rounded_up_to_a_whole_minute():
    made = paper([card()])._replace(minutes=75)
    times = candidate_words(made, made.forms[0], [card()], "standard")["times"]
    assert [each["minutes"] for each in times] == [75, 94, 113]


@pytest.mark.parametrize("variant", VARIANTS)
@pytest.mark.parametrize("questions", [1, 4, 15, 31, 60, 61])
def test_a_sheet_has_the_pages_that_its_codes_count_and_every_row(questions, variant):
    many = [card()] * questions
    made = paper(many)
    sheet = pdf("answer-sheet", sheet_words(made, made.forms[0], many, variant), date(2026, 11, 25))
    codes = sheet_words(made, made.forms[0], many, variant)["pages"]
    assert len(PdfReader(io.BytesIO(sheet)).pages) == len(codes)
    assert len({each["svg"] for each in codes}) == len(codes)
    text = words(sheet)
    assert all(f"{number} A B C D" in text for number in range(1, questions + 1))


def test_long_names_and_titles_press_no_box_off_its_place():
    made = paper([card()] * 60, title="Wiring " * 60, person="Maximiliane " * 12)
    sheet = paper_pdfs(made, made.forms[0], [card()] * 60)["A-answer-sheet.pdf"]
    assert len(PdfReader(io.BytesIO(sheet)).pages) == 1
    assert words(sheet).count("Maximiliane") == 12


def test_what_one_person_alone_has_bears_a_number_and_no_letter():
    made = paper([card()], person="Ada")
    form = made.forms[0]._replace(serial="7K3MX")
    for name, content in paper_pdfs(made._replace(forms=(form,)), form, [card()]).items():
        assert "Paper 7K3MX" in words(content).replace("paper 7K3MX", "Paper 7K3MX"), name
        assert "Form A" not in words(content)
