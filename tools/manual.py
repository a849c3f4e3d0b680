"""The pages of the manual that the program writes itself, so that they cannot go stale.

    python3 start.py docs

makes docs/schema/ with a file an item of what others rely on, docs/trade-names.md from the trade's tables, docs/joints/
with a page and a drawing a joint kind, and docs/demos.md with its pictures. These are in git, and a test compares what
is there with what this gives. With them it makes docs/made/, which is not in git (`tools.made`).
"""

import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from dryfit.book import Book, build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.pdf import png
from dryfit.documents.sheets.joint.maker import picture
from dryfit.documents.workshop import workshop_sheets
from dryfit.findings import Finding
from dryfit.joints import KINDS
from dryfit.piece.model import Bearing, Carry, Joint
from dryfit.sentences import told
from dryfit.trade.anchors import anchor_types
from dryfit.trade.finishes import all_systems
from dryfit.trade.glues import all_glues
from dryfit.trade.names import Named
from dryfit.trade.screws import sizes
from dryfit.trade.species import all_species
from tools import made
from tools.build import HOME
from tools.contracts import contracts
from tools.examples import EXAMPLES
from tools.examples._parts import Example
from tools.examples._stories import STORIES
from tools.reference import WRITTEN, rows

DOCS = HOME / "docs"
SHARP = 110.0  # dots an inch of a drawing
SMALL = 80.0  # and of a whole sheet


def pages() -> Mapping[str, bytes]:
    """Every page and picture of the manual that the program makes, by its path in docs/."""
    found: dict[str, bytes] = {
        "trade-names.md": "".join(_trade_names()).encode(),
    }
    found.update((f"schema/{path}", data) for path, data in contracts().items())
    for name in sorted(KINDS):
        found.update(_joint_pages(name))
    found.update(_demo_pages())
    return found


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
    parts += rows(kind.options.model_json_schema())
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
    yield from (f"- {item.count} × {item.name}, {told(item.says, book.voice)}\n" for item in kind.hardware(joint))
    yield from (f"- {line}\n" for line in dict.fromkeys(map(_carried, kind.carries(joint))))
    for mating in kind.matings(joint.meeting, joint.options, joint.making):
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
    """Write the pages into docs/ of the checkout, and take out those of what is gone."""
    made.main()
    every = pages()
    made.put(every, DOCS)
    for left in left_over(every):
        left.unlink()
    return 0


def left_over(every: Mapping[str, bytes]) -> list[Path]:
    """What stands in the folders that hold nothing else, and is not among the pages: its kind or item is gone."""
    there = [path for folder in ("joints", "schema") for path in (DOCS / folder).rglob("*") if path.is_file()]
    return [path for path in there if path.relative_to(DOCS).as_posix() not in every]


if __name__ == "__main__":
    sys.exit(main())
