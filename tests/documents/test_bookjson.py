"""book.json: it follows its published schema, and every part can be rebuilt from it alone.

Rebuilding: the board's profile from long point to long point, `width` deep, less the shapes of its cuts; the
volume must be the one the file gives, to the rounding of 0.001 mm3 over some 10 million.
"""

import json
import math
from dataclasses import dataclass
from itertools import pairwise

import jsonschema
import pytest

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.bookjson import book_data, book_json
from dryfit.documents.bookschema import book_schema
from dryfit.documents.plain import plain, shapes
from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import Bore, HalfSpace, Prism
from dryfit.geometry.solids import RoughBoard, solid_of
from dryfit.keeping import Keep
from dryfit.piece.model import Blank
from dryfit.places import Cure, Edit
from dryfit.sentences import Length, Name, Sentence, Several, Voice, say
from dryfit.studies import STUDIES
from tests.documents import samples


@pytest.fixture(scope="module")
def demo():
    return dryfit.build(read_job_text(demo_text("record-wall"), "record-wall.toml"))


@pytest.fixture(scope="module")
def data(demo):
    return json.loads(book_json(demo))


def numbers(value):
    if isinstance(value, dict):
        for item in value.values():
            yield from numbers(item)
    elif isinstance(value, list):
        for item in value:
            yield from numbers(item)
    elif isinstance(value, float):
        yield value


def shape_from(told):
    match told["shape"]:
        case "prism":
            frame = Frame(*(tuple(told["frame"][axis]) for axis in ("origin", "x", "y", "z")))
            high = told["outline_high"]
            return Prism(
                outline=tuple(map(tuple, told["outline"])),
                outline_high=None if high is None else tuple(map(tuple, high)),
                low=told["low"],
                high=told["high"],
                frame=frame,
            )
        case "half-space":
            return HalfSpace(point=tuple(told["point"]), normal=tuple(told["normal"]))
        case "bore":
            profile = tuple(map(tuple, told["profile"]))
            return Bore(start=tuple(told["start"]), direction=tuple(told["direction"]), profile=profile)


def rebuilt_volume(part, board):
    def half(a):
        knots = board["profile"]
        if len(knots) == 1 or a <= knots[0][0]:
            return knots[0][1] / 2
        for (a0, t0), (a1, t1) in pairwise(knots):
            if a <= a1:
                return (t0 + (t1 - t0) * (a - a0) / (a1 - a0)) / 2
        return knots[-1][1] / 2

    low, high = part["zero"], part["zero"] + part["length"]
    places = sorted({low, high, *(a for a, _ in board["profile"] if low < a < high)})
    outline = [(a, -half(a)) for a in places] + [(a, half(a)) for a in reversed(places)]
    shapes = tuple(shape_from(told) for cut in part["cuts"] for told in cut["shapes"])
    return float(solid_of(RoughBoard(outline=tuple(outline), depth=part["width"]), shapes, Keep()).volume())


def test_the_schema_is_a_schema_and_the_book_follows_it(data):
    jsonschema.Draft202012Validator.check_schema(book_schema())
    jsonschema.validate(data, book_schema())


def test_the_schema_tells_what_each_study_gives_and_the_demo_has_it_all(data):
    """What is there is all required: a result without one of its fields, or with one more, does not follow it."""
    results = book_schema()["properties"]["studies"]["properties"]

    assert set(results) == set(STUDIES) == set(data["studies"])
    for name in results:
        result = data["studies"][name]
        some = next(iter(result))
        for wrong in ({key: value for key, value in result.items() if key != some}, {**result, "more": 1}):
            with pytest.raises(jsonschema.ValidationError):
                jsonschema.validate({**data, "studies": {name: wrong}}, book_schema())


@dataclass
class Node:
    """A result that holds itself, sentences and plain data."""

    says: Sentence | str
    inner: "tuple[Node, ...]"
    cure: Cure | None = None


def test_the_schema_of_a_result_that_holds_itself_ends_and_sentences_are_texts_in_it():
    results, definitions = shapes({"tree": Node})
    schema = {**results["tree"], "$defs": definitions}
    edit = Edit(action="set", path=("board", 0), value=[1, {"a": [None, "b"]}])
    tree = Node(
        says=say("{} off", Length(3)), inner=(Node(says="plain", inner=(), cure=Cure(label="mend", edits=(edit,))),)
    )

    assert definitions["tree.Node"]["properties"]["says"] == {"type": "string"}
    jsonschema.validate(plain(tree), schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**plain(tree), "says": 3}, schema)


def test_every_part_can_be_rebuilt_from_the_file_alone(data):
    boards = {board["name"]: board for board in data["boards"]}

    for part in data["parts"]:
        assert rebuilt_volume(part, boards[part["board"]]) == pytest.approx(part["volume_mm3"], rel=1e-7), part["id"]


def test_positions_are_given_for_each_face_a_cut_breaks():
    (shelf, *_) = book_data(samples.sample_book())["parts"]
    positions = {cut["key"].rpartition(" for ")[2]: cut["position"] for cut in shelf["cuts"] if not cut["end"]}

    assert positions["raking 1"] == [
        {"on": "upper face", "at": 734.706, "to": 759.157},
        {"on": "lower face", "at": 730.905, "to": 755.356},
    ]
    assert positions["short upright"] == [{"on": "lower face", "at": 2317.925, "to": 2342.075}]
    assert positions["bore in long shelf at 250"] == [
        {"on": "front edge", "at": 250.0, "to": None},
        {"on": "wall edge", "at": 250.0, "to": None},
    ]


def test_a_joint_stands_as_a_list_of_two_with_how_it_was_settled(data, demo):
    told = {tuple(joint["between"]): joint for joint in data["joints"]}

    assert set(told) == {joint.key for joint in demo.piece.joints}
    for joint in demo.piece.joints:
        assert told[joint.key]["settled"]["hand"] == str(joint.making.name)
        assert told[joint.key]["settled"]["front"] == joint.making.front
        assert told[joint.key]["cuts"] == [cut.key for cut in joint.cuts]
    halvings = [joint for joint in data["joints"] if joint["meeting"] == "crossing"]
    assert all(len(joint["matings"]) == 2 for joint in halvings)


def test_no_number_is_minus_nought_or_no_number(data):
    assert all(
        math.isfinite(value) and math.copysign(1, value or 1) == math.copysign(1, value) for value in numbers(data)
    )


def test_equal_books_give_equal_text():
    assert book_json(samples.sample_book()) == book_json(samples.sample_book())


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ((1.23456, 0.0001234, -0.0, float("inf")), [1.235, 0.000123, 0.0, None]),
        ({("a", "b"): 1}, [{"key": ["a", "b"], "value": 1}]),
        ({"x": frozenset({2, 1})}, {"x": [1, 2]}),
        (
            Blank(start=-10.0, end=610.0, width=300.0, thickness=24.0),
            {"start": -10.0, "end": 610.0, "width": 300.0, "thickness": 24.0},
        ),
    ],
    ids=["numbers", "pairs as keys", "a set", "a dataclass"],
)  # fmt: skip
def test_any_result_of_a_study_becomes_plain_data(value, expected):
    assert plain(value) == expected


def test_what_a_study_says_stands_there_in_words_and_in_the_units_of_the_job():
    told = {"says": say("{} stand {} off", Several((Name("low"), Name("high"))), Length(6.35))}
    assert plain(told) == {"says": "low and high stand 6.4 off"}
    assert plain(told, Voice("in")) == {"says": "low and high stand 1/4 in off"}
