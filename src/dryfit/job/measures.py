"""The named dimensions of a job, worked out in the order in which they need one another."""

import re
from collections.abc import Mapping
from typing import Any

from .arithmetic import RESERVED, ArithmeticMistake, Expression
from .mistakes import Mistakes
from .names import shown
from .options import to_expression

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


def read_measures(table: Mapping[str, Any], mistakes: Mistakes) -> dict[str, float]:
    """Return the measures in mm, in the file's order; those with a mistake are left out and noted as broken."""
    given: dict[str, Expression] = {}
    for name, value in table.items():
        if not _named(name, mistakes):
            mistakes.broken.add(name)
            continue
        try:
            given[name] = to_expression(value)
        except ArithmeticMistake as mistake:
            mistakes.broken.add(name)
            mistakes.add(("measures", name), mistake.says, mistake.remedy, read=_written(name, value, mistakes))
    values: dict[str, float] = {}
    all_names = dict.fromkeys(given, 1.0)
    for name in _order(given, mistakes):
        expression, path = given[name], ("measures", name)
        if all(used in given for used in expression.names):
            value = mistakes.length(expression, path, values)
        else:  # an unknown name: say which, against all names of the file
            value = mistakes.length(expression, path, all_names) and None
        if value is None:
            mistakes.broken.add(name)
        else:
            values[name] = value
    return {name: values[name] for name in given if name in values}


def _named(name: str, mistakes: Mistakes) -> bool:
    path = ("measures", name)
    if name in RESERVED:
        mistakes.add(path, f"{shown(name)} has a meaning of its own in arithmetic", "choose another name", read=name)
        return False
    if not _NAME.fullmatch(name):
        remedy = "use letters, digits and _, not beginning with a digit"
        mistakes.add(path, f"{shown(name)} cannot be the name of a measure", remedy, read=name)
        return False
    return True


def _written(name: str, value: object, mistakes: Mistakes) -> str | None:
    return None if mistakes.spans.values.get(("measures", name)) else shown(value)


def _order(given: Mapping[str, Expression], mistakes: Mistakes) -> list[str]:
    """Names such that each comes after those it needs; circles are noted, and their members left out."""
    order: list[str] = []
    state: dict[str, int] = {}  # 1: being looked at, 2: done
    for first in given:
        trail = [first] if first not in state else []
        while trail:
            name = trail[-1]
            state.setdefault(name, 1)
            ahead = next((n for n in given[name].names if n in given and state.get(n) != 2), None)
            if ahead is None:
                trail.pop()
                if state[name] != 2:
                    state[name] = 2
                    if name not in mistakes.broken:
                        order.append(name)
            elif state.get(ahead) == 1:
                circle = trail[trail.index(ahead) :]
                _circle(circle, mistakes)
                for member in circle:
                    state[member] = 2
            else:
                trail.append(ahead)
    return order


def _circle(circle: list[str], mistakes: Mistakes) -> None:
    mistakes.broken.update(circle)
    path = ("measures", circle[0])
    if len(circle) == 1:
        mistakes.add(path, f"{circle[0]} is worked out from itself", "give it a number, or another measure")
    else:
        chain = " needs ".join([*circle[:12], circle[0]])
        mistakes.add(path, f"measures go round in a circle: {chain}", "give one of them a number")
