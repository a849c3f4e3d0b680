"""What the room, the days and the rack that the job gives contradict."""

import datetime
from collections.abc import Iterator

from ...findings import Finding, Severity, declare
from ...places import Where
from ...sentences import Count, say
from .result import Coating
from .tables import COLDEST, DAMPEST, DRYING, HOTTEST, SHEET, DryingTable

TOO_COLD = declare(
    "room-unfit-for-coats",
    "The room in which it is to be coated is too cold, too hot or too damp.",
    uncured="warming the room, or waiting, is your choice",
)
NOT_DRY = declare(
    "coats-not-hard-yet",
    "By the day on which it is needed, its coats are not hard.",
    uncured="an earlier first day, fewer coats or another finish are your choice",
)
RACK_FULL = declare(
    "rack-too-small",
    "More boards are wet at once than the rack holds.",
    uncured="how boards are shared out is your choice",
)


CODES = (TOO_COLD, NOT_DRY, RACK_FULL)


def findings_of(drying: DryingTable, result: Coating) -> tuple[Finding, ...]:
    """All of them."""
    if not result.stages:
        return ()
    return (*_room(drying), *_late(drying, result), *_rack(drying, result))


def _room(drying: DryingTable) -> Iterator[Finding]:
    """Where a figure of the room lies outside of what a maker's sheet allows."""
    warm, damp = drying.temperature, drying.humidity
    for found, limit, unit, key, what in (
        (warm, COLDEST, "°C", "temperature", "at least"),
        (warm, HOTTEST, "°C", "temperature", "at most"),
        (damp, DAMPEST, "%", "humidity", "at most"),
    ):
        if found is None or (found >= limit if what == "at least" else found <= limit):
            continue
        yield Finding(
            code=TOO_COLD,
            severity=Severity.WARN,
            where=Where(path=DRYING.at(key)),
            says=say("it is coated at {} {}, {} {} {} is wanted", f"{found:g}", unit, what, f"{limit:g}", unit),
            remedy="warm or air the room, or wait; the sheet of your finish may allow more",
            found=found,
            limit=limit,
            unit=unit,
            source=SHEET,
        )


def _late(drying: DryingTable, result: Coating) -> Iterator[Finding]:
    """Where it is needed before its coats are hard."""
    carried = next((step for step in result.steps if step.act == "carry"), None)
    if not (drying.needed and drying.begins) or carried is None or not carried.date or carried.day is None:
        return
    first, needed = (datetime.date.fromisoformat(day) for day in (drying.begins, drying.needed))
    there = (needed - first).days + 1
    if carried.day <= there:
        return
    yield Finding(
        code=NOT_DRY,
        severity=Severity.WARN,
        where=Where(path=DRYING.at("needed")),
        says=say(
            "its coats are hard enough to be carried on {}, day {}; it is needed on {}, day {}",
            carried.date,
            str(carried.day),
            drying.needed,
            str(there),
        ),
        remedy=say(
            "begin {} earlier, or carry it with nothing pressing on its faces", Count(carried.day - there, "day")
        ),
        found=float(carried.day),
        limit=float(there),
        unit="days",
        source=result.cure_from,
    )


def _rack(drying: DryingTable, result: Coating) -> Iterator[Finding]:
    """Where more boards are wet at once than its rack holds."""
    for need in result.racks:
        if drying.rack is not None and need.high and need.pieces > drying.rack:
            yield Finding(
                code=RACK_FULL,
                severity=Severity.NOTE,
                where=Where(path=DRYING.at("rack")),
                says=say("{} are wet at once, the rack holds {}", Count(need.pieces, "board"), str(drying.rack)),
                remedy="coat them in goes, each with its own wait, or lay the others out flat",
                found=float(need.pieces),
                limit=float(drying.rack),
                unit="boards",
                source="the job file",
            )
