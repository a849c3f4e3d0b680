"""How all tests draw: the same examples on every run, so that a red run can be looked at again.

To hunt with fresh ones: `HYPOTHESIS_PROFILE=hunt`.
"""

import os

from hypothesis import HealthCheck, settings

# No deadlines: a machine that does something else as well is slow now and then.
settings.register_profile("same", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "hunt", deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
