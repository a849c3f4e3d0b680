"""What the manual draws a mitre from."""

from tools.examples._parts import BOX, Example

EXAMPLES = (
    Example(
        title="Unequal thickness, with keys",
        shown='[joints.mitre]\nstrengthen = "keys"\n' + BOX.replace("TIMBER", '["oak24", "oak18", "oak24", "oak18"]'),
    ),
    Example(
        title="With a loose tongue",
        shown='[joints.mitre]\nstrengthen = "tongue"\n' + BOX.replace("TIMBER", '"oak24"'),
    ),
)
