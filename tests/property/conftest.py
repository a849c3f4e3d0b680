"""How the property tests draw: the same layouts on every run, so that a red run can be looked at again.

To hunt with fresh layouts: `HYPOTHESIS_PROFILE=hunt`, and as many of each as it takes.
"""

import os

from hypothesis import HealthCheck, settings

# Building a piece is quick, but not on a machine that does something else as well: no deadlines.
settings.register_profile("same", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "hunt", deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
