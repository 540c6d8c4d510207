"""Makes the packet: the same files as the command line writes, whole into a folder beside the job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lapwright.packet.write import refuse_taken
from lapwright.plan.desk.beside import beside_it
from lapwright.plan.desk.folder import packet_folder
from lapwright.plan.desk.packed import note_made, packet_state, refuse_outside
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.make import print_plan, write_plan
from lapwright.plan.papers import ORDER, fixed_plates
from lapwright.plan.views.registry import Json, Tell
from lapwright.plan.workers import NEXT, SecondHands

IS_KEPT, ACTS = False, True  # it writes files


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """Writes the packet, and gives it as a page shows it.

    Raises: Refused with every fault, or where the folder can't take the files
    """
    folder, beside = packet_folder(ask.path), beside_it(ask.text, ask.path.parent)
    refuse_outside(ask.path)
    refuse_taken(folder, ORDER)
    job, _ = stages.read(ask)
    planned, crew_checks = stages.planned(ask, tell)
    if planned.weighed is not None:
        planned = replace(planned, weighed=replace(planned.weighed, choices=stages.weighed(ask, tell)))
    fixed = fixed_plates(stages.laid(ask))
    tell("plans and details drawn")
    with SecondHands(loads=(NEXT, ())) as hands:
        plan = print_plan(job, planned, crew_checks, fixed, tell=tell, hands=hands)
    write_plan(plan, folder)
    note_made(ask.path, ask.text, beside)
    return packet_state(ask.path, ask.text)
