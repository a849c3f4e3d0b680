"""The manual's page of every key of a job file, from its schema."""

from collections.abc import Iterator, Mapping
from typing import Any

from dryfit.job.schema import NAMED
from dryfit.joints import KINDS

WRITTEN = "<!-- Written by `python3 start.py docs`; change the program, not this page. -->\n\n"


def job_file_reference(schema: Mapping[str, Any]) -> str:
    """Every table with its keys: what each takes, what stands for it where it is left out, what it is."""
    parts = [
        WRITTEN,
        "# Every key of the job file\n\n",
        "What each means in use is told in docs/job-file.md.\n",
    ]
    definitions: Mapping[str, Any] = schema["$defs"]
    for word, table in schema["properties"].items():
        title = {"dryfit": "dryfit", "measures": "[measures]", **{one: f"[{one}.NAME]" for one in NAMED}}.get(word)
        many = table.get("type") == "array"
        title = title or (f"[[{word}]]" if many else f"[{word}]")
        parts.append(f"\n## {title}\n\n")
        parts += _table_text(_table_of(table, definitions, word), table)
    for name in sorted(KINDS):
        parts.append(f'\n## [joints."{name}"]\n\nAlso in a `[[joint]]` or `[[fixing]]` of that kind.\n\n')
        parts += rows(definitions[f"options of {name}"])
    return "".join(parts)


def _table_of(table: Mapping[str, Any], definitions: Mapping[str, Any], word: str) -> Mapping[str, Any]:
    """The definition that holds a table's keys."""
    own: Mapping[str, Any] = definitions.get(word, {})
    reference = table.get("$ref") or table.get("items", {}).get("$ref") or ""
    return own or definitions.get(reference.rpartition("/")[2], {})


def _table_text(definition: Mapping[str, Any], table: Mapping[str, Any]) -> Iterator[str]:
    says = definition.get("description") or table.get("description")
    if says:
        yield f"{says}\n\n"
    if definition.get("properties"):
        yield from rows(definition)


def rows(definition: Mapping[str, Any]) -> Iterator[str]:
    """The keys of one table as the rows of a table in Markdown."""
    yield "| key | what it takes | left out | what it is |\n| --- | --- | --- | --- |\n"
    for key, value in definition.get("properties", {}).items():
        default = value.get("default")
        shown = "" if default in (None, [], {}, "") else f"`{default}`"
        yield f"| `{key}` | {_takes(value)} | {shown} | {value.get('description', '')} |\n"


def _takes(value: Mapping[str, Any]) -> str:
    """What may be written, in words."""
    for choice in (value, *value.get("anyOf", ())):
        if "enum" in choice:
            return ", ".join(f'`"{word}"`' for word in choice["enum"] if word != "")
    if value.get("arithmetic") or any(part.get("arithmetic") for part in value.get("anyOf", ())):
        return f"length{_bounds(value)}"
    kinds = {part.get("type") for part in value.get("anyOf", ())} | {value.get("type")}
    for word, says in (
        ("array", "list"),
        ("integer", "whole number"),
        ("number", "number"),
        ("boolean", "true or false"),
    ):
        if word in kinds:
            return says
    return "text" if "string" in kinds else "table"


def _bounds(value: Mapping[str, Any]) -> str:
    """From where to where a length may be, in words."""
    within: Mapping[str, float] = next(
        (part["within"] for part in (value, *value.get("anyOf", ())) if "within" in part), {}
    )
    low = f"{within['minimum']:g}" if "minimum" in within else ""
    over = f" over {within['exclusiveMinimum']:g}" if "exclusiveMinimum" in within else ""
    if "maximum" in within:
        return f"{over}, {low or '...'} to {within['maximum']:g} mm"
    return f", {low} mm or more" if low else f"{over} mm" if over else ""
