"""What the study of coats reads of a piece."""

from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry.bodies import PartShape
from ...geometry.frames import Vec
from ...job.model import When
from ...piece.history import Contact, Life, Stage, State
from ...piece.model import Part, Piece
from ...piece.parts import corners_of, stock_of
from ...places import Pair
from ...study.base import Scene
from .surfaces import CoatedShape
from .tables import DryingTable


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatedBoard:
    """One board: its life as far as coats go, its surface and what of it joints hide, in mm2.

    Attributes:
        coats: how many at which stage.
        hidden: of each joint: the other board, "" for none, the stage at which it closes, how its zone is then, the
            area that it hides.
        shape: of its part; None where nothing of it is left. `called`: its two faces as they lie, that at +c first.
        stages, body, size, low, high: as the plan wants them.
    """

    name: str
    when: When | None
    coats: tuple[tuple[Stage, int], ...]
    surface_mm2: float
    edges_mm2: float
    hidden: tuple[tuple[str, Stage, State, float, bool], ...]
    shape: CoatedShape | None
    called: tuple[str, str]
    stages: tuple[Stage, ...]
    body: str
    size: tuple[float, float, float]
    low: tuple[float, float]
    high: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingValue:
    """All that is read; figures with whose they are, None where nobody has one; `glued` is said of the shop.

    Attributes:
        joints: between boards, with what each hides of either.
        eyes: from where it is looked at, by name.
        into_wood: whether it leaves next to no film.
        drying: as the job has it.
    """

    system: str
    into_wood: bool
    boards: tuple[CoatedBoard, ...]
    covers: tuple[float, str] | None
    recoat_h: tuple[float, str] | None
    cure_d: tuple[float, str] | None
    glued: bool
    self_heating: bool
    fumes: bool
    joints: tuple[tuple[Contact, tuple[float, float]], ...]
    eyes: tuple[tuple[str, Vec], ...]
    drying: DryingTable


def joints_of(piece: Piece) -> Iterator[tuple[Contact, tuple[float, float]]]:
    """Contacts with what their joints hide of either board, in the key's order."""
    areas: dict[Pair, dict[str, float]] = {}
    for joint in piece.joints:
        for name, area in joint.hidden_mm2:
            own = areas.setdefault(joint.key, {})
            own[name] = own.get(name, 0.0) + area
    for key, contact in piece.history.contacts.items():
        one, other = (areas.get(key, {}).get(name, 0.0) for name in key)
        yield contact, (one, other)


def board_of(scene: Scene, name: str, life: Life) -> CoatedBoard:
    """Copy a board."""
    part, history = scene.piece.part_by_name[name], scene.piece.history
    joints = [joint for joint in scene.piece.joints if name in joint.key]
    hides = [(joint.key, history.contacts.get(joint.key), dict(joint.hidden_mm2).get(name, 0.0)) for joint in joints]
    corners = corners_of(part)
    return CoatedBoard(
        name=name,
        when=life.when,
        coats=life.coats,
        surface_mm2=scene.surface_mm2(name),
        edges_mm2=2 * part.board.thickest * (part.length + part.board.depth),
        hidden=tuple(_hidden(contact, key, name, area) for key, contact, area in hides if area),
        shape=_shape(part) if part.short[1] > part.short[0] else None,
        called=_called(part),
        stages=life.stages,
        body=history.carried(name) if history.on_site else "",
        size=(part.length, part.board.depth, part.board.thickest),
        low=(min(x for x, *_ in corners), min(z for *_, z in corners)),
        high=(max(x for x, *_ in corners), max(z for *_, z in corners)),
    )


def _shape(part: Part) -> CoatedShape:
    stock = stock_of(part)
    shape = PartShape(
        name=part.id,
        frame=part.board.frame,
        outline=stock.outline,
        depth=stock.depth,
        shapes=tuple(shape for cut in part.cuts for shape in cut.shapes),
    )
    return CoatedShape(part=shape, short=part.short, zero=part.zero)


def _called(part: Part) -> tuple[str, str]:
    """The faces at +c and -c as they lie."""
    x, y, z = part.board.frame.direct((0.0, 1.0, 0.0))
    if abs(z) > max(abs(x), abs(y)):
        both = ("front", "back")
        return both if z > 0 else both[::-1]
    both = ("upper", "lower") if abs(y) > abs(x) else ("right", "left")
    return both if (y if abs(y) > abs(x) else x) > 0 else both[::-1]


def _hidden(contact: Contact | None, key: Pair, name: str, area: float) -> tuple[str, Stage, State, float, bool]:
    """What the wall or a fixing hides is never coated: it is closed when the piece hangs."""
    if contact is None:
        return ("", Stage.PUT_IN, "bare", area, False)
    return (key[1 - key.index(name)], contact.stage, contact.of(name).state, area, contact.glued)
