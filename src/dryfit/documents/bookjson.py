"""book.json: everything known of a job as plain data, for other programs; its schema is in bookschema.py.

Names and pairs stay values: a pair is a list of two, never a key. Figures are rounded to 0.001; shapes, frames
and thicknesses stand exactly as they are held, so that every part can be rebuilt from the file. There is no
clock in it and no -0.0: equal books give equal bytes. The encoder names each field itself, which is fast and
keeps a renamed attribute from changing the file unnoticed.
"""

import json
from typing import Any, TypeAlias

from ..book.model import Book
from ..findings import QUESTIONS, Finding, finding_told, uncured
from ..geometry.frames import Frame
from ..geometry.shapes import Bore, HalfSpace, Prism, Shape
from ..geometry.views import FACES, Surface
from ..job.options import values_of
from ..joints.registry import KINDS
from ..lengths import written
from ..piece.kinds import matings_of
from ..piece.model import Board, Cut, Decision, Joint, Mating, Ware
from ..piece.operations import Dial
from ..places import Edit, Where
from ..sentences import Voice, told
from ..studies.setups.result import SetUp
from .looks import Desk, Look, is_bored
from .naming import printing_in
from .plain import plain
from .sheets.part.words.setups import WORDS, Setup, Setups, setups
from .stamps import stamp_of

FORMAT = 1
Data: TypeAlias = dict[str, Any]


def book_json(book: Book, desk: Desk | None = None) -> str:
    """The whole book as JSON text with a line end, and what of its papers could not be made so far."""
    desk = desk or Desk(book)
    data = book_data(book, desk)
    missing = [{"name": name, "why": why} for name, why in desk.missing.items()]
    told = {**data, "left_out": [*data["left_out"], *missing]}
    return json.dumps(told, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def book_data(book: Book, desk: Desk | None = None) -> Data:
    """The whole book as plain data; `desk` where there is one of it already."""
    desk = desk or Desk(book)
    if "book data" not in desk.kept:
        desk.kept["book data"] = _book_data(desk)
    data: Data = desk.kept["book data"]
    return data


def book_stamp(desk: Desk) -> str:
    """The stamp of all papers of a book; where a fault of ours keeps it from being told whole, of its job's state."""
    if "stamp" not in desk.kept:
        try:
            desk.kept["stamp"] = book_data(desk.book, desk)["stamp"]
        except Exception:  # whatever it is: book.json says so itself, and the other papers are sound
            desk.kept["stamp"] = stamp_of({"state": desk.book.job.state})
    stamp: str = desk.kept["stamp"]
    return stamp


def _book_data(desk: Desk) -> Data:
    book, piece = desk.book, desk.book.piece
    with printing_in(book.job.units):
        shared = setups(desk)
    data = {
        "dryfit": FORMAT,
        "job": _job(book),
        "boards": [_board(board, piece.history.film(board.name)) for board in piece.boards],
        "joints": [_joint(joint, piece.decisions, book.voice) for joint in piece.joints],
        "parts": [_part(desk, desk.looks[part.id], shared) for part in piece.parts],
        "setups": [_setup(setup, book.voice) for setup in shared.all],
        "decisions": [_decision(decision, book.voice) for decision in piece.decisions],
        "studies": {name: plain(result, book.voice) for name, result in book.studies.items()},
        "findings": findings_data(book),
        "checked": checked_data(book),
        "not_checked": not_checked_data(book),
        "left_out": [{"name": name, "why": why} for name, why in book.left_out.items()],
    }
    return {"dryfit": FORMAT, "stamp": stamp_of(data), **data}


def findings_data(book: Book) -> list[Data]:
    """The findings alone, in the book's order."""
    return [finding_data(finding, book.voice) for finding in book.findings]


def checked_data(book: Book) -> list[Data]:
    """The questions that were answered."""
    return [{"study": name, "asks": QUESTIONS[name]} for name in book.checked]


def not_checked_data(book: Book) -> list[Data]:
    """What was not checked."""
    voice = book.voice
    return [
        {"study": left.study, "what": told(left.what, voice), "why": told(left.why, voice), "where": _where(left.where)}
        for left in book.not_checked
    ]


# --- numbers -------------------------------------------------------------------------------------


def rounded(value: float) -> float:
    """A figure to 0.001, never -0.0."""
    return written(value)


def exact(value: float) -> float:
    """A number as it is held, never -0.0."""
    return value + 0.0


def _figure(value: float | None) -> float | None:
    return None if value is None else rounded(value)


def _exacts(values: tuple[float, ...]) -> list[float]:
    return [value + 0.0 for value in values]


# --- parts of the book ---------------------------------------------------------------------------


def _job(book: Book) -> Data:
    job = book.job
    return {
        "title": job.title,
        "client": job.client,
        "date": job.date,
        "units": job.units,
        "file": job.file,
        "state": job.state,
    }


def _frame(frame: Frame) -> Data:
    return {
        "origin": _exacts(frame.origin),
        "x": _exacts(frame.x),
        "y": _exacts(frame.y),
        "z": _exacts(frame.z),
    }


def _board(board: Board, film: float) -> Data:
    return {
        "name": board.name,
        "timber": board.timber,
        "frame": _frame(board.frame),
        "length": rounded(board.length),
        "depth": rounded(board.depth),
        "thickness": rounded(board.thickest),
        "profile": [_exacts(knot) for knot in board.profile],
        "film": rounded(film),
        "lies": board.lies,
        "face_side": board.face_side,
        "flipped": board.flipped,
        "ends": list(board.ends),
        "scribe": [rounded(left) for left in board.scribe],
        "frame_of": board.frame_name,
        "path": list(board.path),
        "index": board.index,
    }


def _joint(joint: Joint, decisions: tuple[Decision, ...], voice: Voice) -> Data:
    kind = KINDS[joint.kind]
    matings = matings_of(kind, joint)
    return {
        "between": list(joint.key),
        "kind": joint.kind,
        "meeting": joint.meeting.form,
        "angle": rounded(joint.meeting.angle),
        "options": {name: plain(value) for name, value in values_of(joint.options).items()},
        "settled": {
            "hand": told(joint.making.name, voice),
            "front": joint.making.front,
            "decisions": [_decision(decision, voice) for decision in decisions if decision.key == joint.key],
        },
        "matings": [_mating(mating) for mating in matings],
        "gaps": [{"between": gap.between, "size": rounded(gap.size), "count": gap.count} for gap in joint.gaps],
        "cuts": [cut.key for cut in joint.cuts],
        "hardware": [ware_data(ware) for ware in kind.hardware(joint)],
    }


def ware_data(ware: Ware) -> Data:
    """Something to buy or make for a joint."""
    return {
        "name": ware.name,
        "size": told(ware.says, Voice()),
        "count": ware.count,
        "diameter": None if ware.diameter is None else rounded(ware.diameter),
        "length": None if ware.length is None else rounded(ware.length),
    }


def _mating(mating: Mating) -> Data:
    return {
        "key": mating.key,
        "cut_in": mating.cut_in,
        "takes": mating.takes,
        "normal": _exacts(mating.normal),
        "nominal": rounded(mating.nominal),
        "play": rounded(mating.play),
        "play_from": mating.play_from,
    }


def _decision(decision: Decision, voice: Voice) -> Data:
    return {
        "about": decision.about,
        "key": list(decision.key),
        "value": told(decision.value, voice),
        "decider": decision.decider,
        "reason": told(decision.reason, voice),
        "others": [told(other, voice) for other in decision.others],
        "keep": None if decision.keep is None else _edit(decision.keep),
    }


def _setup(setup: Setup, voice: Voice) -> Data:
    one = setup.of
    lean = one.set_to(Dial.LEAN)
    return {
        "name": one.name,
        "operation": WORDS[one.work],
        "makes": told(one.makes, voice),
        "across": _set_to(one, Dial.WIDTH),
        "lean": 0.0 if lean is None or lean.degrees is None else rounded(lean.degrees),
        "head": setup.head,
        "deep": _set_to(one, Dial.DEPTH),
        "tool": told(one.says, voice),
        "with": told(one.tool, voice),
        "assumed": one.assumed,
        "after": list(one.after),
        "after_gluing": [list(pair) for pair in one.after_gluing],
        "cuts": [use.key for use in setup.uses],
    }


def _set_to(setup: SetUp, dial: Dial) -> float | None:
    """The length that a dial is set to."""
    value = setup.set_to(dial)
    return None if value is None else _figure(value.mm)


def _part(desk: Desk, look: Look, shared: Setups) -> Data:
    part, names = look.part, look.names
    mass = desk.book.mass_kg.get(part.id)
    return {
        "id": part.id,
        "board": part.board.name,
        "mark": part.mark,
        "face_side": names.words[names.face_side],
        "face_edge": names.words[Surface.FRONT],
        "datum_end": names.words[Surface.DATUM],
        "zero": exact(part.zero),
        "length": rounded(part.length),
        "long_points": [rounded(a) for a in part.long],
        "short_points": [rounded(a) for a in part.short],
        "width": rounded(part.board.depth),
        "thickness": rounded(part.board.thickest),
        "blank": {
            "start": rounded(part.blank.start),
            "end": rounded(part.blank.end),
            "length": rounded(part.blank.length),
            "width": rounded(part.blank.width),
            "thickness": rounded(part.blank.thickness),
        },
        "mass_kg": _figure(mass),
        "volume_mm3": rounded(desk.book.solids.volume(part)),
        "cuts": [_cut(look, cut, shared) for cut in part.cuts],
    }


def _cut(look: Look, cut: Cut, shared: Setups) -> Data:
    figures = cut.figures
    return {
        "key": cut.key,
        "number": look.numbers.get(cut.key),
        "kind": cut.word,
        "form": cut.form.value,
        "joint": None if cut.joint is None else list(cut.joint),
        "takes": cut.takes,
        "end": cut.end,
        "position": [_position(look, cut, surface) for surface in _surfaces(look, cut)],
        "across": _figure(figures.across),
        "on_face": _figure(figures.on_face),
        "deep": _figure(figures.deep),
        "opens": figures.opens.value,
        "stop": rounded(figures.stop),
        "stops": [{"edge": stop.edge.edge, "size": rounded(stop.size.total)} for stop in figures.stops],
        "between_faces": rounded(figures.between_faces),
        "lean": rounded(figures.lean),
        "sum": told(figures.how("mm", named=True), Voice()),
        "size_is": cut.size_is,
        "tool": ", ".join(shared.how.get(cut.key, ())),
        "made": cut.made,
        "setups": [one.name for one in shared.of.get(cut.key, ())],
        "shapes": [_shape(shape) for shape in cut.shapes],
    }


def _surfaces(look: Look, cut: Cut) -> list[Surface]:
    """Where the cut is marked: the faces, face side first, that it breaks; else the edges that it breaks."""
    names = look.names
    faces: list[Surface] = [names.face_side, names.other_face]
    if cut.end:
        return faces
    found = [surface for surface in faces if look.position(cut, surface) is not None]
    return found or [edge for edge in (Surface.FRONT, Surface.WALL) if look.position(cut, edge) is not None]


def _position(look: Look, cut: Cut, surface: Surface) -> Data:
    """Running positions on one surface from the datum end: of the nearer and the farther wall, or of an axis."""
    word = look.names.words[surface]
    if cut.end:
        return {"on": word, "at": rounded(look.end_at(cut.end, surface)), "to": None}
    trace = look.view(surface).trace(cut.key)
    assert trace is not None, "a cut that takes wood has a trace"
    assert trace.marks is not None, "only surfaces that it breaks are asked for"
    if is_bored(cut) and surface not in FACES:
        return {"on": word, "at": rounded(sum(trace.marks) / 2), "to": None}
    return {"on": word, "at": rounded(trace.marks[0]), "to": rounded(trace.marks[1])}


def _shape(shape: Shape) -> Data:
    match shape:
        case Prism():
            high = shape.outline_high
            return {
                "shape": "prism",
                "outline": [_exacts(knot) for knot in shape.outline],
                "outline_high": None if high is None else [_exacts(knot) for knot in high],
                "low": exact(shape.low),
                "high": exact(shape.high),
                "frame": _frame(shape.frame),
            }
        case HalfSpace():
            return {"shape": "half-space", "point": _exacts(shape.point), "normal": _exacts(shape.normal)}
        case Bore():
            return {
                "shape": "bore",
                "start": _exacts(shape.start),
                "direction": _exacts(shape.direction),
                "profile": [_exacts(step) for step in shape.profile],
            }


def finding_data(finding: Finding, voice: Voice) -> Data:
    """One finding, its sentences as a voice tells them."""
    finding = finding_told(finding, voice)
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "where": _where(finding.where),
        "says": finding.says,
        "remedy": finding.remedy,
        "found": _figure(finding.found),
        "limit": _figure(finding.limit),
        "unit": finding.unit,
        "source": finding.source,
        "cures": [{"label": cure.label, "edits": [_edit(edit) for edit in cure.edits]} for cure in finding.cures],
        "uncured": told(uncured(finding), voice),
    }


def _where(where: Where) -> Data:
    return {
        "boards": list(where.boards),
        "joint": None if where.joint is None else list(where.joint),
        "fixing": where.fixing,
        "cut": where.cut,
        "path": None if where.path is None else list(where.path),
    }


def _edit(edit: Edit) -> Data:
    return {"action": edit.action, "path": list(edit.path), "value": edit.value}
