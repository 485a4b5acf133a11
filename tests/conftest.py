"""Settings that every test shares."""

from __future__ import annotations

import os

from hypothesis import settings

# "steady" draws the same examples on each run, so that a failure is one to look into and not one of luck;
# "search" draws new and more ones: HYPOTHESIS_PROFILE=search make test
settings.register_profile("steady", deadline=None, derandomize=True, max_examples=50)
settings.register_profile("search", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
