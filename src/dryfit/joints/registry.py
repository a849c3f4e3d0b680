"""The register of joint kinds: one owner a name."""

from typing import Any

from ..findings import owns
from ..piece.kinds import JointKind
from ..scanning import Register

KINDS: Register[JointKind[Any]] = Register("joint kinds", lambda kind: kind.order)

# Kinds that docs and job files may name before they are made; reported at each meeting, never refused.
NAMED = (
    "cross halving",
    "housing",
    "sliding dovetail",
    "mitre",
    "butt",
    "rebate",
    "finger joint",
    "pins in slots",
    "splice",
    "long screw",
)


def register(kind: type[JointKind[Any]]) -> type[JointKind[Any]]:
    """Class decorator: make one of the kind and file it under its name.

    Raises:
        ValueError: the name has an owner already.
    """
    KINDS.file(kind.name, kind())
    owns(kind.name, *kind.codes)
    return kind
