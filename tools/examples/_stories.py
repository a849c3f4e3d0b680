"""The stories of the demos, by name."""

STORIES: dict[str, str] = {
    "record-wall": """\
Tamsin Orrelby of Lantern Row wants her records off the floor: a wall of oak, two metres and a half wide, that
looks as if it had been drawn with five strokes and two slanting ones. Nothing may show how it holds. The wall
behind it is plasterboard on studs, and the studs are where they are.

What is difficult: two boards rake in opposite directions through four shelves each, so no slot is square to its
board; they stand proud of the shelves, which decides which slots can open to the front; a box of unequal
boards, mitred and keyed, hangs in the middle with a raking board running through it, so it must be glued before
that board goes in; and the long screws must miss every slot and still meet a stud.
""",
    "sample-grid": """\
The Fernhollow Seed Library keeps its samples in jars, and wants a grid of plywood that stands in the middle of
the room and can be taken apart when the room is let. The shop works in inches and the plywood, as always, is not
the thickness it is called.

What is difficult: forty slots that must all close at once. Every one follows the thickness that was measured,
and the clearance is what a dry grid needs to go together by hand.
""",
    "step-shelf": """\
The Quillfeather sisters want a small shelf for the stairs' end: two shelves, one upright, one leaning side, and a
divider between. It is the piece to try Dryfit on first.
""",
}
