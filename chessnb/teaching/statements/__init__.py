"""What an annotator's sentences state, read and proved.

``reader`` reads a text into statements, each with the position, the side, the
move and the pieces it speaks of; ``settling`` puts a statement to the claims
that would prove it.  A language is a table (``english``, ``german``).
"""
