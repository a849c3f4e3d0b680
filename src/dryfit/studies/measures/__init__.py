"""Measures of the piece: mass, areas to finish, overall sizes, centre of gravity, diagonals.

What it works out   What a maker wants to know of the whole before ordering, finishing and carrying it.
Assumes             Parts of even density, at 12 % moisture; the density of its species from the
                    trade's table, nothing for a species it has no figure for (which is then said).
                    Finished area is the surface of the solids less what the joints hide.
Source              Density: as the table says for each species. The rest is geometry.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ...findings import Finding, NotChecked, Severity, declare
from ...geometry.frames import Vec
from ...lengths import MM2_PER_M2, MM3_PER_M3
from ...piece.facts import paired
from ...piece.parts import corners_of
from ...places import Cure, Edit, Where
from ...sentences import Name, Words, say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.species import density, find_species
from .result import Measures

NO_FIGURES = declare(
    "no-figures",
    "There are no figures for a species, so what depends on them is left out.",
    uncured="no species that is known has a name near to it, or several have",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMeasure:
    """What the sums need of one part.

    Attributes:
        density_kg_m3: None where the trade's table has no figure; `unknown` then says so, with a remedy.
        centroid: in the world.
        corners: its eight corners, ends as cut, in the world.
    """

    name: str
    timber: str
    species: str
    density_kg_m3: float | None
    source: str
    unknown: tuple[Words, Words]
    volume_mm3: float
    surface_mm2: float
    hidden_mm2: float
    centroid: Vec
    corners: tuple[Vec, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresValue:
    """All that the measures read."""

    parts: tuple[PartMeasure, ...]
    glued: tuple[tuple[str, float], ...]


@register
class MeasuresStudy(Study[MeasuresValue, Measures]):
    """Mass, areas, overall sizes, centre of gravity, diagonals."""

    name = "measures"
    codes = (NO_FIGURES,)
    asks = "mass, areas to finish and overall sizes"
    version = 2
    result = Measures
    pace = Pace.REST

    def reads(self, scene: Scene) -> MeasuresValue:
        """Copy volumes, surfaces, centroids and hidden areas."""
        hidden: dict[str, float] = {}
        glued: dict[str, float] = {}
        for joint in scene.piece.joints:
            for body, area in joint.hidden_mm2:
                hidden[body] = hidden.get(body, 0.0) + area
            for zone in scene.kinds[joint.kind].glue(joint):
                pair = paired(zone.grain)
                glued[pair] = glued.get(pair, 0.0) + zone.area_mm2
        return MeasuresValue(
            parts=tuple(_part(scene, part, hidden) for part in scene.piece.parts),
            glued=tuple(sorted(glued.items())),
        )

    def run(self, value: MeasuresValue, work: Work) -> Measures:
        """Add up."""
        masses = [
            (part.name, part.volume_mm3 / MM3_PER_M3 * part.density_kg_m3)
            for part in value.parts
            if part.density_kg_m3 is not None
        ]
        corners = [corner for part in value.parts for corner in part.corners] or [(0.0, 0.0, 0.0)]
        low: Vec = (min(c[0] for c in corners), min(c[1] for c in corners), min(c[2] for c in corners))
        high: Vec = (max(c[0] for c in corners), max(c[1] for c in corners), max(c[2] for c in corners))
        across = math.hypot(high[0] - low[0], high[1] - low[1])
        return Measures(
            densities=_densities(value),
            mass_kg=tuple(masses),
            total_kg=math.fsum(mass for _, mass in masses),
            finished_m2=math.fsum(max(0.0, part.surface_mm2 - part.hidden_mm2) for part in value.parts) / MM2_PER_M2,
            hidden_m2=math.fsum(part.hidden_mm2 for part in value.parts) / MM2_PER_M2,
            glued_m2=tuple((grain, area / MM2_PER_M2) for grain, area in value.glued),
            low=low,
            high=high,
            centre_of_gravity=_centre(value, dict(masses)),
            diagonals=(across, across),
        )

    def findings(self, value: MeasuresValue, result: Measures) -> tuple[Finding, ...]:
        """A species without a density is said once a timber."""
        unknown = {part.timber: part.unknown for part in value.parts if part.density_kg_m3 is None}
        asked = {part.timber: part.species for part in value.parts}
        return tuple(
            Finding(
                code=NO_FIGURES,
                severity=Severity.WARN,
                where=Where(path=("timber", timber, "species")),
                says=say("{}: {}; its mass is left out", Name(timber), says),
                remedy=remedy,
                cures=tuple(_it_is(one.name, timber) for one in find_species(asked[timber]).candidates),
            )
            for timber, (says, remedy) in sorted(unknown.items())
        )

    def not_checked(self, value: MeasuresValue, result: Measures) -> tuple[NotChecked, ...]:
        """The mass of what has no density."""
        silent: dict[str, list[PartMeasure]] = {}
        for part in value.parts:
            if part.density_kg_m3 is None:
                silent.setdefault(part.timber, []).append(part)
        return tuple(
            NotChecked(
                study=self.name,
                what=say("the mass of the parts in {}", Name(timber)),
                why=parts[0].unknown[0],
                where=Where(boards=tuple(part.name for part in parts), path=("timber", timber, "species")),
            )
            for timber, parts in sorted(silent.items())
        )


def _it_is(name: str, timber: str) -> Cure:
    """The species under a name that it may have been meant by; which it is, the maker knows."""
    edit = Edit(action="set", path=("timber", timber, "species"), value=name)
    return Cure(label=say("it is {}", name), edits=(edit,))


def _part(scene: Scene, part: Any, hidden: Mapping[str, float]) -> PartMeasure:
    board = part.board
    timber = scene.job.timbers[board.timber]
    kg_m3, source, unknown = _density(timber.species, timber.thickness)
    return PartMeasure(
        name=part.id,
        timber=board.timber,
        species=timber.species,
        density_kg_m3=kg_m3,
        source=source,
        unknown=unknown,
        volume_mm3=scene.volume_mm3(part.id),
        surface_mm2=scene.surface_mm2(part.id),
        hidden_mm2=hidden.get(part.id, 0.0),
        centroid=board.frame.place(scene.centroid(part.id)),
        corners=corners_of(part),
    )


def _densities(value: MeasuresValue) -> tuple[tuple[str, float, str], ...]:
    found = {part.timber: (part.density_kg_m3, part.source) for part in value.parts if part.density_kg_m3 is not None}
    return tuple((timber, density, source) for timber, (density, source) in sorted(found.items()))


def _density(word: str, thickness: float) -> tuple[float | None, str, tuple[Words, Words]]:
    """Density of a species by the maker's word, with its source; or why there is none and what to write."""
    match = find_species(word)
    if match.found is None:
        return None, "", (match.says, match.remedy)
    figure = density(match.found, thickness)
    if figure is None:
        return None, "", (say("no density is known for {}", match.found.name), "weigh a board of known size")
    return figure.value, figure.cited, ("", "")


def _centre(value: MeasuresValue, masses: Mapping[str, float]) -> Vec | None:
    total = math.fsum(masses.values())
    if total <= 0.0:
        return None
    sums = [
        math.fsum(masses[part.name] * part.centroid[axis] for part in value.parts if part.name in masses)
        for axis in range(3)
    ]
    return (sums[0] / total, sums[1] / total, sums[2] / total)
