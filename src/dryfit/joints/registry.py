"""The register of joint kinds: one owner a name."""

from typing import Any

from ..piece.kinds import JointKind

KINDS: dict[str, JointKind[Any]] = {}

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
    if kind.name in KINDS:
        raise ValueError(f"two joint kinds are called {kind.name!r}")
    KINDS[kind.name] = kind()
    return kind
