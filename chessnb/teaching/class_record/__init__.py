"""The class record: what was answered, kept on this computer, if it is switched on.

Nothing is kept before :func:`switch_on`.  Then each answer goes to one SQLite
file outside of every repository, under a nickname and never more: no name, no
address, no class, nothing about the computer.

A caution: answers of children are data about children, also under a nickname.
Ask what your school and the law where you teach allow before you switch it on,
keep the file where only you can read it, and delete what you do not need any
more (``chessnb record delete NICKNAME`` leaves nothing of a student).
"""

from chessnb.teaching.class_record.answer_slips import SlipReport, import_slips, write_slip
from chessnb.teaching.class_record.class_table import ClassTable, Missed, Standing
from chessnb.teaching.class_record.kept_answers import CAUTION, ClassRecordError, KeptAnswer
from chessnb.teaching.class_record.record_file import ClassRecord
from chessnb.teaching.class_record.switch import Keeping, switch_off, switch_on

__all__ = [
    "CAUTION",
    "ClassRecord",
    "ClassRecordError",
    "ClassTable",
    "Keeping",
    "KeptAnswer",
    "Missed",
    "SlipReport",
    "Standing",
    "import_slips",
    "switch_off",
    "switch_on",
    "write_slip",
]
