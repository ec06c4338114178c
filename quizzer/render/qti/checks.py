"""What no schema sees in a QTI package: names that point nowhere, keys that are no choice, files nobody lists."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping

MANIFEST = "imsmanifest.xml"
_IDENTIFIER = re.compile(r"[A-Za-z_][A-Za-z0-9_.-]*")


def faults_in(files: Mapping[str, bytes]) -> list[str]:
    """Every fault of a package's files, as `file: what`; [] for a sound one. Both versions of QTI are read."""
    roots: dict[str, ET.Element] = {}
    found = []
    for name, content in files.items():
        try:
            content.decode("utf-8")
            roots[name] = ET.fromstring(content)  # noqa: S314  a package we wrote a moment ago
        except (UnicodeDecodeError, ET.ParseError) as error:
            found.append(f"{name}: cannot be read ({error})")
    if MANIFEST not in roots:
        return [*found, f"{MANIFEST}: missing"]
    found += _listing(roots[MANIFEST], set(files))
    for name, root in roots.items():
        found += [f"{name}: {fault}" for fault in _document(root)]
    return found


def _listing(manifest: ET.Element, files: set[str]) -> list[str]:
    resources = [each for each in manifest.iter() if _name(each) == "resource"]
    ids = {each.get("identifier") for each in resources}
    hrefs = [each.get("href", "") for each in manifest.iter() if _name(each) == "file"]
    wanted = [each.get("identifierref") for each in manifest.iter() if _name(each) == "dependency"]
    listed = set(hrefs)
    faults = [f"{href} is listed and not there" for href in sorted(listed - files)]
    faults += [f"{file} is there and not listed" for file in sorted(files - listed - {MANIFEST})]
    faults += [f"{href} is not inside the package" for href in hrefs if _outside(href)]
    faults += [f"{each.get('href')} is no file of its resource" for each in resources if not _own_file(each)]
    faults += [f"depends on {each}, which is no resource" for each in wanted if each not in ids]
    faults += [f"{id} is depended on by nothing" for id in sorted(_items(resources) - set(wanted))]
    return [f"{MANIFEST}: {fault}" for fault in faults]


def _outside(href: str) -> bool:
    return href.startswith("/") or ":" in href or "\\" in href or ".." in href.split("/")


def _own_file(resource: ET.Element) -> bool:
    return resource.get("href") in [each.get("href") for each in resource]


def _items(resources: list[ET.Element]) -> set[str]:
    return {each.get("identifier", "") for each in resources if "item" in each.get("type", "")}


def _document(root: ET.Element) -> Iterator[str]:
    # ids are unique inside a document, but a feedback may share a choice's, and a variable is named wherever it is used
    for kind in ("resource", "simplechoice", "modalfeedback", "assessmentitemref", "assessmentsection", "declaration"):
        ids = [each.get("identifier", "") for each in root.iter() if _name(each).endswith(kind)]
        yield from (f"{id} names two things ({kind})" for id in sorted({id for id in ids if ids.count(id) > 1}))
        yield from (f"{id!r} is no identifier" for id in ids if not _IDENTIFIER.fullmatch(id))
    if _name(root) == "assessmentitem":
        yield from _item(root)


def _item(root: ET.Element) -> Iterator[str]:
    declared = {each.get("identifier") for each in root if _name(each).endswith("declaration")}
    bound = [value for each in root.iter() if (value := _get(each, "responseidentifier"))]
    used = [each.get("identifier") for each in root.iter() if _name(each) in ("variable", "correct", "setoutcomevalue")]
    shown = [value for each in root.iter() if (value := _get(each, "outcomeidentifier"))]
    yield from (f"{name} is used and not declared" for name in [*bound, *used, *shown] if name not in declared)
    if not bound:
        yield "asks for no response"
    choices = {each.get("identifier") for each in root.iter() if _name(each) == "simplechoice"}
    if choices:
        keys = [each.text for part in root.iter() if _name(part) == "correctresponse" for each in part]
        yield from (f"the key {key} is no choice" for key in keys if key not in choices)
        # feedback on an answer is found by the answer; another outcome's (a solution) by what that is set to
        answers = _set_to_a_variable(root)
        told = {
            each.get("identifier")
            for each in root
            if _name(each) == "modalfeedback" and _get(each, "outcomeidentifier") in answers
        }
        yield from (f"feedback {id} belongs to no choice" for id in sorted(filter(None, told - choices)))


def _set_to_a_variable(root: ET.Element) -> set[str | None]:
    """The outcomes that are set to what was answered."""
    sets = [each for each in root.iter() if _name(each) == "setoutcomevalue"]
    return {each.get("identifier") for each in sets if any(_name(part) == "variable" for part in each)}


def _name(element: ET.Element) -> str:
    """An element's name without namespace, prefix, hyphens and capitals: the same in both versions."""
    return element.tag.rpartition("}")[2].removeprefix("qti-").replace("-", "").lower()


def _get(element: ET.Element, attribute: str) -> str | None:
    return next((value for key, value in element.items() if key.replace("-", "").lower() == attribute), None)
