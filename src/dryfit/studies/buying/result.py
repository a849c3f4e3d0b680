"""What is to be ordered and made ready, as others read it. Lengths in mm, as ordered."""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from ...places import Pair
from ...sentences import Words
from ...trade.stock import StockForm

ONE_IN, LEAST_SPARE = 10, 2  # spare hardware (common practice)
LOST = 0.1  # of finish and tape over what is needed (common practice)

LotIs: TypeAlias = Literal["boards", "trial cuts", "spare"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shows:
    """What of a board is seen once the piece stands: of its long edges, its ends and its faces so many.

    Attributes:
        flat: whether it lies flat on the wall, where an edge is not told by front and back.
    """

    edges: int
    ends: int
    faces: int
    flat: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """So many pieces of one size, of one timber.

    Attributes:
        boards: that are made of them; none of what is for trial cuts or to spare.
        length, width: as ordered: along the grain, then across.
        finished: the same of the boards, over their long points; None where there are none.
        from_panel: how many of them one panel gives, or one length where only that is known; None where neither is.
        m2, kg: of all of them; no mass where the timber has no density.
    """

    what: LotIs
    pieces: int
    boards: tuple[str, ...] = ()
    length: float
    width: float
    finished: tuple[float, float] | None = None
    shows: Shows | None = None
    from_panel: int | None = None
    m2: float
    kg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberOrder:
    """All that is ordered of one timber.

    Attributes:
        stock: what it is called where it is sold; `sold_as` what that is.
        sold: nominal thickness by which it is sold; None where that is not known.
        least: thickness that it must have when it comes; `planed_to` the thinnest and the thickest of its boards.
        measured: whether that was measured in the shop.
        planing: what is planed off each face and edge; 0 where it is bought as finished.
        edge: left at each edge, to be ripped off; 0 where it is planed.
        panel: of a panel, along the grain and across; `longest` of a length; None where not known.
        panels: how many there must be by area alone, and how many hold all pieces; None where no panel is known, or a
            piece is larger.
        waste: what is added where it is bought whole and not cut to size, from and to, as shares; `waste_from` whose.
        metres, m2, kg: of all its lots.
    """

    timber: str
    species: str
    form: str
    stock: str
    sold_as: StockForm
    sold: float | None
    least: float
    planed_to: tuple[float, float]
    measured: bool
    planing: float
    edge: float
    panel: tuple[float, float] | None
    longest: float | None
    panels: tuple[int, int] | None
    waste: tuple[float, float] | None
    waste_from: str
    lots: tuple[Lot, ...]
    metres: float
    m2: float
    kg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What the trial cuts of some set-ups take.

    Attributes:
        setups: that share it, by name.
        timber: as thick as the boards that they cut.
        length: of one trial, along the grain; as wide as the widest of those boards.
        how: what is cut in it: a cut across it, sawn in two, or the halves of a corner.
    """

    setups: tuple[str, ...]
    timber: str
    length: float
    width: float
    how: Literal["cut", "sawn in two", "half of a corner"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Hardware of one name and size.

    Attributes:
        says: its size; `asks` what else it must be; `in_mm` whether it is sold by the millimetre everywhere.
        joints: it is for.
        needed, take: how many, without and with spares.
        strip: of what is made in the shop, the strip for all of it: long, wide, thick; None of what is bought.
    """

    name: str
    says: Words
    asks: Words = ""
    in_mm: bool = False
    joints: tuple[Pair, ...]
    needed: int
    take: int
    strip: tuple[float, float, float] | None = None
    diameter: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishToBuy:
    """The finish, what is rubbed down for it, and what keeps it off.

    Attributes:
        system: as the job names it; `coats` as it asks for.
        m2: of all surface that is seen or touched by air; `off_m2` kept bare in joints.
        litres: for all coats, with what is lost; None where nobody says how far a litre goes.
        covers: m2 a litre, one coat; `covers_from` whose figure that is.
        grits: for bare wood, coarse to fine; `between` for between coats; 0 where it is not rubbed down there.
        tape: length of masking tape, `tape_wide`; 0 where nothing is masked.
        masked: boards that are coated before they go together, their joints kept bare.
    """

    system: str
    coats: int
    m2: float
    off_m2: float
    litres: float | None
    covers: float | None
    covers_from: str
    grits: tuple[int, ...]
    between: int
    tape: float
    tape_wide: float
    masked: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """What to order.

    Attributes:
        timber: by the job's timbers, in its order.
        trim: left at each end; `trim_from`, `edge_from` whose figures these are.
        trials: what the trial cuts take.
        hardware: to buy and to make, in the order of the joints.
    """

    timber: tuple[TimberOrder, ...]
    trim: float
    trim_from: Words
    edge_from: Words
    trials: tuple[Trial, ...] = ()
    hardware: tuple[Supply, ...] = ()
    finish: FinishToBuy | None = field(default=None)
