"""Load the package before its doctests are collected.

Facts and their modules share their names (``chessnb.facts.pawns`` is the
function).  When pytest is the first to import such a module, it puts the
module in the place of the function.
"""

import chessnb.facts  # noqa: F401
