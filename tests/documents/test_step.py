"""model.step (ISO 10303-21), read back by the kernel: valid solids, exact volumes, names, places, z up.

The solids of the book are made another way, by manifold3d from the same cuts: planar work agrees to 1e-9; its round
holes have 32 sides, so where there are any the whole part agrees to 1e-4. A hole by hand: 12 wide for 280, 6.6 for 50.
"""

import math
from dataclasses import replace

import pytest
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.step import model_step, solid
from dryfit.documents.writers import WRITERS
from dryfit.geometry.shapes import Bore
from dryfit.piece.facts import CutForm
from tests.documents.samples import sample_book
from tests.nasty import NASTY_NAMES


def volume(shape):
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found)
    return found


def read_back(data, folder):
    """Each component's name and placed shape."""
    import OCP.collections as held

    path = folder / "model.step"
    path.write_bytes(data)
    document, reader = TDocStd_Document(TCollection_ExtendedString("MDTV-XCAF")), STEPCAFControl_Reader()
    assert reader.ReadFile(str(path))
    assert reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    sequence = held.Sequence_TDF_Label()
    tool.GetFreeShapes(sequence)
    parts = held.Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetComponents_s(sequence.Value(1), parts)
    found = []
    for number in range(1, parts.Length() + 1):
        label, product, name = parts.Value(number), TDF_Label(), TDataStd_Name()
        assert XCAFDoc_ShapeTool.GetReferredShape_s(label, product)
        assert product.FindAttribute(TDataStd_Name.GetID_s(), name)
        found.append((name.Get().ToExtString(), XCAFDoc_ShapeTool.GetShape_s(label)))
    return found


@pytest.mark.parametrize("demo", ["record-wall", "sample-grid", "step-shelf"])
def test_every_part_reads_back_valid_with_its_volume_where_it_stands_and_z_is_up(demo, tmp_path):
    book = dryfit.build(read_job_text(demo_text(demo), f"{demo}.toml"))
    found = read_back(dict(WRITERS["step"].made(Desk(book)))["model.step"], tmp_path)

    assert [name for name, _ in found] == [part.id for part in book.piece.parts]
    for part, (_, shape) in zip(book.piece.parts, found, strict=True):
        assert BRepCheck_Analyzer(shape).IsValid(), part.id
        is_round = any(cut.form in (CutForm.BORE, CutForm.POCKET) for cut in part.cuts)
        assert volume(shape).Mass() == pytest.approx(book.solids.volume(part), rel=1e-4 if is_round else 1e-9)
        x, y, z = part.board.frame.place(book.solids.centroid(part))
        middle = volume(shape).CentreOfMass()
        assert (middle.X(), middle.Y(), middle.Z()) == pytest.approx((x, -z, y), abs=0.05 if is_round else 1e-4)


def test_holes_are_round():
    """Of the sample's shelf with and without its two bores: each takes pi (6^2 280 + 3.3^2 50)."""
    (shelf,) = [part for part in sample_book().piece.parts if part.id == "long shelf"]
    bored = {cut.key for cut in shelf.cuts for shape in cut.shapes if isinstance(shape, Bore)}
    whole = replace(shelf, cuts=tuple(cut for cut in shelf.cuts if cut.key not in bored))

    taken = volume(solid(whole)).Mass() - volume(solid(shelf)).Mass()
    assert taken == pytest.approx(2 * math.pi * (36 * 280 + 3.3**2 * 50), rel=1e-6)


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_a_nasty_name_reads_back_as_it_was_on_one_line(name, tmp_path):
    part = sample_book().piece.parts[1]
    named = replace(part, board=replace(part.board, name=name))
    ((found, _),) = read_back(model_step(name, [named], "dryfit-set:000000000000"), tmp_path)
    assert found == name.replace("\r\n", " ").replace("\t", " ")


def test_equal_books_give_equal_bytes_and_nothing_is_printed(capfd):
    first, second = (dict(WRITERS["step"].made(Desk(sample_book()))) for _ in range(2))
    assert first == second
    assert capfd.readouterr().out == ""
