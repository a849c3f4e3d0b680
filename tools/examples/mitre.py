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
    Example(
        title="With dowels, as long as the mitre lets them be",
        shown='[joints.mitre]\nstrengthen = "dowels"\n' + BOX.replace("TIMBER", '"oak24"'),
    ),
    Example(
        title="With biscuits",
        shown='[joints.mitre]\nstrengthen = "biscuits"\n' + BOX.replace("TIMBER", '"oak24"'),
    ),
    Example(
        title="With plugged screws through the level boards",
        shown='[joints.mitre]\nstrengthen = "screws"\n' + BOX.replace("TIMBER", '"oak24"'),
    ),
)
