"""Why a move cannot be read or played, as a teacher would say it (``form``, ``legality``)."""
