"""The cards of a joint and of a fixing: its options, and why another kind would not serve."""

from collections.abc import Iterator, Mapping
from typing import Any

from ...documents.elevation import figures_said
from ...job.edits import TomlText
from ...job.options import given, values_of
from ...job.schema import FixingTable
from ...joints import KINDS
from ...keeping import Keep, Same
from ...lengths import LengthUnit, cut_text, figure
from ...piece.choose import judged
from ...piece.kinds import Kinds
from ...piece.model import Cut, Joint, Judgement, Meeting
from ...places import Pair, Path
from ...sentences import Voice, told
from ..answers import Card, Choice
from ..drawn import Drawn, no_such
from .common import table
from .section import section_of


def meeting_of(drawn: Drawn, pair: Pair) -> Meeting:
    """Where two bodies meet, named in either order.

    Raises:
        Refused: they do not.
    """
    for meeting in drawn.piece.meetings:
        if set(meeting.key) == set(pair):
            return meeting
    for joint in drawn.piece.joints:
        if set(joint.key) == set(pair):
            return joint.meeting
    raise no_such("joint", " and ".join(pair))


def joint_table(drawn: Drawn, key: Pair) -> Path:
    """The `[[joint]]` of a pair; where there is none, the one that would be added."""
    for spec in drawn.job.joint_specs:
        if set(spec.between) == set(drawn.wholes(key)):
            return spec.path
    return ("joint", len(drawn.job.joint_specs))


def joint_card(drawn: Drawn, sheet: TomlText, meeting: Meeting, revision: int, keep: Keep) -> Card:
    """A joint's card; where two boards meet without one, the kinds it might have."""
    joint = drawn.piece.joint_by_key.get(meeting.key)
    path = joint_table(drawn, meeting.key)
    low, high = meeting.overlap
    meets = {"t_a": meeting.a.thickness, "t_b": meeting.b.thickness, "overlap": high - low}
    fronts = _front_choices(meeting, joint, drawn.voice)
    choices = {"kind": _kind_choices(drawn, meeting, keep), **({"front": fronts} if fronts else {})}
    holds = _joint_holds(drawn, joint)
    own = table(drawn, sheet, path, scope={**drawn.job.measures, **meets}, holds=holds, choices=choices)
    rows = [own.row(key, {"description": says}, {}, needed=False) for key, says in _JOINT_KEYS if key in choices]
    if joint is not None:
        rows += own.rows(KINDS[joint.kind].options)
    a, b = meeting.key
    return Card(
        revision=revision,
        what="joint",
        title=f"{a} and {b}",
        says=", ".join((joint.kind if joint else "no joint", _met(meeting))),
        rows=tuple(rows),
        figures=tuple(_cut_figures(joint, drawn.job.units)) if joint else (),
        joints=(meeting.key,),
        users=(),
        section=None
        if joint is None
        else keep.get("section", _through(drawn, joint), lambda: section_of(drawn, joint)),
    )


def _met(meeting: Meeting) -> str:
    """How two boards meet, in words."""
    return meeting.form if meeting.form == "in line" else f"{meeting.form} at {figure(meeting.angle, 0.1)} degrees"


def _through(drawn: Drawn, joint: Joint) -> tuple[Same, ...]:
    """What the section of a joint is made from."""
    parts = (drawn.piece.part_by_name[name] for name in joint.key if name in drawn.piece.part_by_name)
    return (Same(joint), *map(Same, parts))


_JOINT_KEYS = (
    ("kind", "Left out: the default for such a meeting."),
    ("front", "The board whose slot opens to the front; left out: worked out."),
)


def _joint_holds(drawn: Drawn, joint: Joint | None) -> dict[str, tuple[Any, str]]:
    """What holds of a joint where its table says nothing, and where that comes from."""
    if joint is None:
        return {"kind": ("", "[joints]"), "front": ("", "settled")}
    return {
        "kind": (joint.kind, "[joints]"),
        "front": (joint.making.front, "settled"),
        **dict(_options_held(drawn, joint)),
    }


def _options_held(drawn: Drawn, joint: Joint) -> Iterator[tuple[str, tuple[Any, str]]]:
    """Each option with what holds for it where the joint's own table is silent, and where that is from."""
    own = drawn.job.joints.kinds.get(joint.kind, {})
    for name, value in values_of(joint.options).items():
        yield name, (value, _source(joint, name, own))


def _source(joint: Joint, name: str, own: Mapping[str, object]) -> str:
    if name in own:
        return "its kind's table"
    if given(joint.options, name):
        return "[wall]" if joint.meeting.form == "fixing" else "[joints]"
    as_by_default = getattr(joint.options, name) == type(joint.options).model_fields[name].default
    return "default" if as_by_default else "worked out"


def _kind_choices(drawn: Drawn, meeting: Meeting, keep: Keep) -> tuple[Choice, ...]:
    if meeting.form == "fixing":
        return ()
    found = judged(meeting, drawn.job, Kinds(KINDS), keep)
    ranked = sorted(found, key=lambda item: (not item[1].possible, item[1].rank))

    def why(judgement: Judgement) -> str:
        return "; ".join(told(reason, drawn.voice) for reason in judgement.reasons)

    return tuple(Choice(value=name, possible=one.possible, why=why(one)) for name, one in ranked)


def _front_choices(meeting: Meeting, joint: Joint | None, voice: Voice) -> tuple[Choice, ...]:
    """The boards that may open to the front, with how it would then be made."""
    if joint is None:
        return ()
    makings = [making for making in KINDS[joint.kind].makings(meeting, joint.options) if making.front]
    return tuple(Choice(value=making.front, possible=True, why=told(making.name, voice)) for making in makings)


def _cut_figures(joint: Joint, units: LengthUnit) -> Iterator[tuple[str, str]]:
    yield "how", told(joint.making.name, Voice(units))
    for cut in joint.cuts:
        yield f"{cut.word} in {cut.body}", _said(cut, units)
    left = ((gap.between, f"{cut_text(gap.size, units)}{' mm' if units == 'mm' else ''}") for gap in joint.gaps)
    for between, size in dict.fromkeys(left):  # each slot has walls: alike, they are said once
        yield f"left at the {between}", size


def _said(cut: Cut, units: LengthUnit) -> str:
    figures = cut.figures
    said = [*figures_said(cut, units)]
    said += [f"leans {figure(abs(figures.lean), 0.1)} degrees"] if figures.lean else []
    said.append(f"opens to the {figures.opens.value}")
    how = told(figures.how(units, named=True), Voice(units))
    return ", ".join(said) + (f" ({how})" if how else "")


def fixing_path(drawn: Drawn, name: str) -> Path:
    """The table of a fixing.

    Raises:
        Refused: there is none of that name.
    """
    for fixing in drawn.job.fixings:
        if fixing.name == name:
            return fixing.path
    raise no_such("fixing", name)


def fixing_card(drawn: Drawn, sheet: TomlText, name: str, revision: int) -> Card:
    """A fixing's card."""
    path = fixing_path(drawn, name)
    fixing = next(fixing for fixing in drawn.job.fixings if fixing.name == name)
    joint = next((joint for joint in drawn.piece.joints if joint.meeting.path == path), None)
    holds: dict[str, tuple[Any, str]] = {"name": (fixing.name, "default")}
    holds |= dict(_options_held(drawn, joint)) if joint else {}
    own = table(drawn, sheet, path, holds=holds)
    rows = [*own.rows(FixingTable)]
    if fixing.kind in KINDS:
        rows += own.rows(KINDS[fixing.kind].options)
    return Card(
        revision=revision,
        what="fixing",
        title=name,
        says=f"{fixing.kind} in {fixing.board}",
        rows=tuple(rows),
        figures=tuple(_cut_figures(joint, drawn.job.units)) if joint else (),
        joints=(joint.key,) if joint else (),
        users=(),
    )
