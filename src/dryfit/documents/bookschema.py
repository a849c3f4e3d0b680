"""The JSON Schema of book.json, published whole as docs/made/book.schema.json and by its parts in docs/schema/book.

Everything is required and nothing else is allowed, so that the file can be read by a program that was written
from the schema alone. A change that takes something away or gives it another meaning raises the format number.
"""

import json
from typing import Any, TypeAlias

from ..geometry.frames import WORLD
from ..piece.facts import CutForm, Opens
from ..studies import STUDIES
from .bookjson import FORMAT
from .plain import shapes

Schema: TypeAlias = dict[str, Any]

TEXT: Schema = {"type": "string"}
AXES = len(WORLD.origin)
NUMBER: Schema = {"type": "number"}
WHOLE: Schema = {"type": "integer"}
PAIR: Schema = {"type": "array", "items": TEXT, "minItems": 2, "maxItems": 2}
PATH: Schema = {"type": "array", "items": {"type": ["string", "integer"]}}
POINT: Schema = {"type": "array", "items": NUMBER, "minItems": AXES, "maxItems": AXES}
TWO: Schema = {"type": "array", "items": NUMBER, "minItems": 2, "maxItems": 2}


def said(schema: Schema, description: str) -> Schema:
    """The schema with what the value means."""
    return {**schema, "description": description}


def some(schema: Schema) -> Schema:
    """A list of such values."""
    return {"type": "array", "items": schema}


def maybe(schema: Schema) -> Schema:
    """Such a value, or null where it has no meaning."""
    return {"anyOf": [schema, {"type": "null"}]}


def table(**fields: Schema) -> Schema:
    """An object with exactly these fields."""
    return {"type": "object", "properties": fields, "required": list(fields), "additionalProperties": False}


def ref(name: str) -> Schema:
    """One of the schema's own definitions."""
    return {"$ref": f"#/$defs/{name}"}


def one_of(*words: object) -> Schema:
    """One of these values."""
    return {"enum": list(words)}


FRAME = table(
    origin=said(POINT, "in the frame around it, mm"),
    x=said(POINT, "unit vector"),
    y=said(POINT, "unit vector"),
    z=said(POINT, "unit vector"),
)
BOARD = table(
    name=TEXT,
    timber=said(TEXT, "name of its [timber.NAME] table"),
    frame=said(ref("frame"), "in the world: x right along the wall, y up, z out of it; its x from the datum end"),
    length=said(NUMBER, "of the centre-line as drawn"),
    depth=said(NUMBER, "from wall edge to front edge"),
    thickness=said(NUMBER, "the greatest, as put together without film"),
    profile=said(some(TWO), "(distance from the datum end, thickness); straight between, constant beyond"),
    film=said(NUMBER, "dry finish on one face where it enters others"),
    lies=one_of("across", "flat"),
    face_side=said(one_of(1, -1), "the face side lies at +c or at -c of the board's frame"),
    flipped=said({"type": "boolean"}, "drawn from the far end to the datum end"),
    ends=some(one_of("square", "level", "plumb")),
    scribe=said(TWO, "extra left at the datum end and at the far end"),
    frame_of=said(TEXT, "the [[frame]] it belongs to; empty for none"),
    path=said(PATH, "its table in the job file"),
    index=said(WHOLE, "its number in a row or a frame"),
)
MATING = table(
    key=TEXT,
    cut_in=TEXT,
    takes=TEXT,
    normal=said(POINT, "across the walls, in the frame of the board that is cut"),
    nominal=said(NUMBER, "width between the walls"),
    play=NUMBER,
    play_from=TEXT,
)
DECISION = table(
    about=TEXT,
    key=said(PAIR, "the joint, or the board twice"),
    value=TEXT,
    decider=one_of("already made", "maker", "chosen"),
    reason=TEXT,
    others=some(TEXT),
    keep=maybe(ref("edit")),
)
JOINT = table(
    between=said(PAIR, "the two bodies; the joint's identity"),
    kind=TEXT,
    meeting=TEXT,
    angle=said(NUMBER, "between the two, in (0, 90]"),
    options=said({"type": "object"}, "by name, as worked out for this meeting, lengths in mm"),
    settled=table(hand=TEXT, front=TEXT, decisions=some(ref("decision"))),
    matings=some(ref("mating")),
    gaps=some(table(between=TEXT, size=NUMBER, count=WHOLE)),
    cuts=said(some(TEXT), "keys of its cuts"),
    hardware=some(table(name=TEXT, size=TEXT, count=WHOLE, diameter=maybe(NUMBER), length=maybe(NUMBER))),
)
SHAPE: Schema = {
    "oneOf": [
        table(
            shape={"const": "prism"},
            outline=said(some(POINT), "anticlockwise; x, y, bulge of the side that follows (tan of arc / 4)"),
            outline_high=said(maybe(some(POINT)), "at `high`, for a taper"),
            low=said(NUMBER, "along the frame's z"),
            high=NUMBER,
            frame=said(ref("frame"), "in the board's own frame"),
        ),
        table(shape={"const": "half-space"}, point=POINT, normal=said(POINT, "into what is taken away")),
        table(
            shape={"const": "bore"},
            start=POINT,
            direction=POINT,
            profile=said(some(TWO), "from this distance on, this diameter; the last distance is the bottom"),
        ),
    ],
}  # fmt: skip
CUT = table(
    key=TEXT,
    number=said(maybe(WHOLE), "on the part's sheet; none for a free end"),
    kind=said(TEXT, "what it is called; what it is says its form"),
    form=one_of(*(form.value for form in CutForm)),
    joint=maybe(PAIR),
    takes=said(TEXT, "the body that enters; empty for none"),
    end=said(one_of(-1, 0, 1), "the end it makes: the datum end, none, the far end"),
    position=said(
        some(table(on=TEXT, at=NUMBER, to=maybe(NUMBER))),
        "from the datum end, on each face it breaks: of the wall nearer that end and of the other; of an axis or "
        "an end on its own",
    ),
    across=said(maybe(NUMBER), "width across the walls"),
    on_face=maybe(NUMBER),
    deep=maybe(NUMBER),
    opens=one_of(*(opens.value for opens in Opens)),
    stop=said(NUMBER, "from the front edge to where it stops short of it, else from the wall edge; 0 for none"),
    stops=some(table(edge=one_of("front", "wall"), size=NUMBER)),
    between_faces=NUMBER,
    lean=said(NUMBER, "degrees off square; positive where the walls lean to the far end at +c"),
    sum=said(TEXT, "how the governing size came about"),
    size_is=one_of("FIXED", "FIT TO", "LEAVE LONG"),
    tool=said(TEXT, "how it is made; empty where that was not worked out"),
    made=said({"type": "boolean"}, "whether it is in the wood already, as NAME.made.toml has it"),
    setups=said(some(TEXT), "the names of the set-ups that make it, one a bit; none where nothing is set"),
    shapes=said(some(ref("shape")), "what is taken away, in the board's own frame, exactly as held"),
)
PART = table(
    id=TEXT,
    board=TEXT,
    mark=said(TEXT, "the letter on it"),
    face_side=TEXT,
    face_edge=TEXT,
    datum_end=TEXT,
    zero=said(NUMBER, "where positions are counted from, along the board's own frame"),
    length=said(NUMBER, "over the long points"),
    long_points=TWO,
    short_points=TWO,
    width=NUMBER,
    thickness=NUMBER,
    blank=table(start=NUMBER, end=NUMBER, length=NUMBER, width=NUMBER, thickness=NUMBER),
    mass_kg=said(maybe(NUMBER), "at 12 % moisture; null where the species has no density"),
    volume_mm3=NUMBER,
    cuts=some(ref("cut")),
)
SETUP = table(
    name=said(TEXT, "as on the sheets: R1, D1, M1, K1"),
    operation=TEXT,
    makes=TEXT,
    across=said(maybe(NUMBER), "of its first cut; the others are the same as printed; null where it is not set"),
    lean=said(NUMBER, "degrees off square; 0 where none is set"),
    head=said(
        one_of("LEFT", "RIGHT", ""),
        "which way the head of leaning walls leans, seen from the edge that the cut opens to, either face up",
    ),
    deep=maybe(NUMBER),
    tool=said(TEXT, "how it is done"),
    **{"with": said(TEXT, "the shop's tool; empty where it has none")},
    assumed=said({"type": "boolean"}, "whether the shop file does not name that tool"),
    after=said(some(TEXT), "set-ups of which something must come first"),
    after_gluing=said(some(PAIR), "joints that must be glued before"),
    cuts=said(some(TEXT), "keys of the cuts made with it, by the parts' marks"),
)
WHERE = table(boards=some(TEXT), joint=maybe(PAIR), fixing=maybe(TEXT), cut=maybe(TEXT), path=maybe(PATH))
EDIT = table(action=one_of("set", "add", "remove", "rename", "shift"), path=PATH, value={})
FINDING = table(
    code=TEXT,
    severity=one_of("stop", "warn", "note"),
    where=ref("where"),
    says=TEXT,
    remedy=TEXT,
    found=maybe(NUMBER),
    limit=maybe(NUMBER),
    unit=TEXT,
    source=TEXT,
    cures=some(table(label=TEXT, edits=some(ref("edit")))),
    uncured=said(TEXT, "why no change of the job is offered; empty where one is"),
)
CHECKED = table(study=said(TEXT, "the check or the study"), asks=said(TEXT, "what it looked at, wholly or in part"))
NOT_CHECKED = table(
    study=said(TEXT, "the check or the study that leaves it open"),
    what=said(TEXT, "what was not checked"),
    why=TEXT,
    where=said(ref("where"), "what it is about; the whole piece where it names nothing"),
)


def book_schema() -> Schema:
    """The schema of book.json."""
    results, definitions = shapes({name: study.result for name, study in STUDIES.items()})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "book.json of Dryfit",
        "description": "Lengths in mm, angles in degrees; any other unit stands in its name. Rounded to 0.001 but "
        "for shapes, frames and profiles, which are exact.",
        **table(
            dryfit={"const": FORMAT},
            stamp=said(TEXT, "all papers of this book carry it"),
            job=table(title=TEXT, client=TEXT, date=TEXT, units=one_of("mm", "in"), file=TEXT, state=TEXT),
            boards=some(ref("board")),
            joints=some(ref("joint")),
            parts=some(ref("part")),
            setups=said(some(ref("setup")), "what one guide, bit or saw angle makes, over all parts"),
            decisions=some(ref("decision")),
            studies=said(
                {"type": "object", "properties": results, "additionalProperties": False},
                "the result of each study that has one, by the study's name",
            ),
            findings=some(ref("finding")),
            checked=said(some(ref("checked")), "the checks that were made"),
            not_checked=said(some(ref("not_checked")), "no finding and no approval: what was not checked, and why"),
            left_out=said(some(table(name=TEXT, why=TEXT)), "what was not made, and why"),
        ),
        "$defs": {
            "frame": FRAME,
            "board": BOARD,
            "joint": JOINT,
            "mating": MATING,
            "decision": DECISION,
            "part": PART,
            "cut": CUT,
            "shape": SHAPE,
            "setup": SETUP,
            "finding": FINDING,
            "where": WHERE,
            "checked": CHECKED,
            "not_checked": NOT_CHECKED,
            "edit": EDIT,
            **definitions,
        },
    }


def book_schema_text() -> str:
    """The schema as it is published, in the order of the file."""
    return json.dumps(book_schema(), ensure_ascii=False, indent=1) + "\n"
