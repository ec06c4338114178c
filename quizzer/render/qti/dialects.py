"""The two versions of QTI that we write: one tree, named as each version names things (1EdTech QTI 2.2 and 3.0)."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Mapping
from typing import NamedTuple

from quizzer.blocks.text import DataTable, spans
from quizzer.expression.subscripts import subscripted

MATHML = "http://www.w3.org/1998/Math/MathML"
# What XML 1.0 (section 2.2) cannot hold at all, escaped or not.
_BARRED = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Dialect(NamedTuple):
    """A version: its namespaces, and what its manifest calls a package, a test and an item. `hyphens`: 3.0's names."""

    name: str
    hyphens: bool
    items: str
    manifest: str
    package: str
    version: str
    test_type: str
    item_type: str

    def tag(self, name: str) -> str:
        """An element's name, given as 2.2 writes it.

        >>> QTI3.tag("choiceInteraction"), QTI22.tag("choiceInteraction")
        ('qti-choice-interaction', 'choiceInteraction')
        """
        return f"qti-{_hyphened(name)}" if self.hyphens else name

    def attribute(self, name: str) -> str:
        """An attribute's name, given as 2.2 writes it."""
        return _hyphened(name) if self.hyphens and ":" not in name else name


QTI22 = Dialect(
    "qti22",
    False,
    "http://www.imsglobal.org/xsd/imsqti_v2p2",
    "http://www.imsglobal.org/xsd/imscp_v1p1",
    "QTIv2.2 Package",
    "1.0.0",
    "imsqti_test_xmlv2p2",
    "imsqti_item_xmlv2p2",
)
QTI3 = Dialect(
    "qti3",
    True,
    "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
    "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
    "QTI Package",
    "3.0.0",
    "imsqti_test_xmlv3p0",
    "imsqti_item_xmlv3p0",
)
DIALECTS = {dialect.name: dialect for dialect in (QTI22, QTI3)}


class Writer:
    """Puts elements of one dialect under each other."""

    def __init__(self, dialect: Dialect) -> None:
        self.dialect = dialect

    def root(self, name: str, **attributes: str) -> ET.Element:
        """The outermost element, in the dialect's namespace."""
        return ET.Element(self.dialect.tag(name), {"xmlns": self.dialect.items, **self._named(attributes)})

    def put(self, parent: ET.Element, name: str, text: str = "", **attributes: str) -> ET.Element:
        """A new QTI element under `parent`."""
        found = ET.SubElement(parent, self.dialect.tag(name), self._named(attributes))
        found.text = clean(text) or None
        return found

    def body(self, parent: ET.Element) -> ET.Element:
        """Where the words of feedback or a rubric go: 3.0 wants an element around them."""
        return self.put(parent, "contentBody") if self.dialect.hyphens else parent

    def _named(self, attributes: Mapping[str, str]) -> dict[str, str]:
        return {self.dialect.attribute(name): clean(value) for name, value in attributes.items()}


def paragraph(parent: ET.Element, text: str, kind: str = "") -> ET.Element:
    """A paragraph, of a class where that says what it is; HTML's names are the same in both versions."""
    found = ET.SubElement(parent, "p", {"class": kind} if kind else {})
    lined(found, text)
    return found


def tabled(parent: ET.Element, table: DataTable) -> None:
    """A table as HTML names it: a head, and a body for each first cell with all the rows that it stands for."""
    found = ET.SubElement(parent, "table")
    heads = ET.SubElement(ET.SubElement(found, "thead"), "tr")
    for head in table.heads:
        ET.SubElement(heads, "th", scope="col").text = clean(head)
    body = found
    for (first, *rest), many in zip(table.rows, spans(table), strict=True):
        body = ET.SubElement(found, "tbody") if many else body
        row = ET.SubElement(body, "tr")
        if many:
            several = {"scope": "rowgroup", "rowspan": str(many)} if many > 1 else {"scope": "row"}
            lined(ET.SubElement(row, "th", several), first)
        for cell in rest:
            lined(ET.SubElement(row, "td"), cell)


_BREAK, _SUB = "\ue000", "\ue001"  # of the area for private use: marks within this file alone


def lined(parent: ET.Element, text: str) -> None:
    """The text inside `parent`, symbols with their subscripts, and a `br` where a line ends.

    Platforms run lines together otherwise.
    """
    bare = clean(text).replace(_BREAK, "").replace(_SUB, "").replace("\n", f"{_BREAK}br{_BREAK}")
    marked = subscripted(bare, lambda base, sub: f"{base}{_BREAK}{_SUB}{sub}{_BREAK}")
    first, *others = marked.split(_BREAK)
    parent.text = first
    for mark, tail in zip(others[::2], others[1::2], strict=True):
        child = ET.SubElement(parent, "sub" if mark.startswith(_SUB) else "br")
        child.text, child.tail = mark.partition(_SUB)[2] or None, tail


def clean(text: str) -> str:
    """The text without what XML cannot hold."""
    return _BARRED.sub("", text)


def written(root: ET.Element) -> bytes:
    """The document in UTF-8."""
    ET.indent(root)
    return bytes(ET.tostring(root, encoding="utf-8", xml_declaration=True))


def _hyphened(name: str) -> str:
    return re.sub(r"([A-Z])", lambda found: f"-{found[1].lower()}", name)
