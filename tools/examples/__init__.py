"""What the manual draws its joints from: small jobs, all of them read and built; a file a kind, named as it is."""

from dryfit.scanning import modules_in
from tools.examples._parts import Example

EXAMPLES: dict[str, tuple[Example, ...]] = {
    module.__name__.rpartition(".")[2].replace("_", " "): module.EXAMPLES for module in modules_in(__name__, __path__)
}
