"""The teaching view: a lesson as a page without code, with live boards, for a class.

The lesson runs in a kernel of its own each time that its page is opened.  The
kept library ``voila`` runs it and hands the browser what its cells end in; the
page itself is the template in ``share/``.
"""

from chessnb.notebooks.teaching_view.view_launcher import teach

__all__ = ["teach"]
