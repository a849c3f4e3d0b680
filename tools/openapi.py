"""The description of the server, which the page's types are made from.

The socket's message and the head of the model's answer belong to no route that OpenAPI knows, the routes name the
shape of a refusal alone: all three are put in. So are the results of the studies, as `Results`, by the names of the
studies.
The same code gives the same bytes.
"""

import json
from typing import Any

from fastapi import FastAPI
from pydantic import TypeAdapter

from dryfit.documents import shown
from dryfit.documents.plain import shapes
from dryfit.editing import answers
from dryfit.editing.answers import Live, ModelHead, Refusal
from dryfit.places import Plain
from dryfit.studies import STUDIES
from dryfit.web.server.api import router

_REF = "#/components/schemas/{model}"


def described() -> dict[str, Any]:
    """The whole description as data."""
    app = FastAPI(title="Dryfit's page", version="1", description="One job, seen and changed live.")
    app.include_router(router)
    found = app.openapi()
    schemas = found["components"]["schemas"]
    for kind in (Live, ModelHead, Refusal):
        own = TypeAdapter(kind).json_schema(ref_template=_REF, mode="serialization")
        schemas.update(own.pop("$defs", {}))
        schemas[kind.__name__] = own
    _always(schemas)
    results, definitions = shapes({name: study.result for name, study in STUDIES.items()}, "#/components/schemas/{}")
    itself = {name for name in definitions if name.rpartition(".")[2] == Plain.__name__}
    schemas.update(definitions, **{name: {} for name in itself})  # any JSON: TypeScript has no alias of itself
    schemas["Results"] = {"type": "object", "properties": results}
    return found


def _always(schemas: dict[str, Any]) -> None:
    """An answer always has all its fields: what has a default in Python is there for the page all the same."""
    names = {name for module in (answers, shown) for name in vars(module)} | {"Edit", "Cure"}
    for name, schema in schemas.items():
        if name in names and "properties" in schema:
            schema["required"] = list(schema["properties"])


def text() -> str:
    """The description as JSON with a line end."""
    return json.dumps(described(), ensure_ascii=False, indent=1, sort_keys=True) + "\n"
