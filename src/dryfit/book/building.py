"""The pipeline from a job to its book; everything worked out on the way is kept for the next time.

A `Bench` holds what may be kept between edits. Building on the same bench after an edit gives the same
book as building anew, bit for bit; it only takes less work.
"""

from collections.abc import Iterable, Mapping
from itertools import combinations
from types import MappingProxyType

from ..findings import Finding, Severity, finding_in_units, in_order, not_checked_in_units
from ..job.model import Job
from ..joints import KINDS
from ..keeping import Keep
from ..piece.building import build_piece
from ..piece.clash import clashes
from ..piece.kinds import Kinds
from ..piece.members import finding_in_the_file
from ..piece.model import Part, Piece
from ..piece.setout import NOTHING_MADE, Made
from ..piece.solids import Solids
from ..places import Pair
from ..shop.model import Shop
from ..studies import STUDIES
from ..studies.base import Pace, Scene, Work
from ..studies.runner import Results, run
from .curing import Trial
from .finishing import film_in_glue, finish_without_figures
from .model import Book


class Bench:
    """What is kept between two builds.

    Attributes:
        keep: meetings, options, joints, parts, solids, clashes.
        results: of studies.
    """

    def __init__(self) -> None:
        self.keep = Keep()
        self.results = Results()


def piece_of(job: Job, shop: Shop | None = None, made: Made | None = None, bench: Bench | None = None) -> Piece:
    """The piece with all findings that need no solids: what a drag step shows."""
    bench = bench if bench is not None else Bench()
    return build_piece(job, Kinds(KINDS), shop or Shop(), made or NOTHING_MADE, bench.keep)


def set_out_findings(
    job: Job, shop: Shop | None = None, made: Made | None = None, bench: Bench | None = None
) -> tuple[Finding, ...]:
    """What is found without any study: by setting out, and where solids overlap."""
    bench = bench if bench is not None else Bench()
    piece = piece_of(job, shop, made, bench)
    return (*piece.findings, *overlaps(piece, bench))


def overlaps(piece: Piece, bench: Bench, solids: Solids | None = None) -> tuple[Finding, ...]:
    """Where the solids of a piece take up the same space and nothing else says so."""
    solids = solids if solids is not None else Solids(bench.keep)
    joined = frozenset(joint.key for joint in piece.joints)
    return tuple(clashes(piece.parts, solids, joined, bench.keep, _unmade(piece, joined)))


def build(
    job: Job,
    shop: Shop | None = None,
    made: Made | None = None,
    *,
    bench: Bench | None = None,
    paces: Iterable[Pace] = (Pace.LIVE, Pace.REST),
    work: Work | None = None,
) -> Book:
    """Work out the whole book of a job.

    Args:
        job: as read; a design fault in it is a finding of the book, never an error.
        shop: what the maker owns; the default shop if left out.
        made: what is cut, measured and pinned already.
        bench: what may be kept from an earlier build; the book is the same with and without.
        paces: which studies to run.
        work: reports progress, and calls the work off.
    """
    bench = bench if bench is not None else Bench()
    shop = shop or Shop()
    piece = piece_of(job, shop, made, bench)
    solids = Solids(bench.keep)
    clashed = overlaps(piece, bench, solids)
    ran = run(STUDIES, scene_of(job, shop, piece, solids), bench.results, paces=paces, work=work)
    measures = ran.results.get("measures")
    masses: Mapping[str, float] = dict(measures.mass_kg) if measures is not None else {}
    trial = Trial(job, (*piece.findings, *clashed), lambda changed: set_out_findings(changed, shop, made, bench))
    later = (*clashed, *ran.findings, *finish_without_figures(job.finish), *film_in_glue(piece))
    return Book(
        job=job,
        shop=shop,
        piece=piece,
        studies=MappingProxyType(dict(ran.results)),
        findings=trial.sure(in_order([*piece.findings, *(_in_the_file(found, job, piece) for found in later)])),
        solids=solids,
        mass_kg=MappingProxyType(masses),
        not_checked=(*piece.not_checked, *(not_checked_in_units(left, job.units) for left in ran.not_checked)),
        left_out=MappingProxyType(dict(ran.left_out)),
    )


def _in_the_file(finding: Finding, job: Job, piece: Piece) -> Finding:
    """A finding in the job's units, its cures in the job file's names."""
    return finding_in_units(finding_in_the_file(finding, piece.whole), job.units)


def _unmade(piece: Piece, joined: frozenset[Pair]) -> frozenset[frozenset[str]]:
    """Pairs of boards that a stop already speaks of and no joint was made for: that they overlap is no news."""
    return frozenset(
        frozenset(pair)
        for finding in piece.findings
        if finding.severity is Severity.STOP
        for pair in combinations(finding.where.boards, 2)
        if pair not in joined and pair[::-1] not in joined
    )


def scene_of(job: Job, shop: Shop, piece: Piece, solids: Solids) -> Scene:
    """What studies may look at."""

    def part(name: str) -> Part:
        return piece.part_by_name[name]

    glue = tuple((face.grain, face.area_mm2) for joint in piece.joints for face in KINDS[joint.kind].glue(joint))
    return Scene(
        job=piece.job or job,
        shop=shop,
        piece=piece,
        kinds=KINDS,
        glue=glue,
        volume_mm3=lambda name: solids.volume(part(name)),
        surface_mm2=lambda name: solids.surface(part(name)),
        centroid=lambda name: solids.centroid(part(name)),
    )
