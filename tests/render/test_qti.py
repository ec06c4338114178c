"""QTI packages: valid by our schemas, sound by our checks, and marking as the mark scheme does.

`QUIZZER_QTI_SCHEMAS` names a folder of the consortium's own schemas (their licence keeps them out of here); with it,
every document is held to those too: `imsqti_v2p2.xsd` for 2.2 and `imsqti_asiv3p0_v1p0.xsd` for 3.0, found anywhere
below the folder.
"""

import io
import os
import re
import zipfile
from pathlib import Path

import pytest
from lxml import etree

from quizzer.errors import Refused
from quizzer.expression.reading import read
from quizzer.expression.typeset import mathml
from quizzer.question.making import make
from quizzer.render.qti import package as qti
from quizzer.render.qti.checks import faults_in
from quizzer.render.qti.dialects import DIALECTS, QTI3, QTI22
from quizzer.render.qti.package import qti_package
from tests.banktext import ORDER, entry
from tests.render.forms import HOSTILE, card, number, paper, sum_
from tests.shippedbank import SHELF

SCHEMAS = Path(qti.__file__).parent / "schemas"
RULES = {name: etree.RelaxNG(etree.parse(SCHEMAS / f"{name}.rng")) for name in ("qti22", "qti3")}
LISTS = {"qti22": "manifest22", "qti3": "manifest3"}
OFFICIAL = {"qti22": "imsqti_v2p2*.xsd", "qti3": "imsqti_asiv3p0*.xsd"}
VERSIONS = list(DIALECTS)

# The smallest item of 3.0, as the standard's own guide shapes it: the schema must know it, whoever wrote it.
SMALLEST = """
<qti-assessment-item xmlns="http://www.imsglobal.org/xsd/imsqtiasi_v3p0" identifier="WR-0001" title="Resistance"
    adaptive="false" time-dependent="false" xml:lang="en-GB">
  <qti-response-declaration identifier="RESPONSE" cardinality="single" base-type="identifier">
    <qti-correct-response><qti-value>B</qti-value></qti-correct-response>
  </qti-response-declaration>
  <qti-outcome-declaration identifier="SCORE" cardinality="single" base-type="float">
    <qti-default-value><qti-value>0</qti-value></qti-default-value>
  </qti-outcome-declaration>
  <qti-item-body>
    <qti-choice-interaction response-identifier="RESPONSE" shuffle="false" max-choices="1">
      <qti-prompt>Which unit measures electrical resistance?</qti-prompt>
      <qti-simple-choice identifier="A">ampere</qti-simple-choice>
      <qti-simple-choice identifier="B">ohm</qti-simple-choice>
    </qti-choice-interaction>
  </qti-item-body>
  <qti-response-processing template="https://purl.imsglobal.org/spec/qti/v3p0/rptemplates/match_correct.xml"/>
</qti-assessment-item>"""


def files(version, questions, **more):
    """The files of a package, by name."""
    made = paper(questions, **more)
    package = zipfile.ZipFile(io.BytesIO(qti_package(made, made.forms[0], questions, version)))
    assert package.testzip() is None
    return {name: package.read(name) for name in package.namelist()}


def circuit():
    """A question with a record sheet in its stem."""
    return make(SHELF.find("faults/diagnosis/radial-places"), 1)


def held(version, name, content):
    """What our schema says against a document; "" when it is valid."""
    rules = etree.RelaxNG(etree.parse(SCHEMAS / f"{LISTS[version]}.rng")) if "manifest" in name else RULES[version]
    rules.validate(etree.fromstring(content))
    return str(rules.error_log)


@pytest.mark.parametrize("version", VERSIONS)
def test_every_document_is_valid_by_our_schema(version):
    made = files(version, [card(), sum_(), number(), card(HOSTILE, HOSTILE), circuit()])
    assert list(made)[:2] == ["imsmanifest.xml", "test.xml"]
    documents = {name: content for name, content in made.items() if name.endswith(".xml")}
    assert len(documents) == 7
    assert [name.rpartition(".")[2] for name in made if name not in documents] == ["svg"]
    assert {name: held(version, name, content) for name, content in documents.items()} == dict.fromkeys(documents, "")
    assert faults_in(made) == []


@pytest.mark.parametrize("version", VERSIONS)
def test_an_item_names_its_language_and_a_test_may_not(version):
    """By the official schema of 2.2 (imsqti_v2p2) xml:lang belongs to assessmentItem, not to assessmentTest."""
    made = files(version, [card()])
    lang = "{http://www.w3.org/XML/1998/namespace}lang"
    assert etree.fromstring(made["items/Q001.xml"]).get(lang) == "en-GB"
    test = etree.fromstring(made["test.xml"])
    assert test.get(lang) is None
    test.set(lang, "en-GB")
    assert "lang" in held(version, "test.xml", etree.tostring(test))


@pytest.mark.parametrize("version", VERSIONS)
def test_a_record_sheet_is_a_table_before_the_options(version):
    question = circuit()
    body = etree.fromstring(files(version, [question])["items/Q001.xml"]).find(
        f"{{*}}{DIALECTS[version].tag('itemBody')}"
    )
    asked = DIALECTS[version].tag("choiceInteraction")
    assert [etree.QName(each).localname for each in body][-3:] == ["p", "table", asked]
    table = body[-2]
    assert ["".join(row.itertext()).split() for row in table.iterfind(".//{*}tbody/{*}tr")] == [
        " ".join(row).split() for row in question.sheet.table.rows
    ]


@pytest.mark.skipif("QUIZZER_QTI_SCHEMAS" not in os.environ, reason="QUIZZER_QTI_SCHEMAS names no folder of schemas")
@pytest.mark.parametrize("version", VERSIONS)
def test_every_document_is_valid_by_the_official_schema(version):
    folder = Path(os.environ["QUIZZER_QTI_SCHEMAS"])
    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(_Local(folder))
    (path,) = sorted(folder.rglob(OFFICIAL[version]))[:1]
    rules = etree.XMLSchema(etree.parse(path, parser))
    for name, content in files(version, [card(), sum_(), number()]).items():
        if "manifest" not in name:
            rules.validate(etree.fromstring(content))
            assert str(rules.error_log) == "", name


class _Local(etree.Resolver):
    """Whatever a schema imports by its address is taken from the folder, by its file name."""

    def __init__(self, folder):
        self.folder = folder

    def resolve(self, url, _public, context):
        found = sorted(self.folder.rglob(url.rpartition("/")[2]))
        return self.resolve_filename(str(found[0]), context) if found else None


def test_the_smallest_item_of_the_standard_is_valid():
    assert held("qti3", "item", SMALLEST) == ""


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (' title="Resistance"', ""),
        ('time-dependent="false"', ""),
        ('time-dependent="false"', 'timeDependent="false"'),
        ("response-identifier", "response-identifer"),
        ('cardinality="single"', 'cardinality="some"'),
        ('identifier="WR-0001"', 'identifier="1WR"'),
        ("qti-prompt", "qti-hint"),
        ("qti-prompt", "prompt"),
        ('<qti-simple-choice identifier="A">ampere</qti-simple-choice>', ""),
    ],
)
def test_what_is_not_of_the_standard_is_found_by_the_schema(before, after):
    assert before in SMALLEST
    assert held("qti3", "item", SMALLEST.replace(before, after)) != ""


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize(
    ("file", "before", "after", "words"),
    [
        ("items/Q001.xml", r"(value>)[ABCD](</)", r"\1Z\2", "the key Z is no choice"),
        ("items/Q001.xml", r'(imple-?[cC]hoice identifier=)"B"', r'\1"A"', "A names two things"),
        ("items/Q001.xml", r'(-?[iI]nteraction response-?[iI]dentifier=)"RESPONSE"', r'\1"R"', "R is used and"),
        ("items/Q001.xml", r'(outcome-?[iI]dentifier="FEEDBACK" identifier=)"B"', r'\1"Z"', "feedback Z"),
        ("imsmanifest.xml", r'<file href="items/Q002.xml" />', "", "items/Q002.xml is there and not listed"),
        ("imsmanifest.xml", r"items/Q002.xml", "items/Q009.xml", "items/Q009.xml is listed and not there"),
        ("imsmanifest.xml", r'href="test.xml"', 'href="/test.xml"', "/test.xml is not inside the package"),
        ("imsmanifest.xml", r'identifierref="Q001"', 'identifierref="Q7"', "depends on Q7, which is no resource"),
        ("imsmanifest.xml", r'<dependency identifierref="Q001" />', "", "Q001 is depended on by nothing"),
        ("items/Q001.xml", r"UTF-8|utf-8", "utf-16", "cannot be read"),
        ("test.xml", r'identifier="Q002"', 'identifier="Q001"', "Q001 names two things"),
    ],
)
def test_what_no_schema_sees_is_found(version, file, before, after, words):
    made = files(version, [card(), card()])
    text = made[file].decode()
    changed = re.sub(before, after, text, count=0 if "href" in before or "Q002" in before else 1)
    assert changed != text
    assert any(words in fault for fault in faults_in(made | {file: changed.encode()}))


def test_a_package_without_a_manifest_is_found():
    assert faults_in({}) == ["imsmanifest.xml: missing"]


@pytest.mark.parametrize("version", ["qti22", "qti3"])
def test_the_lines_of_a_record_sheet_stay_lines(version):
    item = files(version, [card("Readings:\nsocket 1 0.2 Ω.\nWhich fault?")])["items/Q001.xml"].decode()
    assert re.search(r"Readings:<br ?/>socket 1 0.2 Ω.<br ?/>Which fault\?", item), item


@pytest.mark.parametrize("dialect", [QTI22, QTI3])
def test_an_item_holds_the_question_its_key_and_a_word_on_every_option(dialect):
    question = sum_()
    root = etree.fromstring(files(dialect.name, [question])["items/Q001.xml"])
    names = {"q": dialect.items, "m": "http://www.w3.org/1998/Math/MathML"}

    def texts(path):
        tags = re.sub(r"\b([a-z][A-Za-z]+)\b", lambda found: f"q:{dialect.tag(found[1])}", path)
        return ["".join(each.itertext()).strip() for each in root.iterfind(f".//{tags}", names)]

    assert texts("prompt") == [question.stem]
    assert texts("simpleChoice") == [option.text for option in question.options]
    assert texts("correctResponse/value") == [question.key]
    *told, solution = texts("modalFeedback")
    for option, said in zip(question.options, told, strict=True):
        assert said == ("Right." if option.slip is None else f"Wrong. {option.why}")
    assert question.head.source in solution
    assert question.working[0].result in solution
    maths = root.find(".//m:math", names)
    one, two = (each.text for each in question.given if each.name in {"R_1", "R_2"})
    spoken = f"R equals R 1 plus R 2, equals {one} + {two}, equals {question.working[0].result}"
    assert maths.get("alttext") == spoken
    printed = f"R=R1+R2={one}+{two}={question.working[0].result}".replace(" ", "")
    assert "".join("".join(maths.itertext()).split()) == printed


@pytest.mark.parametrize("version", VERSIONS)
def test_a_number_is_right_within_its_tolerance_and_known_mistakes_are_told(version):
    question = number()
    text = files(version, [question])["items/Q001.xml"].decode()
    bounds = [tuple(map(float, found)) for found in re.findall(r'olerance="(\S+) (\S+)"', text)]
    assert bounds[0] == pytest.approx((question.answer.tolerance,) * 2)
    assert len(bounds) == 1 + len(question.diagnoses)
    for at, each in enumerate(question.diagnoses, 1):
        assert re.search(
            rf'identifier="MISTAKE-{at}" show-?[hH]ide="show">\s*(?:<qti-content-body>)?\s*<p>Wrong. ', text
        )
        assert repr(each.value) in text
    assert f"/> {question.answer.text.partition(' ')[2]}</p>" in text


def test_hostile_text_is_text_in_every_document():
    for version in VERSIONS:
        made = files(version, [card(HOSTILE, HOSTILE)], title=f"{HOSTILE} \x00\x0b]]> -- -->")
        item = etree.fromstring(made["items/Q001.xml"])
        said = ["".join(each.itertext()) for each in item.iter() if isinstance(each.tag, str)]
        assert HOSTILE in said
        assert f"Wrong. {HOSTILE}" in said
        assert etree.fromstring(made["test.xml"]).get("title") == f"{HOSTILE} ]]> -- -->, form A"


def test_a_hostile_name_of_a_paper_stays_in_its_comment():
    made = paper([card()])._replace(id="a-->--<x/>\x00")
    content = qti_package(made, made.forms[0], [card()], "qti3")
    assert held("qti3", "imsmanifest.xml", zipfile.ZipFile(io.BytesIO(content)).read("imsmanifest.xml")) == ""


def test_the_same_form_gives_the_same_bytes():
    made = paper([card(), sum_()])
    one, other = (qti_package(made, made.forms[0], [card(), sum_()], "qti22") for _ in range(2))
    assert one == other


def test_steps_to_put_in_order_are_refused_by_name():
    question = make(entry(ORDER), 1)
    with pytest.raises(Refused, match=question.name):
        files("qti22", [question])


@pytest.mark.parametrize("dialect", [QTI22, QTI3])
def test_the_solution_is_told_once_whatever_was_answered(dialect):
    question = sum_()
    root = etree.fromstring(files(dialect.name, [question])["items/Q001.xml"])
    name, outcome = dialect.tag("modalFeedback"), dialect.attribute("outcomeIdentifier")
    modal = [each for each in root if etree.QName(each).localname == name]
    assert [each.get(outcome) for each in modal] == ["FEEDBACK"] * 4 + ["SOLUTION"]
    (processing,) = [each for each in root if etree.QName(each).localname == dialect.tag("responseProcessing")]
    last = processing[-1]
    assert (last.get("identifier"), "".join(last.itertext()).strip()) == ("SOLUTION", "SHOWN")
    assert etree.tostring(root).count(b"<math") == len(question.working)


def passed(root, dialect, scores):
    """What the rules of a test make of the scores of its items: an evaluation of the XML alone, by the standard.

    1EdTech QTI 2.2, 15.3: `testVariables` gathers the variable of the items, of one section where it says so.
    """

    def name(each):
        return etree.QName(each).localname

    sections = {
        each.get("identifier"): [ref.get("identifier") for ref in each if name(ref) == dialect.tag("assessmentItemRef")]
        for each in root.iter(f"{{{dialect.items}}}{dialect.tag('assessmentSection')}")
    }

    def value(node):
        parts = [value(each) for each in node]
        match name(node).removeprefix("qti-").replace("-", "").lower():
            case "and":
                return all(parts)
            case "gte":
                return parts[0] >= parts[1]
            case "sum":
                return parts[0]
            case "basevalue":
                return float(node.text)
            case "testvariables":
                section = node.get(dialect.attribute("sectionIdentifier"))
                return sum(scores[id] for each in ([section] if section else sections) for id in sections[each])
        raise AssertionError(node.tag)

    (rule,) = [each for each in root.iter() if each.get("identifier") == "PASSED" and len(each) and "set" in name(each)]
    return value(rule[0])


@pytest.mark.parametrize("dialect", [QTI22, QTI3])
@pytest.mark.parametrize(
    ("right", "wanted"), [("1111", True), ("0111", True), ("1110", False), ("1101", False), ("0011", False)]
)
def test_a_test_is_passed_by_the_rules_of_the_paper(dialect, right, wanted):
    """Four questions, pass mark three, the second section (the last two) all right."""
    root = etree.fromstring(files(dialect.name, [card(), card(), card(), card()])["test.xml"])
    scores = {f"Q{at:03d}": int(mark) for at, mark in enumerate(right, 1)}
    assert passed(root, dialect, scores) is wanted


@pytest.mark.parametrize("dialect", [QTI22, QTI3])
def test_a_test_carries_mark_time_rules_aids_and_when_feedback_shows(dialect):
    root = etree.fromstring(files(dialect.name, [card(), card(), card()])["test.xml"])
    text = etree.tostring(root).decode()
    assert f'{dialect.attribute("masteryValue")}="3.0"' in text
    assert f'{dialect.attribute("normalMaximum")}="3.0"' in text
    assert f'{dialect.attribute("showFeedback")}="true"' in text
    (first, second) = root.iterfind(f".//{{{dialect.items}}}{dialect.tag('rubricBlock')}")
    said = " ".join("".join(first.itertext()).split())
    assert said.endswith("3 questions in 50 minutes. Pass mark: 3 of 3. Permitted: a ruler.")
    assert "".join(second.itertext()).strip() == "Every answer in this section must be right to pass."


def test_a_minus_is_a_minus_in_mathematics():
    assert mathml(read("-a - b")).count("<mo>\N{MINUS SIGN}</mo>") == 2
