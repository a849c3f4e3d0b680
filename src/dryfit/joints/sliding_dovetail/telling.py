"""What the forms of a sliding dovetail add to its sheet."""

from ...piece.facts import Size
from ...piece.letting_in import RunOut
from ...sentences import Fineness, Length, Name, On, Words, say
from .plan import DovetailPlan


def own_notes(plan: DovetailPlan, run: RunOut, a: Name, edge: str) -> tuple[Words, ...]:
    """What is different about a form that is not the full one."""
    if plan.part is not None:
        tail = plan.of_tail(run).length
        return (
            say(
                "{} may also be set straight into its housing, {} towards the {}, and slid home from there.",
                a,
                Length(tail, side=On.UP),
                edge,
            ),
        )
    if plan.taper:
        return ("It closes in the last of its way: fit it dry, a shaving off the tail's slopes at a time.",)
    if plan.square:
        return ("One wall is square to the face: mind which, on both boards, before the first cut.",)
    return ()


def floor_figures(plan: DovetailPlan, socket: Words) -> tuple[Size, ...]:
    """Of the socket: as wide as the cutter where both walls slope and keep their distance."""
    if plan.square:
        wide = plan.neck + plan.depth * plan.tangent
        return (Size(of=socket, size="floor", what="from wall to wall", value=Length(wide, Fineness.WIDTH)),)
    cutter: Words = "as wide as the cutter, at the narrow end" if plan.taper else "as wide as the cutter"
    return (Size(of=socket, size="floor", what=cutter, value=Length(plan.cutter, Fineness.WIDTH)),)


def own_figures(plan: DovetailPlan, run: RunOut, socket: Words, tail: Words) -> tuple[Size, ...]:
    """Of a taper, its narrow end, the others being of the wide one; of part length, how long the tail is."""
    if plan.taper:
        edge = "wall" if plan.wide > plan.narrow else "front"
        return tuple(
            Size(of=of, size="narrow end", what=say("at the face, {}", edge), value=Length(neck, Fineness.FINE))
            for of, neck in ((socket, plan.neck), (tail, plan.tail_neck))
        )
    if plan.part is None:
        return ()
    edge = "front" if plan.part[1] > 0.0 else "wall"
    long = plan.of_tail(run).length
    return (Size(of=tail, size="long", what=say("at the {}", edge), value=Length(long, Fineness.WIDTH)),)
