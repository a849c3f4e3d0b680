"""The published JSON Schema takes what the reader takes, and refuses what it refuses where a schema can."""

import copy
import tomllib

import pytest
from jsonschema import Draft202012Validator

from dryfit.job.options import Options
from dryfit.job.schema import schema
from dryfit.job.starting import new_text
from dryfit.job.tables import Many, One
from tests.job.samples import KINDS, NAMED, WALL, read


class Load(Options):
    """A table of a study, of which a job may have several."""

    board: str = ""
    kind: str = ""


def plain(text):
    data = tomllib.loads(text)
    if "date" in data.get("job", {}):
        data["job"]["date"] = data["job"]["date"].isoformat()
    return data


SCHEMA = schema(KINDS, NAMED, (Many("load", Load), One("van", Load)))
CHECK = Draft202012Validator(SCHEMA)


def test_it_is_a_schema():
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("text", [WALL, new_text("a job"), ""], ids=["a whole job", "a new job", "an empty one"])
def test_a_job_that_can_be_read_fits_it(text):
    assert list(CHECK.iter_errors(plain(text))) == []
    assert read(text) is not None


WRONG = [
    (("board", 0), "depht", 3),
    (("board", 1), "ends", "slanted"),
    (("board", 0), "line", [[0, 0]]),
    (("joint", 0), "ratioo", 0.5),
    (("joint", 0), "ratio", 2),
    (("joint", 0), "kind", "dowel"),
    (("joints",), "crossing", "dowel"),
    (("joints", "housing"), "dept", 3),
    (("finish",), "coats", "two"),
    (("job",), "units", "cm"),
    ((), "bord", []),
]


@pytest.mark.parametrize(("path", "key", "value"), WRONG, ids=[f"{case[1]} {case[2]}" for case in WRONG])
def test_what_the_reader_refuses_does_not_fit_it(path, key, value):
    data = copy.deepcopy(plain(WALL))
    table = data
    for step in path:
        table = table[step]
    table[key] = value

    assert list(CHECK.iter_errors(data))


def test_a_key_that_must_be_there_is_required():
    data = plain(WALL)
    del data["board"][0]["line"]

    assert [error.message for error in CHECK.iter_errors(data)] == ["'line' is a required property"]


def test_every_key_has_its_sentence():
    for name, definition in SCHEMA["$defs"].items():
        for key, published in definition.get("properties", {}).items():
            if "$ref" not in published and published != {"type": "object"}:
                assert published.get("description") or name.startswith("table "), (name, key)


def test_a_study_s_table_is_published_in_its_one_form_and_in_no_other():
    assert CHECK.is_valid({"load": [{"board": "a"}], "van": {"board": "a"}})
    assert not CHECK.is_valid({"load": {"board": "a"}})
    assert not CHECK.is_valid({"van": [{"board": "a"}]})
