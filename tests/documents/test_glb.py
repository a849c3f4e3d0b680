"""model.glb, read back by trimesh: one watertight body a part, in metres, where it stands, y up."""

import io
import json
import struct
import zlib

import numpy as np
import pytest
import trimesh

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.glb import glb, model_glb
from dryfit.documents.glb_looks import grain_png
from dryfit.geometry.frames import Frame
from tests.documents.samples import sample_book


@pytest.fixture(scope="module")
def book():
    return sample_book()


@pytest.fixture(scope="module")
def scene(book):
    return trimesh.load(io.BytesIO(model_glb(book)), file_type="glb")


def in_world(scene, name):
    """The vertices of one node where it stands, mm."""
    matrix, geometry = scene.graph[name]
    return trimesh.transformations.transform_points(scene.geometry[geometry].vertices, matrix) * 1000


def document(data):
    size = struct.unpack_from("<I", data, 12)[0]
    return json.loads(data[20 : 20 + size])


def test_there_is_one_node_a_part_named_as_its_board(book):
    names = [node["name"] for node in document(model_glb(book))["nodes"]]

    assert names == [part.id for part in book.piece.parts]


def test_the_head_of_a_board_that_rakes_right_lies_right_of_its_foot(scene):
    """Raking 1 leans 9 degrees: over 1900 its head lies 1900 tan 9 = 300.9 further right."""
    points = in_world(scene, "raking 1")
    foot, head = points[points[:, 1] < 1.0, 0], points[points[:, 1] > 1899.0, 0]

    assert head.min() - foot.min() == pytest.approx(300.93, abs=0.05)
    assert head.max() - foot.max() == pytest.approx(300.93, abs=0.05)


def test_the_shelf_lies_level_at_its_height_and_comes_out_of_the_wall(scene):
    points = in_world(scene, "long shelf")

    assert points.min(axis=0) == pytest.approx([0, 588, 0], abs=0.01)
    assert points.max(axis=0) == pytest.approx([2600, 612, 330], abs=0.01)


def test_every_body_is_closed_and_has_the_volume_of_its_solid(book, scene):
    for part in book.piece.parts:
        body = scene.geometry[part.id].copy()
        body.merge_vertices(merge_norm=True, merge_tex=True)  # where faces meet, the grain does not
        body.update_faces(body.nondegenerate_faces(height=1e-9))
        assert body.is_watertight, part.id
        assert body.volume * 1e9 == pytest.approx(book.solids.volume(part), rel=1e-5)


def test_normals_are_flat_and_point_outwards(scene):
    body = scene.geometry["long shelf"]
    across = np.cross(
        body.vertices[body.faces[:, 1]] - body.vertices[body.faces[:, 0]],
        body.vertices[body.faces[:, 2]] - body.vertices[body.faces[:, 0]],
    )
    across /= np.linalg.norm(across, axis=1, keepdims=True)

    assert np.einsum("ij,ij->i", across, body.vertex_normals[body.faces[:, 0]]) == pytest.approx(1.0, abs=1e-3)


def test_the_grain_runs_along_each_board_and_ends_are_darker(book):
    """900 mm of a board are one tile: the shelf's 2600 are 2.889 of them, and 330 across are 2.75 of 120."""
    data = model_glb(book)
    told, start = document(data), struct.unpack_from("<I", data, 12)[0] + 28
    attributes = told["meshes"][0]["primitives"][0]["attributes"]

    def values(name, kind, wide):
        accessor = told["accessors"][attributes[name]]
        view = told["bufferViews"][accessor["bufferView"]]
        read = np.frombuffer(data, kind, accessor["count"] * wide, start + view["byteOffset"])
        return read.reshape(-1, wide)

    uv, normal, colour = values("TEXCOORD_0", "<f4", 2), values("NORMAL", "<f4", 3), values("COLOR_0", "u1", 4)
    faces, ends = np.abs(normal[:, 1]) > 0.99, np.abs(normal[:, 0]) > 0.99
    assert np.ptp(uv[faces], axis=0) == pytest.approx([2600 / 900, 330 / 120], abs=1e-3)
    assert colour[ends, 0].max() < colour[faces, 0].min()


def test_the_tile_of_the_grain_is_a_png_whose_sides_fit(book):
    """PNG, third edition: a head of 13 bytes, then rows that each begin with their filter."""
    png = grain_png()
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    wide, high = struct.unpack_from(">II", png, 16)
    size = struct.unpack_from(">I", png, 33)[0]
    rows = np.frombuffer(zlib.decompress(png[41 : 41 + size]), np.uint8).reshape(high, wide + 1)
    assert not rows[:, 0].any()
    steps = np.abs(np.diff(rows[:, 1:].astype(int), axis=0)).max()
    assert np.abs(rows[0, 1:].astype(int) - rows[-1, 1:]).max() <= steps


def test_each_step_of_the_order_is_an_animation_that_ends_where_the_boards_stand():
    book = dryfit.build(read_job_text(demo_text("step-shelf"), "step-shelf.toml"))
    data = model_glb(book)
    told, start = document(data), struct.unpack_from("<I", data, 12)[0] + 28

    def values(number, wide):
        accessor = told["accessors"][number]
        at = start + told["bufferViews"][accessor["bufferView"]]["byteOffset"]
        return np.frombuffer(data, "<f4", accessor["count"] * wide, at).reshape(-1, wide)

    steps = [step for stage in book.studies["order"].stages for step in stage.steps]
    moving = [step for step in steps if step.legs]
    assert moving
    assert [one["name"].partition(". ")[0] for one in told["animations"]] == [
        str(number) for number, step in enumerate(steps, start=1) if step.legs
    ]
    for step, animation in zip(moving, told["animations"], strict=True):
        paths = {"translation": [], "scale": []}
        for channel in animation["channels"]:
            name = told["nodes"][channel["target"]["node"]]["name"]
            paths[channel["target"]["path"]].append((name, channel))
        assert [name for name, _ in paths["translation"]] == list(step.parts)
        assert {name for name, _ in paths["scale"]} == {p.id for p in book.piece.parts} - {*step.parts, *step.onto}
        for _, channel in paths["scale"]:
            assert not values(animation["samplers"][channel["sampler"]]["output"], 3).any(), "not there yet"
        for _, channel in paths["translation"]:
            home = told["nodes"][channel["target"]["node"]]["translation"]
            way = values(animation["samplers"][channel["sampler"]]["output"], 3)
            times = values(animation["samplers"][channel["sampler"]]["input"], 1)
            far = np.array(step.legs[0].direction) * max(step.legs[0].distance, 250.0)  # so that it is seen
            assert way[-1] == pytest.approx(home, abs=1e-6)
            assert len(way) == len(times) == len(step.legs) + 1
            assert (way[1] - way[0]) * 1000 == pytest.approx(far, abs=0.01)


def test_equal_books_give_equal_bytes_and_lengths_of_fours(book):
    data = model_glb(book)

    assert data == model_glb(sample_book())
    assert struct.unpack_from("<4sII", data) == (b"glTF", 2, len(data))
    assert len(data) % 4 == 0


def test_a_piece_without_parts_is_still_a_model():
    data = glb([], [], [])

    assert document(data)["scenes"] == [{}]
    assert struct.unpack_from("<4sII", data) == (b"glTF", 2, len(data))


def test_a_nasty_name_is_kept():
    triangle = (np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0]]), np.array([[0, 1, 2]]))
    frame = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    data = glb(['"shelf" \\ 棚'], [frame], [triangle])

    assert document(data)["nodes"][0]["name"] == '"shelf" \\ 棚'


def test_the_parts_of_a_demo_do_not_float_apart():
    """Seen as one: the box around the model is the box of the measures study."""
    book = dryfit.build(read_job_text(demo_text("step-shelf"), "step-shelf.toml"))
    scene = trimesh.load(io.BytesIO(model_glb(book)), file_type="glb")
    measures = book.studies["measures"]

    assert scene.bounds[0] * 1000 == pytest.approx(measures.low, abs=1.0)
    assert scene.bounds[1] * 1000 == pytest.approx(measures.high, abs=1.0)
