"""Moves as they are said aloud: heard (``listener``) and said (``speech``)."""
