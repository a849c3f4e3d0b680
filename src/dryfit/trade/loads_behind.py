"""What a load that projects behind a vehicle asks for, by country: a reminder to look up the rules, not the rules.

Source: United Kingdom, the government's guidance on overhanging loads (regulation 82 of the construction and use
regulations); Germany, section 22 of the road traffic regulations (StVO). They change, and others hold elsewhere.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """What holds from a length behind a vehicle on, in mm."""

    above: float
    asks: str


RULES: Mapping[str, tuple[Behind, ...]] = {
    "UK": (
        Behind(above=0.0, asks="up to 1 m behind nothing more is asked for"),
        Behind(above=1000.0, asks="over 1 m it must be made clearly visible"),
        Behind(above=2000.0, asks="over 2 m it wants marker boards"),
        Behind(above=3050.0, asks="over 3.05 m the police must be told, and an attendant go with it"),
    ),
    "Germany": (
        Behind(above=0.0, asks="up to 1 m behind nothing more is asked for"),
        Behind(above=1000.0, asks="over 1 m it wants a red flag, 300 x 300"),
        Behind(above=1500.0, asks="over 1.5 m only up to 100 km, with a red flag, 300 x 300"),
        Behind(above=3000.0, asks="over 3 m it is not allowed"),
    ),
}
SOURCES: Mapping[str, str] = {
    "UK": "UK government, overhanging loads (regulation 82)",
    "Germany": "StVO section 22",
}


def asked_for(behind: float, country: str) -> str:
    """What a load so far behind asks for there; "" where no rule is known."""
    return next((rule.asks for rule in reversed(RULES.get(country, ())) if behind > rule.above), "")
