"""The joint marks of the live drawing: each kind brings its own, and a joint is marked by the word of one of them."""

from collections.abc import Mapping

from ..joints.registry import KINDS
from ..piece.kinds import Glyph
from ..piece.model import Joint


def marks() -> Mapping[str, Glyph]:
    """All marks of all kinds by their words: "housing", "stopped housing"."""
    return {_word(which, name): glyph for name, kind in KINDS.items() for which, glyph in kind.glyphs.items()}


def mark_of(joint: Joint) -> str:
    """The word of a joint's mark."""
    kind = KINDS[joint.kind]
    which = kind.marked(joint)
    return _word(which if which in kind.glyphs else "", joint.kind)


def _word(which: str, kind: str) -> str:
    return f"{which} {kind}".strip()
