"""Every rule that is judged: its stable name and what it asks, in words, in the order in which they are told."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

RULES: Mapping[str, str] = MappingProxyType(
    {
        "area": "The plan is of this job: its areas, their plies and their sheets",
        "id": "Every id is there once, made of area, ply, course and place",
        "reference": "Every id that is named belongs to something in the plan",
        "blank": "Blanks are rectangles along the fall, as long and wide as stated",
        "course": "Courses are numbered up the fall, and pieces lie in their course",
        "coverage": "Each ply covers its ground without a gap",
        "base_over_edge": "The ply under the cap runs past every metal edge and turns down",
        "up_wall": "Each ply runs up the cant of every parapet and wall",
        "over_ridge": "Each ply runs past every ridge, and past a line that its water runs across",
        "valley": "In each ply a full sheet lies in every valley from end to end",
        "overhang": "No sheet runs past where its ply ends; the cap stays back from the metal's edge",
        "run": "No piece goes across a break in its run",
        "opening_lap": "An opening inside a sheet is passed by an end lap clear of its corners",
        "side_lap": "Side laps are as wide as the sheet asks",
        "end_lap": "End laps are as long as the sheet asks",
        "end_lap_stagger": "End laps of adjacent courses are staggered",
        "end_lap_ply_offset": "End laps of a ply are clear of those of the ply under it",
        "end_lap_drain": "End laps are clear of drains",
        "end_lap_valley": "No end lap lies in a valley that the courses meet",
        "ply_offset": "Side laps of a ply are clear of those of the ply under it",
        "ply_offset_at_rip": "Side laps beside a ripped top course are clear of those of the other ply",
        "shortest_piece": "No piece is shorter than the shortest allowed, unless its run is",
        "longest_piece": "No piece is longer than the longest allowed or its roll",
        "narrowest_rip": "No course shows less than the narrowest rip allowed",
        "sheet_width": "No piece is wider than its sheet",
        "first_course": "The cap's first course is a full sheet",
        "cut_step": "Pieces are cut to whole steps, at least as long as they lie",
        "roll": "Every piece is cut from one roll",
        "roll_sheet": "Pieces are cut from rolls of their own sheet",
        "roll_drawn": "No roll gives more than its length",
        "roll_count": "What is used and left of each roll is right",
        "laying_order": "Pieces are laid from the low edge up, ply by ply, so that every lap sheds water",
        "end_lap_order": "The exposed edge of an end lap is that of the piece laid later",
        "lap": "The list of laps holds every lap, each as it lies",
        "plane_lap": "Laps over ridges and onto valley sheets are listed, each as it lies",
        "tjoint": "The list of T-joints holds every place where one lap meets another",
        "corner_cut": "Corners of the cap's sheets are cut at T-joints, to size",
        "detail": "Details belong to a part of the job, stand along it, and are named for it",
        "flashed": "Every wall, parapet, curb and expansion joint is flashed in both plies along its whole length",
        "flashing_girth": "The girth of a flashing is that of its parts, and it stands as high as asked",
        "flashing_fixing": "A tall flashing is held part-way up",
        "corner_flashed": "Every corner of flashed faces has its gussets in both plies",
        "drain_flashed": "Every drain has its metal and targets, every pipe and scupper its flashing and strips",
        "edge_covered": "Every metal edge has its metal and cleat, and in two plies its strip, along its whole length",
        "edge_joints": "Every joint of edge metal has its cover, every corner its piece, covers and strip",
        "cant": "A cant lies at the foot of every flashed face, along its whole length",
        "flashing_lap_stagger": "Joints of flashings are clear of the field's side laps where they can be",
        "detail_size": "Details are no larger than what is cut for them",
        "detail_lap": "Strips and flashings lap as the sheet asks, and their laps are listed as they lie",
        "foot": "The feet of flashings, strips and patches on the field are listed as they lie",
        "count": "Counts of rolls and end laps are right",
        "bound": "Counts are not below what any layout needs",
    }
)


def rule_names() -> tuple[str, ...]:
    """Names of the rules, in a stable order.

    Source: docs/method/rulecheck.md
    """
    return tuple(RULES)


def title_of(rule: str) -> str:
    """What a rule asks, in words.

    Raises: KeyError for a name that is no rule.
    Source: docs/method/rulecheck.md
    """
    return RULES[rule]
