"""What others rely on, a file an item in docs/schema/: so a change of it is seen in a diff, beside what changed it.

A joint kind's options and a study's tables stand under their own names, the job file's own tables, the parts of
book.json and what goes between page and server under theirs: two that are added side by side touch no common line.
The whole schemas, which hold all of these at once, are made by `made` and not in git.
"""

import json
import sys
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from dryfit.documents.bookschema import book_schema
from dryfit.documents.plain import shapes
from dryfit.job.schema import MANY, NAMED, SINGLE, JointsTable
from dryfit.joints import KINDS
from dryfit.studies import STUDIES
from tools.openapi import described

JsonObject = Mapping[str, Any]


def as_json(data: object) -> bytes:
    """Data as it stands in docs/: the same data give the same bytes."""
    return (json.dumps(data, indent=1, ensure_ascii=False, sort_keys=True) + "\n").encode()


def contracts() -> dict[str, bytes]:
    """Every item by its path in docs/schema/."""
    rooms = {"joints": _joints(), "studies": _studies(), "job": _job(), "book": _book(), "server": _server()}
    return {
        f"{room}/{name.replace(' ', '-')}.json": as_json(item) for room, items in rooms.items() for name, item in items
    }


def _joints() -> Iterator[tuple[str, JsonObject]]:
    """What may stand in a `[joints."KIND"]`, and in a `[[joint]]` or `[[fixing]]` of that kind."""
    for name, kind in KINDS.items():
        yield name, kind.options.model_json_schema()


def _studies() -> Iterator[tuple[str, JsonObject]]:
    """What is asked, the job-file tables, and the result as it stands in book.json and goes to the page."""
    for name, study in STUDIES.items():
        results, definitions = shapes({name: study.result})
        yield (
            name,
            {
                "asks": study.asks,
                "tables": {table.heading: table.model.model_json_schema() for table in study.owns},
                "levers": {lever.__name__: lever.model_json_schema() for lever in study.levers},
                "result": results[name],
                "$defs": definitions,
            },
        )


def _of_no_study(shapes_by_name: JsonObject) -> JsonObject:
    """What stands with no study: a study's shapes have its name before a point, and all results are in one table."""
    return {
        name: shape
        for name, shape in shapes_by_name.items()
        if name != "Results" and name.partition(".")[0] not in STUDIES
    }


def _job() -> Iterator[tuple[str, JsonObject]]:
    """The tables of a job file that no kind and no study owns."""
    own: dict[str, type[BaseModel]] = {**SINGLE, **MANY, **NAMED, "joints": JointsTable}
    for word, model in own.items():
        yield word, model.model_json_schema()


def _book() -> Iterator[tuple[str, JsonObject]]:
    schema = book_schema()
    yield from _of_no_study(schema.pop("$defs")).items()
    schema["properties"]["studies"].pop("properties")  # each stands with its study
    yield "book", schema


def _server() -> Iterator[tuple[str, JsonObject]]:
    """The routes, and each shape that is sent, by the module that says it."""
    whole = described()
    yield "routes", whole["paths"]
    owners = _owners()
    by_owner: dict[str, dict[str, Any]] = {}
    for name, shape in _of_no_study(whole["components"]["schemas"]).items():
        by_owner.setdefault(owners.get(name, "others"), {})[name] = shape
    yield from by_owner.items()


def _owners() -> dict[str, str]:
    """The module of each class of the package, "documents.shown", by the class's name."""
    found = {}
    for module in [name for name in sorted(sys.modules) if name.startswith("dryfit.")]:
        for name, thing in vars(sys.modules[module]).items():
            if getattr(thing, "__module__", "") == module:
                found[name] = module.removeprefix("dryfit.")
    return found
