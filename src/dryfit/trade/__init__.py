"""What the trade knows: species, panels, finishes, glues; every figure with its source and how it is known.

The figures stand in `data/` as CSV; `data/README.md` tells how they are kept. Readers are small, typed and
read no more than is asked for: `dryfit check` spends its time elsewhere.
"""
