"""A form as a QTI package: a manifest, a test and an item a question. Valid by our own schema, not certified."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
import zipfile
from collections.abc import Mapping, Sequence

from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.render.qti.assessment import assessment, item_file
from quizzer.render.qti.checks import faults_in
from quizzer.render.qti.dialects import DIALECTS, Dialect, clean, written
from quizzer.render.qti.items import item, picture_file
from quizzer.render.svg.pictures import picture_svg

MANIFEST, TEST = "imsmanifest.xml", "test.xml"
_THEN = (1980, 1, 1, 0, 0, 0)  # the earliest a zip knows: the same package has the same bytes


def qti_package(paper: Paper, form: Form, questions: Sequence[Question], version: str) -> bytes:
    """The package of a form in `version` qti22 or qti3. Raises Refused for a question that has no item."""
    dialect = DIALECTS[version]
    identifiers = [f"Q{number:03d}" for number in range(1, len(questions) + 1)]
    own = {id: picture_file(question) for id, question in zip(identifiers, questions, strict=True)}
    files = {MANIFEST: _manifest(dialect, paper, form, own), TEST: assessment(dialect, paper, form, identifiers)}
    files |= {item_file(id): item(dialect, id, question) for id, question in zip(identifiers, questions, strict=True)}
    texts = {name: written(root) for name, root in files.items()}
    texts |= {picture_file(each): picture_svg(each.picture).encode() for each in questions if each.picture}
    if faults := faults_in(texts):
        raise AssertionError(faults)  # a fault here is ours: no bank and no paper can cause it
    return _zipped(texts)


def _zipped(files: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name, _THEN)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3  # the same on every system
            package.writestr(entry, content)
    return out.getvalue()


def _manifest(dialect: Dialect, paper: Paper, form: Form, pictures: Mapping[str, str]) -> ET.Element:
    """What the package holds; `pictures` has the file of each item's picture, "" where it has none."""
    root = ET.Element("manifest", {"xmlns": dialect.manifest, "identifier": "MANIFEST"})
    metadata = ET.SubElement(root, "metadata")
    ET.SubElement(metadata, "schema").text = dialect.package
    ET.SubElement(metadata, "schemaversion").text = dialect.version
    ET.SubElement(root, "organizations")
    resources = ET.SubElement(root, "resources")
    # the record's id is for a person who opens the file; the platform goes by the identifiers
    root.append(ET.Comment(clean(f" {paper.id}/{form.serial} ").replace("--", "- -")))
    test = _resource(resources, "TEST", dialect.test_type, TEST)
    for identifier, picture in pictures.items():
        ET.SubElement(test, "dependency", {"identifierref": identifier})
        found = _resource(resources, identifier, dialect.item_type, item_file(identifier))
        if picture:
            ET.SubElement(found, "file", {"href": picture})
    return root


def _resource(resources: ET.Element, identifier: str, kind: str, href: str) -> ET.Element:
    found = ET.SubElement(resources, "resource", {"identifier": identifier, "type": kind, "href": href})
    ET.SubElement(found, "file", {"href": href})
    return found
