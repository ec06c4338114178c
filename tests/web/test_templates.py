"""Each template asks for what its class holds, and for nothing else."""

from dataclasses import fields

import pytest
from jinja2 import meta

from quizzer.web.render import ENVIRONMENT, TEMPLATES
from quizzer.web.values import PAGES


def asked_for(name: str) -> set[str]:
    """The names that a template and the parts it takes in ask for."""
    parsed = ENVIRONMENT.parse((TEMPLATES / name).read_text(encoding="utf-8"))
    parts = set(meta.find_referenced_templates(parsed)) - {"base.html"}
    return meta.find_undeclared_variables(parsed).union(*map(asked_for, parts))


@pytest.mark.parametrize("values", PAGES, ids=lambda values: values.template)
def test_a_template_asks_for_what_it_is_given(values):
    assert asked_for(values.template) - {"frame"} == {each.name for each in fields(values)}


def test_every_template_belongs_to_a_class():
    there = {path.relative_to(TEMPLATES).as_posix() for path in TEMPLATES.rglob("*.html")}
    assert there == {values.template for values in PAGES} | {"base.html", "clock.html"}
    assert asked_for("base.html") == {"frame"}


def test_no_template_holds_a_script_or_a_style():
    for path in TEMPLATES.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert "style=" not in text
        assert "<style" not in text
        assert " on" not in {part[:3] for part in text.split("<")[1:] if part.startswith(" on")}
        assert text.count("<script") == text.count('<script type="module" src=')
