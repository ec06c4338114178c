"""Zip files and workbooks that mean harm: nothing of them is unpacked beyond its bounds, and no entity is looked up."""

import io
import re
import struct
import zipfile

import openpyxl
import pytest

from quizzer.bankfiles.sheet import NoTable
from quizzer.bankfiles.sheets import read_sheets
from quizzer.bankfiles.workbooks import sheets_of
from quizzer.bankfiles.zips import MOST_BYTES, MOST_FILES, Unsafe, safe_contents


def zipped(*files):
    """A zip of these names and contents."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in files:
            package.writestr(name, content)
    return out.getvalue()


def book(rows):
    """A workbook's bytes."""
    made, out = openpyxl.Workbook(), io.BytesIO()
    for row in rows:
        made.active.append(row)
    made.save(out)
    return out.getvalue()


def with_part(content, name, change):
    """A workbook with one of its files changed."""
    files = {
        one: zipfile.ZipFile(io.BytesIO(content)).read(one) for one in zipfile.ZipFile(io.BytesIO(content)).namelist()
    }
    assert name in files
    return zipped(*{**files, name: change(files[name])}.items())


def test_what_is_sound_is_read():
    assert safe_contents(zipped(("a.xml", "<a/>"), ("b/c.xml", "<c/>"))) == {"a.xml": b"<a/>", "b/c.xml": b"<c/>"}


@pytest.mark.parametrize(
    ("files", "why"),
    [
        ([("../a.xml", "")], "leads out of its folder"),
        ([("/etc/a.xml", "")], "leads out of its folder"),
        ([("c:a.xml", "")], "leads out of its folder"),
        ([("a.xml", b"\x00" * (MOST_BYTES + 1))], "unpacks to more than"),
        ([(f"{number}.xml", "") for number in range(MOST_FILES + 1)], "unpacks to more than"),
        ([("a.xml", '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]><a>&b;</a>')], "declares a document type"),
        ([("a.xml", "<!doctype a><a/>".encode("utf-16"))], "declares a document type"),
    ],
)
def test_what_means_harm_is_refused(files, why):
    with pytest.raises(Unsafe, match=re.escape(why)):
        safe_contents(zipped(*files))


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_stands_twice_is_refused():
    with pytest.raises(Unsafe, match=r"holds 'a\.xml' twice"):
        safe_contents(zipped(("a.xml", "1"), ("a.xml", "2")))


def test_a_size_that_lies_unpacks_no_more_than_it_says():
    content = zipped(("a.xml", b"\x00" * 5_000_000))
    lying = content.replace(struct.pack("<L", 5_000_000), struct.pack("<L", 10))
    assert lying != content
    with pytest.raises(Unsafe, match="damaged"):
        safe_contents(lying)


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"PK\x05\x06" + bytes(10), zipped(("a.xml", "<a/>"))[:-4]])
def test_a_damaged_zip_is_refused(content):
    with pytest.raises(Unsafe, match="damaged"):
        safe_contents(content)


def test_a_workbook_with_entities_is_not_opened(tmp_path):
    laughs = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]>'
    sheet = "xl/worksheets/sheet1.xml"
    path = tmp_path / "a.xlsx"
    path.write_bytes(with_part(book([["name"], ["Ada"]]), sheet, lambda text: laughs + text))
    with pytest.raises(Unsafe, match="declares a document type"):
        read_sheets(path)


def test_a_part_of_a_workbook_that_hides_its_kind_is_not_opened():
    content = book([["name"], ["Ada"]])
    files = {
        one: zipfile.ZipFile(io.BytesIO(content)).read(one) for one in zipfile.ZipFile(io.BytesIO(content)).namelist()
    }
    hidden = {
        name.replace("sheet1.xml", "sheet1.dat"): text.replace(b"sheet1.xml", b"sheet1.dat")
        for name, text in files.items()
    }
    assert [sheet.lines[1].cells for sheet in sheets_of(zipped(*hidden.items()))] == [("Ada",)]
    part = "xl/worksheets/sheet1.dat"
    hidden[part] = b'<!DOCTYPE x [<!ENTITY a "aaaa">]>' + hidden[part]
    with pytest.raises(Unsafe, match="declares a document type"):
        sheets_of(zipped(*hidden.items()))


def test_a_workbook_without_a_sheet_or_with_broken_xml_is_one_sentence():
    for part in ("xl/workbook.xml", "xl/worksheets/sheet1.xml"):
        with pytest.raises(NoTable, match="this workbook cannot be read"):
            sheets_of(with_part(book([["name"]]), part, lambda text: text[:-20]))
    with pytest.raises(NoTable, match="this workbook cannot be read"):
        sheets_of(zipped(("a.txt", "no workbook")))


def test_a_cell_at_the_end_of_the_world_is_refused():
    def far(text):
        return text.replace(b'r="2"', b'r="1048576"').replace(b'"A2"', b'"A1048576"')

    with pytest.raises(NoTable, match="more than 50,000 rows"):
        sheets_of(with_part(book([["name"], ["Ada"]]), "xl/worksheets/sheet1.xml", far))
    wide = book([["name"] * 501])
    with pytest.raises(NoTable, match="or 500 columns"):
        sheets_of(wide)
