"""The pages of the manual that the program writes itself, so that they cannot go stale.

    python3 start.py docs

makes docs/job-file-reference.md and docs/job.schema.json from the schema, docs/trade-names.md from the trade's
tables, docs/joints/ with a page and a drawing a joint kind, and docs/demos.md with its pictures. A test compares
what is there with what this gives.
"""

import json
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from ..book import Book, build, job_schema, read_job_text
from ..book.demos import demo_text, demos
from ..findings import Finding
from ..job.schema import NAMED
from ..joints import KINDS
from ..piece.model import Bearing, Carry, Joint
from ..sentences import told
from ..trade.anchors import anchor_types
from ..trade.finishes import all_systems
from ..trade.glues import all_glues
from ..trade.names import Named
from ..trade.screws import sizes
from ..trade.species import all_species
from .looks import Desk
from .manual_examples import EXAMPLES, STORIES, Example
from .pdf import png
from .sheets.joint.maker import picture
from .workshop import workshop_sheets

WRITTEN = "<!-- Written by `python3 start.py docs`; change the program, not this page. -->\n\n"
SHARP = 110.0  # dots an inch of a drawing
SMALL = 80.0  # and of a whole sheet


def pages() -> Mapping[str, bytes]:
    """Every page and picture of the manual that the program makes, by its path in docs/."""
    made: dict[str, bytes] = {
        "job.schema.json": _json(job_schema()),
        "job-file-reference.md": _reference(job_schema()).encode(),
        "trade-names.md": "".join(_trade_names()).encode(),
    }
    for name in sorted(KINDS):
        made.update(_joint_pages(name))
    made.update(_demo_pages())
    return made


def _json(data: object) -> bytes:
    return (json.dumps(data, indent=1, ensure_ascii=False, sort_keys=True) + "\n").encode()


# --- the job file --------------------------------------------------------------------------------


def _reference(schema: Mapping[str, Any]) -> str:
    parts = [
        WRITTEN,
        "# Every key of the job file\n\n",
        "What each means in use is told in [The job file](job-file.md).\n",
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
        parts += _rows(definitions[f"options of {name}"])
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
        yield from _rows(definition)


def _rows(definition: Mapping[str, Any]) -> Iterator[str]:
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


# --- the trade's names ---------------------------------------------------------------------------


def _trade_names() -> Iterator[str]:
    """Every name that a job file may use for a wood, a finish, a glue, a screw or an anchor."""
    yield WRITTEN
    yield "# Names of woods, finishes, glues, screws and anchors\n\n"
    yield "Of these there are figures. Case and the order of the words do not matter, and a word that fits only one\n"
    yield "will do: `oak, European`, `European oak`. With any other name a piece is set out all the same; what needs\n"
    yield "its figures is left out, and that is said.\n"
    for title, kind in (("Hardwoods", "hardwood"), ("Softwoods", "softwood"), ("Panels", "panel")):
        woods = [species for species in all_species() if species.kind == kind]
        yield from _named(title, "`species` of a `[timber.NAME]`", woods)
    yield from _named("Finishes", "`system` of `[finish]`", all_systems())
    yield from _named("Glues", "`kind` of `[glue]`", all_glues())
    yield "\n## Screws\n\n`screw` of a joint or a fixing: size and length in mm, as in `wood 5x120`, `M6x80`; with\n"
    yield "the head where it is not the usual one: `wood 5x120, pan head`, `M6x80, countersunk`.\n\n"
    yield f"- for wood and plugs, countersunk or pan head: {', '.join(sizes('wood'))}\n"
    yield f"- for other anchors, cap head or countersunk: {', '.join(sizes('machine'))}\n"
    key = "`anchor` of a fixing, with a size as it is sold, and `type` of an `[anchor.NAME]`"
    yield from _named("Anchors", key, anchor_types())


def _named(title: str, key: str, things: Sequence[Named]) -> Iterator[str]:
    yield f"\n## {title}\n\n{key}.\n\n"
    for thing in sorted(things, key=lambda thing: thing.name):
        also = f" ({', '.join(thing.also)})" if thing.also else ""
        yield f"- {thing.name}{also}\n"


# --- joints --------------------------------------------------------------------------------------


def _joint_pages(name: str) -> Iterator[tuple[str, bytes]]:
    kind, slug = KINDS[name], name.replace(" ", "-")
    module = sys.modules[type(kind).__module__]
    assert module.__doc__, f"the file of {name} says nothing of itself"
    says = module.__doc__.replace(" Lengths in mm.", "").strip().partition(": ")[2]
    parts = [WRITTEN, f"# {name[0].upper()}{name[1:]}\n\n", f"{says[0].upper()}{says[1:]}\n"]
    served = " · ".join(sorted(f"{a.value} on {b.value}" for a, b in kind.serves))
    parts.append(f"\nJoins, by what touches: {served}.\n")
    for number, example in enumerate(EXAMPLES[name], 1):
        file = f"{slug}-{number}.png" if number > 1 else f"{slug}.png"
        book = build(read_job_text(example.text, f"{slug}.toml"))
        joint = next(joint for joint in book.piece.joints if joint.kind == name)
        yield f"joints/{file}", png(picture(Desk(book), joint), SHARP)
        parts += _example(example, file, book, joint)
    parts.append("\n## Options\n\n")
    parts += _rows(kind.options.model_json_schema())
    yield f"joints/{slug}.md", "".join(parts).encode()


def _carried(carry: Carry) -> str:
    """What a joint carries, in words."""
    if carry.how is Bearing.RESTS:
        return f"{carry.body} rests on {carry.by}"
    if carry.how is Bearing.SIDEWAYS:
        return f"{carry.by} holds {carry.body} sideways"
    return f"{carry.by} holds {carry.body} fast{', by glue on end grain alone' if carry.glue else ''}"


def _example(example: Example, file: str, book: Book, joint: Joint) -> Iterator[str]:
    kind = KINDS[joint.kind]
    yield f"\n## {example.title}\n\n![{example.title}]({file})\n\n"
    yield f"```toml\n{example.shown.strip()}\n```\n\n"
    yield from (f"- {told(note, book.voice)}\n" for note in kind.notes(joint))
    yield from (f"- {item.count} × {item.name}, {item.size}\n" for item in kind.hardware(joint))
    yield from (f"- {line}\n" for line in dict.fromkeys(map(_carried, kind.carries(joint))))
    for mating in kind.matings(joint.meeting, kind.options.model_construct(**dict(joint.options)), joint.hand):
        yield f"- {mating.key}: {mating.nominal:.2f} across the walls, {mating.play:.2f} of it play\n"
    yield from _found(book, [finding for finding in book.findings if finding.where.joint])


# --- demos ---------------------------------------------------------------------------------------


def _demo_pages() -> Iterator[tuple[str, bytes]]:
    parts = [WRITTEN, "# The demos\n\nMake one with `dryfit demo NAME`. All names, places and people are invented.\n"]
    for name in demos():
        book = build(read_job_text(demo_text(name), f"{name}.toml"))
        sheets = workshop_sheets(book)
        for word, kind in (("whole", "overall"), ("part", "part")):
            page = next(page for draft, page in sheets if draft.kind.startswith(kind))
            yield f"pictures/{name}-{word}.png", png(page, SMALL)
        parts += _story(name, book)
    yield "demos.md", "".join(parts).encode()


def _story(name: str, book: Book) -> Iterator[str]:
    piece = book.piece
    yield f"\n## {book.job.title} (`{name}`)\n\n{STORIES[name].strip()}\n\n"
    yield f"![The whole piece](pictures/{name}-whole.png)\n\n![A part's sheet](pictures/{name}-part.png)\n\n"
    kinds: dict[str, int] = {}
    for joint in piece.joints:
        kinds[joint.kind] = kinds.get(joint.kind, 0) + 1
    joints = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    yield f"{len(piece.boards)} boards; {joints}; {sum(book.mass_kg.values()):.0f} kg at 12 % moisture.\n\n"
    reasons = {told(decision.reason, book.voice) for decision in piece.decisions if decision.decider == "chosen"}
    yield f"Dryfit decided {len(piece.decisions)} things before cutting, for these reasons among others:\n\n"
    yield from (f"- {reason}\n" for reason in sorted(reasons)[:4])
    if book.findings:
        yield "\nand found:\n\n"
        yield from _found(book, book.findings[:6])


def _found(book: Book, findings: Iterable[Finding]) -> Iterator[str]:
    yield from (f"- {finding.severity.value}: {told(finding.says, book.voice)}\n" for finding in findings)


def main() -> int:
    """Write the pages into docs/ of the checkout."""
    docs = Path(__file__).parents[3] / "docs"
    for path, data in pages().items():
        place = docs / path
        place.parent.mkdir(parents=True, exist_ok=True)
        if not place.exists() or place.read_bytes() != data:
            place.write_bytes(data)
    return 0


if __name__ == "__main__":
    sys.exit(main())
