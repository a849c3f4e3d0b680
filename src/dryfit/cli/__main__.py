"""`python -m dryfit.cli` is `dryfit`."""

import sys

from . import main

if __name__ == "__main__":
    sys.exit(main())
