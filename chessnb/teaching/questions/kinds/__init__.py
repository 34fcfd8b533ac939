"""The kinds of questions, a file for each.

A file states all that there is to one kind: the function that makes such a
question and proves what is right, and in its ``KIND`` the name, and how an
answer is graded.  :mod:`chessnb.teaching.questions.all_kinds` finds it by
lying here.  What several kinds share stands one folder up.
"""
