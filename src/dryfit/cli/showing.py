"""What `dryfit shop` tells: where the shop's file is, what stands in it, and what is assumed."""

from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..lengths import figure
from ..sentences import Voice, told
from .telling import say, typed

if TYPE_CHECKING:
    from ..shop.model import Shop

AS_SOLD = "common practice: as sold"
SORTS = ("routers", "cutters", "saws", "groovers", "drills", "bits", "drivers")
OWN = ("trim", "trim_edge", "spare_boards", "seconds_a_crossing", "seconds_to_spread", "seconds_a_clamp", "paper")


def show(shop: "Shop", path: Path | None) -> None:
    """Say all of it, by the words of the file; figures in mm and degrees.

    Args:
        shop: as it was read, or the default one.
        path: its file; None where there is none.
    """
    say(f"Shop file: {path}" if path else "There is no shop file: what a small shop commonly has is taken.")
    if path is None:
        say("To begin yours:  dryfit shop --new")
    say("")
    for line in _lines(shop):
        say(line)


def _lines(shop: "Shop") -> Iterator[str]:
    from ..shop.model import COMMON, PRACTICE

    yield shop.name
    for key in OWN:
        note = f"   (assumed; {told(PRACTICE[key], Voice())})" if key in shop.assumed else ""
        yield f"  {key:<20}{_value(getattr(shop, key))}{note}"
    for sort in SORTS:
        tools = getattr(shop, sort)
        yield ""
        yield f"{sort}:" if tools else f"{sort}: none named; assumed, {COMMON.get(sort, AS_SOLD)}"
        for tool in tools:
            said = {field.name: getattr(tool, field.name) for field in fields(tool) if field.name != "name"}
            known = (f"{key} {_value(value)}" for key, value in said.items() if value not in (None, ()))
            yield f"  {tool.name}: {', '.join(known)}"


def _value(value: Any) -> str:
    if isinstance(value, tuple):
        return " and ".join(map(_value, value))
    return figure(value) if isinstance(value, float) else str(value)


def begun(path: Path) -> None:
    """Say that a file was begun, and what to do with it."""
    say(f"{path} is begun; its lines are notes as yet. Write what you have, measured in a test cut where it says so.")
    say(f"To see what is read from it:  dryfit shop --shop {typed(path)}")
