"""Every package that an environment needs is pinned, exactly once for each system, and fits what asks for it.

The set-up installs the lists without following dependencies, so a package that is missing here would be
missing there; and a list that has fallen behind pyproject.toml would install something the program refuses.
"""

import tomllib
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

CHECKOUT = Path(__file__).parents[2]
PROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
ASKED = {
    "run": PROJECT["project"]["dependencies"],
    "test": [*PROJECT["project"]["dependencies"], *PROJECT["dependency-groups"]["test"]],
}


def pins(kind: str) -> list[Requirement]:
    """The lines of a requirement file."""
    lines = (CHECKOUT / "scripts" / "requirements" / f"{kind}.txt").read_text(encoding="utf-8").splitlines()
    return [Requirement(line) for line in lines if not line.startswith("#")]


def unmet(asked: list[str], pinned: list[Requirement]) -> list[str]:
    """What `asked` wants on this system, packages behind packages included, and `pinned` does not give."""
    versions = {canonicalize_name(pin.name): exact(pin) for pin in pinned if applies(pin)}
    wanted = [Requirement(text) for text in asked]
    seen: set[str] = set()
    found: list[str] = []
    while wanted:
        want = wanted.pop()
        name = canonicalize_name(want.name)
        if not applies(want) or str(want) in seen:
            continue
        seen.add(str(want))
        if name not in versions or not want.specifier.contains(versions[name], prereleases=True):
            found.append(f"{want} is not met by {versions.get(name, 'any pin')}")
        else:
            wanted.extend(behind(name, want.extras))
    return found


def exact(pin: Requirement) -> str:
    """The version of a pin."""
    (only,) = pin.specifier
    return only.version if only.operator == "==" and "*" not in only.version else "inexact"


def applies(requirement: Requirement) -> bool:
    """True if the requirement is meant for this Python on this system."""
    return requirement.marker is None or requirement.marker.evaluate({"extra": ""})


def behind(name: str, extras: set[str]) -> list[Requirement]:
    """What an installed package asks for itself."""
    asked = [Requirement(text) for text in metadata.requires(name) or []]
    return [want for want in asked if any(_wanted(want, extra) for extra in ("", *extras))]


def _wanted(requirement: Requirement, extra: str) -> bool:
    return requirement.marker is None or requirement.marker.evaluate({"extra": extra})


@pytest.mark.parametrize("kind", ["run", "test"])
def test_every_pin_is_exact(kind: str) -> None:
    assert [str(pin) for pin in pins(kind) if exact(pin) == "inexact"] == []


@pytest.mark.parametrize("kind", ["run", "test"])
def test_the_pins_meet_everything_that_is_asked_for(kind: str) -> None:
    assert unmet(ASKED[kind], pins(kind)) == []


def test_the_tests_run_on_the_versions_that_people_run() -> None:
    people = {str(pin) for pin in pins("run")}
    assert people - {str(pin) for pin in pins("test")} == set()


@pytest.mark.parametrize(
    ("pinned", "words"),
    [
        (["typer==0.1"], "typer>=0.16 is not met by 0.1"),
        ([], "typer>=0.16 is not met by any pin"),
        (["typer==99.0"], "is not met by any pin"),  # what typer itself asks for
        (["typer==99.0 ; python_version < '3'"], "typer>=0.16 is not met by any pin"),
    ],
)
def test_a_pin_that_is_missing_or_too_old_is_found(pinned: list[str], words: str) -> None:
    assert any(words in fault for fault in unmet(["typer>=0.16"], [Requirement(text) for text in pinned]))


def test_an_inexact_pin_is_found() -> None:
    assert [exact(Requirement(text)) for text in ("a==1.0", "a==1.*", "a>=1")] == [
        "1.0",
        "inexact",
        "inexact",
    ]
