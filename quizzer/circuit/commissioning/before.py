"""What was measured at the origin before: it is told, and proves nothing today."""

from __future__ import annotations

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.measuring import displayed
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.installation.checks import Field, check_of, origin_values
from quizzer.circuit.installation.departures import with_departures

_BEFORE: tuple[Field, ...] = ("Ze", "Ipf")


def measured_before(play: Commission) -> dict[Field, float]:
    """The external loop in ohms and the prospective current in amperes, as another instrument showed them."""
    before = [each for each in play.departures if each.kind.id == "breaking"]  # of the supply as it was given
    values = origin_values(with_departures(play.sound, before), earth_off=True)
    return {field: _shown_before(play, field, values[field]) for field in _BEFORE}


def _shown_before(play: Commission, field: Field, value: float) -> float:
    """A value as another instrument showed it: out by up to a fortieth."""
    instrument = instrument_for(check_of(field), 500)
    return displayed(instrument, value * (1 + play.digit(f"before {field}") / 20), 0.0)
