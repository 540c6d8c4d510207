"""The job file that one begins with: a name, the units, and in comments what comes next."""

from __future__ import annotations

from lapwright.faults import Fault, Refused
from lapwright.job.edits.typed import Untypable, scalar
from lapwright.job.fields import TEXT
from lapwright.job.trap import told
from lapwright.units.unread import Unread

_TEXT = """\
# A new job.  Lengths are typed as they are read off the tape: {lengths}.
# What is yet to be given is told when the file is read: the roof, area by area; the assembly with its plies; the
# sheets, as their data sheets say.  A comment like this one is kept, whatever is changed.

job: {{name: {name}}}
units: {units:<31}# us or metric, for what is written out
"""
_LENGTHS = {"us": '12\' 6 1/2" or 39 3/8"', "metric": "3.81 m or 40 mm"}


def new_job(name: str, units: str, *, file: str = "job.yaml") -> str:
    """The smallest job file: its form is right, and its faults are the keys that are yet to be given.

    Args:
        name: of the job, kept as typed.
        units: us or metric.

    Raises: Refused where the name or the units can't stand in a job file.
    """
    faults = []
    typed = ""
    try:
        typed = scalar(TEXT.read(name), "name", in_braces=True)
    except (Unread, Untypable):
        faults.append(Fault(file, 0, 0, "job.name", told(name), "a text of 1 to 80 characters on one line", ""))
    if units not in _LENGTHS:
        faults.append(Fault(file, 0, 0, "units", told(units), "one of us, metric", "us"))
    if faults:
        raise Refused(faults)
    return _TEXT.format(lengths=_LENGTHS[units], name=typed, units=units)
