"""What every test may use."""

# Several facts are functions that share their module's name: the package must be
# imported before pytest imports such a module for its doctests.
import chessnb.facts  # noqa: F401
