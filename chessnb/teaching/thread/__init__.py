"""The thread of a game: what a good book says of the moves between two stops.

Everything that is told here follows from the rules alone, or from the moves
that the game made later; nothing is searched, and nothing claimed of other
moves.  :func:`chessnb.teaching.thread.choosing.thread` picks, by weight, what a
lesson tells.
"""
