"""model.step: the piece as put together, as exact solids (ISO 10303-21, AP214); the one place that knows the kernel.

Made from the cuts' exact shapes, never from a mesh: round is round. A product a board, named as it is, each placed as
it stands; the world is turned +90 about x, since in programs that read STEP z is up. Lengths are mm.
"""

import math
import re
import tempfile
from collections.abc import Iterable, Sequence
from functools import cache
from importlib import import_module
from itertools import pairwise
from pathlib import Path
from typing import Any

from ..geometry.frames import NEAR, WORLD, Frame, Vec, Vec2, cross, dot
from ..geometry.polygons import clip
from ..geometry.shapes import Bore, HalfSpace, Knot, Prism, Shape
from ..piece.model import Part
from ..piece.parts import stock_of

Z_UP = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0))  # the world in a file's own frame
FAR = 1e5  # mm: a half-space as a box, past anything a job may hold
_MADE_AT = re.compile(rb"(FILE_NAME\('[^']*',')[^']*'")
_OCCURRENCE = re.compile(rb"(= NEXT_ASSEMBLY_USAGE_OCCURRENCE\(')\d+('[^;]*;)")
NO_CLOCK = rb"\g<1>2000-01-01T00:00:00'"
_BROKEN = re.compile("[\x00-\x1f\x7f-\x9f]+")


def _kernel(module: str, *names: str) -> list[Any]:
    """What is needed of one of the kernel's modules; it is not loaded before."""
    return [getattr(import_module(f"OCP.{module}"), name) for name in names]


def model_step(title: str, parts: Iterable[Part], stamp: str) -> bytes:
    """All parts where they stand; the stamp of the set stands in a comment at the top."""
    (document,) = _kernel("TDocStd", "TDocStd_Document")
    text, name = _kernel("TCollection", "TCollection_ExtendedString")[0], _kernel("TDataStd", "TDataStd_Name")[0]
    (tools,) = _kernel("XCAFDoc", "XCAFDoc_DocumentTool")
    held = document(text("MDTV-XCAF"))
    shapes = tools.ShapeTool_s(held.Main())

    def called(label: Any, says: str) -> None:
        name.Set_s(label, text(_BROKEN.sub(" ", says), True))

    whole = shapes.NewShape()
    called(whole, title)
    for part in parts:
        label = shapes.AddShape(solid(part), False)
        called(label, part.id)
        called(shapes.AddComponent(whole, label, _location(part.board.frame)), part.mark)
    shapes.UpdateAssemblies()
    return _written(held, stamp)


def _written(held: Any, stamp: str) -> bytes:
    writer = _kernel("STEPCAFControl", "STEPCAFControl_Writer")[0]()
    message, gravity = _kernel("Message", "Message", "Message_Gravity")
    for printer in message.DefaultMessenger_s().Printers():  # it would tell of its work on standard output
        printer.SetTraceLevel(gravity.Message_Fail)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "model.step")
        writer.Transfer(held)
        writer.Write(str(path))
        data = path.read_bytes().replace(str(path).encode(), b"model.step")
    count = iter(range(1, data.count(b"_OCCURRENCE(") + 1))  # the kernel goes on counting from one file to the next
    data = _OCCURRENCE.sub(
        lambda found: b"".join((found[1], b"%d" % next(count), found[2].replace(b"\n  ", b""))), data
    )
    head, end, rest = _MADE_AT.sub(NO_CLOCK, data, count=1).partition(b"\n")
    return b"".join((head, end, f"/* {stamp} */\n".encode(), rest))


@cache
def _gp() -> Any:
    return import_module("OCP.gp")


def _location(frame: Frame) -> Any:
    """Where a board's own frame stands in the file."""
    trsf = _gp().gp_Trsf()
    turned = Frame(Z_UP.place(frame.origin), *(Z_UP.direct(axis) for axis in (frame.x, frame.y, frame.z)))
    trsf.SetValues(*(value for row in turned.matrix for value in row))
    (location,) = _kernel("TopLoc", "TopLoc_Location")
    return location(trsf)


def solid(part: Part) -> Any:
    """A part in its board's frame: its stock with the ends sawn, less all its cuts."""
    stock = stock_of(part)
    outline: list[Vec2] = list(stock.outline)
    tools: list[Shape] = []
    for shape in (shape for cut in part.cuts for shape in cut.shapes):
        if isinstance(shape, HalfSpace) and shape.normal[2] == 0.0:
            outline = clip(outline, shape.point[:2], shape.normal[:2])
        else:
            tools.append(shape)
    blank = _prism(Prism(outline=tuple((a, c, 0.0) for a, c in outline), low=0.0, high=stock.depth))
    if not tools:
        return blank
    (listed,) = _kernel("collections", "List_TopoDS_Shape")
    wood, taken = listed(), listed()
    wood.Append(blank)
    for tool in tools:
        taken.Append(_tool(tool))
    cut = _kernel("BRepAlgoAPI", "BRepAlgoAPI_Cut")[0]()
    cut.SetArguments(wood)
    cut.SetTools(taken)
    cut.Build()
    return cut.Shape()


def _tool(shape: Shape) -> Any:
    match shape:
        case Prism():
            return _prism(shape)
        case Bore():
            return _bore(shape)
        case HalfSpace():
            square: tuple[Knot, ...] = ((-FAR, -FAR, 0.0), (FAR, -FAR, 0.0), (FAR, FAR, 0.0), (-FAR, FAR, 0.0))
            return _prism(Prism(outline=square, low=0.0, high=FAR, frame=_frame_along(shape.point, shape.normal)))


def _prism(shape: Prism) -> Any:
    low = _wire(shape.outline, shape.low, shape.frame)
    if shape.outline_high is None:
        (face,) = _kernel("BRepBuilderAPI", "BRepBuilderAPI_MakeFace")
        (swept,) = _kernel("BRepPrimAPI", "BRepPrimAPI_MakePrism")
        way = (part * (shape.high - shape.low) for part in shape.frame.z)
        return swept(face(low).Face(), _gp().gp_Vec(*way)).Shape()
    through = _kernel("BRepOffsetAPI", "BRepOffsetAPI_ThruSections")[0](True, True)
    through.AddWire(low)
    through.AddWire(_wire(shape.outline_high, shape.high, shape.frame))
    return through.Shape()


def _wire(knots: Sequence[Knot], z: float, frame: Frame = WORLD) -> Any:
    """An outline at a height of a frame, arcs as arcs."""
    wire, edge = _kernel("BRepBuilderAPI", "BRepBuilderAPI_MakeWire", "BRepBuilderAPI_MakeEdge")
    (arc,) = _kernel("GC", "GC_MakeArcOfCircle")
    made = wire()
    knots = _apart(knots)
    for (x, y, bulge), (x1, y1, _) in zip(knots, (*knots[1:], knots[0]), strict=True):
        start, end = _point(frame.place((x, y, z))), _point(frame.place((x1, y1, z)))
        if bulge:
            top = ((x + x1 + bulge * (y1 - y)) / 2, (y + y1 - bulge * (x1 - x)) / 2, z)
            made.Add(edge(arc(start, _point(frame.place(top)), end).Value()).Edge())
        else:
            made.Add(edge(start, end).Edge())
    return made.Wire()


def _apart(knots: Sequence[Knot]) -> list[Knot]:
    """Without one of two corners that are one, as where a saw meets one of the blank; the longer side stays."""
    dropped = set[int]()
    for i, p in enumerate(knots):
        before, q, after = knots[i - 1], knots[(i + 1) % len(knots)], knots[(i + 2) % len(knots)]
        if math.dist(p[:2], q[:2]) < NEAR:
            dropped.add((i + 1) % len(knots) if math.dist(before[:2], p[:2]) > math.dist(q[:2], after[:2]) else i)
    return [p for i, p in enumerate(knots) if i not in dropped]


def _bore(bore: Bore) -> Any:
    """Its profile turned about its axis."""
    (face,) = _kernel("BRepBuilderAPI", "BRepBuilderAPI_MakeFace")
    (turned,) = _kernel("BRepPrimAPI", "BRepPrimAPI_MakeRevol")
    frame = _frame_along(bore.start, bore.direction)
    upright = Frame(frame.origin, frame.x, frame.z, cross(frame.x, frame.z))  # its y along the axis
    profile = [(w / 2, at) for (low, w), (high, _) in pairwise(bore.run_out) for at in (low, high)]
    points = [(0.0, profile[0][1]), *profile, (0.0, profile[-1][1])]
    section = face(_wire(tuple((x, y, 0.0) for x, y in points), 0.0, upright)).Face()
    axis = _gp().gp_Ax1(_point(bore.start), _gp().gp_Dir(*bore.direction))
    return turned(section, axis, 2 * math.pi).Shape()


def _frame_along(origin: Vec, z: Vec) -> Frame:
    aside: Vec = (1.0, 0.0, 0.0) if abs(z[0]) < 0.9 else (0.0, 1.0, 0.0)
    x = cross(aside, z)
    size = math.sqrt(dot(x, x))
    x = (x[0] / size, x[1] / size, x[2] / size)
    return Frame(origin, x, cross(z, x), z)


def _point(p: Vec) -> Any:
    return _gp().gp_Pnt(*p)
