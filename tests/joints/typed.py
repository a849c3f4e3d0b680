"""Job files as a maker types them, a table in a line, and the book that is made of them."""

from functools import lru_cache

from dryfit.book import build, read_job_text
from dryfit.joints import KINDS
from dryfit.piece.meetings import pair_key


def typed(value):
    """A value as TOML has it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(typed(item) for item in value) + "]"
    return f"{value:g}" if isinstance(value, int) else repr(value)


def table(head, **keys):
    """One table; `joints__mitre` stands for [joints.mitre], `_` in a name for its blank."""
    return "\n".join([head, *(f"{key} = {typed(value)}" for key, value in keys.items()), ""])


def board(name, line, depth=300, timber="24", **keys):
    return table("[[board]]", name=name, timber=timber, line=line, depth=depth, **keys)


def rail(name, line, width=90, timber="24", **keys):
    """A board lying flat on the wall."""
    return table("[[board]]", name=name, timber=timber, line=line, lies="flat", width=width, **keys)


def frame(points, timber="24", depth=300, name="box", size="centre", **keys):
    return table("[[frame]]", name=name, timber=timber, points=points, size=size, closed=True, depth=depth, **keys)


def joint(one, other, **keys):
    return table("[[joint]]", between=[one, other], **keys)


def job(*tables, units="mm"):
    """A whole file with timbers called by their thickness, all those that are used in it."""
    timbers = "".join(
        table(f'[timber."{t}"]', species="oak, white", form="panel", thickness=t if units == "mm" else t / 25.4)
        for t in (6, 12, 18, 24, 27, 40)
        if any(f'"{t}"' in text for text in tables)
    )
    return table("dryfit = 1\n[job]", title="typed", units=units) + timbers + "".join(tables)


@lru_cache(maxsize=64)
def book_of(text):
    """The whole book, clash check and studies with it."""
    return build(read_job_text(text))


def piece_of(text):
    return book_of(text).piece


def joint_of(text, one, other):
    return piece_of(text).joint_by_key[pair_key(one, other)]


def kind_of(made):
    return KINDS[made.kind]


def cut_of(text, key):
    (cut,) = [cut for part in piece_of(text).parts for cut in part.cuts if cut.key == key]
    return cut


def found(text, code):
    """The findings with this code."""
    return [finding for finding in book_of(text).findings if finding.code == code]


IN_THE_AIR = frozenset({"hung-without-fixing", "held-by-nothing", "tips"})


def stops(text):
    """What stops, but for what holds it up: bits of pieces are set out here in the air (see piece/test_holding)."""
    return {finding.code for finding in book_of(text).stops} - IN_THE_AIR


def plain(text):
    """A sentence of a joint in mm."""
    return str(text)
