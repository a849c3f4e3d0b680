"""What builds and describes Dryfit and is no part of it: nothing in the package imports it, no wheel has it.

`build` makes what is not in git where it is out of date, and uses the standard library only; `made` gives the whole
schemas and pages that go out with a release, `manual` what stands in docs/ and is in git.
"""
