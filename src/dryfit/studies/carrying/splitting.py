"""What would end it where something does not pass: other units, or a board divided, each tried on the whole way.

Only a dry joint may be left for the site. So a body comes apart into what glue holds together, and no further; a
single board may be divided where that is sound. Each part's boxes are taken through all that is on the way.
"""

from collections.abc import Iterator, Sequence

from ...places import Cure, Edit, Plain
from ...sentences import Count, Length, Name, Words, say
from .bodies import CarriedParts, goes
from .value import BodyValue

SPARE = "part {}"


def cures_for(own: BodyValue, ground: CarriedParts) -> tuple[Cure, ...]:
    """Those that were found to end it."""
    if len(own.groups) > 1:
        whole = all(goes(ground.around(group).boxes, ground.value.way) for group in own.groups)
        cure = _in_units(own, ground) if whole else None
        return () if cure is None else (cure,)
    if own.divisible is None:
        return ()
    says = say("divide it: {} is then the longer part", Length(own.divisible.longer))
    return (Cure(label=says, edits=(own.divisible.edit,)),)


def why_none(own: BodyValue, ground: CarriedParts) -> Words:
    """What to do, where nothing in the job file was found that ends it, and why that is so."""
    if len(own.groups) > 1:
        boxes = [(ground.around(group).boxes, group) for group in own.groups]
        still = [group for box, group in boxes if not goes(box, ground.value.way)]
        if not still:
            return "carry it in its boards: each of them passes, and no joint between them is glued"
        return say("make it smaller: taken apart at its dry joints, {} does not pass either", _called(still[0]))
    if len(own.boards) > 1:
        return "make it smaller, or leave some of its joints dry: glue holds all of it together"
    return "make it shorter, or find another way in: no sound place to divide it lets both parts pass"


def _called(boards: Sequence[str]) -> Words:
    if len(boards) == 1:
        return say("{}", Name(boards[0]))
    return say("{} with {} glued to it", Name(boards[0]), Count(len(boards) - 1, "board"))


def _in_units(own: BodyValue, ground: CarriedParts) -> Cure | None:
    """What glue holds together, each a unit of its own; None where that would be no unit at all."""
    whole = dict(ground.value.whole)
    named = [tuple(dict.fromkeys(whole.get(name, name) for name in group)) for group in own.groups]
    glued = [group for group in named if len(group) > 1]
    every = [name for group in named for name in group]
    if not glued or len(every) != len(set(every)) or (own.path and own.path[0] != "unit"):
        return None
    first, *others = sorted(glued, key=len, reverse=True)
    edits: list[Edit] = []
    names = _names(ground)
    if own.path:
        edits.append(Edit(action="set", path=(*own.path, "boards"), value=_list(first)))
    else:
        others = [first, *others]
    edits += [
        Edit(action="add", path=("unit",), value={"name": next(names), "boards": _list(group)}) for group in others
    ]
    says = say("carry it as {} and {}", Count(len(glued), "unit"), Count(len(named) - len(glued), "loose board"))
    if len(named) == len(glued):
        says = say("carry it as {}", Count(len(glued), "unit"))
    return Cure(label=says, edits=tuple(edits))


def _list(names: Sequence[str]) -> Plain:
    found: list[Plain] = list(names)
    return found


def _names(ground: CarriedParts) -> Iterator[str]:
    """Names that nothing has yet."""
    number = 0
    while True:
        number += 1
        if SPARE.format(number) not in ground.value.taken:
            yield SPARE.format(number)
