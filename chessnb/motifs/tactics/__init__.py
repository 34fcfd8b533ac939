"""The tactics, a file for each.

A file states all that there is to one tactic: in its docstring what counts
and what does not; in its ``MOTIF`` the names, the definition, what finds it,
what says why it is not there, how much it tells, examples and near misses.
The file is called as the tactic is, and :mod:`chessnb.motifs.collection` finds
it by lying here.  What several tactics share stands one folder up.
"""
