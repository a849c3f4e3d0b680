"""The description of the server for the page's types: `python -m dryfit.web.server.openapi page/openapi.json`.

    python -m dryfit.web.server.openapi FILE           write it
    python -m dryfit.web.server.openapi --check FILE   1 if the file is not what it would be

The socket's message and the head of the model's answer belong to no route that OpenAPI knows, and are put in.
The same code gives the same bytes.
"""

import json
import sys
from pathlib import Path
from typing import Any

from fastapi import FastAPI
from pydantic import TypeAdapter

from ...documents import shown
from ...editing import answers
from ...editing.answers import Live, ModelHead
from .api import router

_REF = "#/components/schemas/{model}"


def described() -> dict[str, Any]:
    """The whole description as data."""
    app = FastAPI(title="Dryfit's page", version="1", description="One job, seen and changed live.")
    app.include_router(router)
    found = app.openapi()
    schemas = found["components"]["schemas"]
    for kind in (Live, ModelHead):
        own = TypeAdapter(kind).json_schema(ref_template=_REF, mode="serialization")
        schemas.update(own.pop("$defs", {}))
        schemas[kind.__name__] = own
    _always(schemas)
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


def main(arguments: list[str]) -> int:
    """Write it, or check it."""
    *options, file = arguments
    path = Path(file)
    if "--check" in options:
        return 0 if path.exists() and path.read_text(encoding="utf-8") == text() else 1
    path.write_text(text(), encoding="utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
