"""What the study of buying reads: frozen copies, lengths in mm."""

from dataclasses import dataclass

from ...lengths import LengthUnit
from ...piece.model import Strip
from ...piece.operations import WorkSort
from ...places import Pair
from ...sentences import Words
from ...trade.stock import StockForm
from .result import Shows


@dataclass(frozen=True, slots=True, kw_only=True)
class PartValue:
    """One part: its blank as it is sawn to, its size when finished, what of it is seen."""

    name: str
    timber: str
    blank: tuple[float, float, float]
    finished: tuple[float, float]
    thickness: tuple[float, float]
    shows: Shows


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberValue:
    """One timber of which there are parts; `waste` from, to, and whose figures these are."""

    name: str
    species: str
    form: str
    stock: str
    sold_as: StockForm
    sold: float | None
    measured: bool
    planing: float
    panel: tuple[float, float] | None
    longest: float | None
    kg_m3: float | None
    waste: tuple[float, float] | None
    waste_from: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpValue:
    """One set-up: its name and work, how wide it cuts, how far off square, and the parts that it cuts."""

    name: str
    work: WorkSort
    across: float
    lean: float
    cuts: tuple[str, ...]
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WareValue:
    """Hardware of one joint; `printed` its size as it is told, by which alike ones are found."""

    name: str
    says: Words
    asks: Words
    printed: str
    in_mm: bool
    joint: Pair
    count: int
    strip: Strip | None
    diameter: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MaskValue:
    """Where a coated board meets another: strips of tape across it, each so long; what is under one strip so wide."""

    board: str
    strips: int
    long: float
    wide: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishValue:
    """The finish as the job has it, and what is known of it."""

    system: str
    coats: int
    m2: float
    off_m2: float
    covers: float | None
    covers_from: str
    into_wood: bool
    masks: tuple[MaskValue, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingValue:
    """All that is read."""

    units: LengthUnit
    trim: float
    trim_from: Words
    edge: float
    edge_from: Words
    spare_boards: int
    kerf: float
    parts: tuple[PartValue, ...]
    timbers: tuple[TimberValue, ...]
    setups: tuple[SetUpValue, ...]
    wares: tuple[WareValue, ...]
    finish: FinishValue | None
