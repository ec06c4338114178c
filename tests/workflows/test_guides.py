import pytest

from quizzer.blocks.page import Page
from quizzer.blocks.text import DataTable, Gap, Heading, Listing, Paragraph, Points
from quizzer.errors import NotFound
from quizzer.workflows.bank.guides import GUIDES, guide, page_of

MARKDOWN = """
# A guide

Some *words* and a
[link](https://example.org), `a_b * c *d* <e>`, 2 * 3 * 4.

## Part

- one **thing**
- another

1. first

| a | b |
|---|---|
| 1 | `x` |

```console
$ quizzer study
printed
```
"""


def test_markdown_becomes_blocks():
    assert page_of(MARKDOWN) == Page(
        "A guide",
        (
            Paragraph("Some words and a link, `a_b * c *d* <e>`, 2 * 3 * 4."),
            Gap(),
            Heading("Part", 2),
            Points(("one thing", "another")),
            Gap(),
            Points(("first",), ordered=True),
            Gap(),
            DataTable("", ["a", "b"], [["1", "`x`"]]),
            Gap(),
            Listing(["$ quizzer study", "printed"]),
        ),
    )


@pytest.mark.parametrize("name", GUIDES)
def test_every_guide_can_be_read(name):
    page = guide(name)
    assert page.title
    assert len(page.blocks) > 3


@pytest.mark.parametrize(("name", "mend"), [("tutors", "did you mean 'tutor'?"), ("xyz", "there are trainee, tutor, ")])
def test_a_guide_that_is_not_there(name, mend):
    with pytest.raises(NotFound) as refusal:
        guide(name)
    assert refusal.value.mend.startswith(mend)


@pytest.mark.parametrize("text", ["> quoted", "---"])
def test_what_no_block_says_is_noticed(text):
    with pytest.raises(ValueError, match="which no block says"):
        page_of(f"# Title\n\n{text}\n")
