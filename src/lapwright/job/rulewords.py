"""What each rule means, in the words of the key table and the schema."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

RULE_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "ply_offset": "side laps of a ply from those of the ply under it, exposed edge to exposed edge, at least",
        "ply_offset_at_rip": "the same beside a ripped course, at least",
        "end_lap_stagger": "end laps of adjacent courses from one another, at least",
        "end_lap_ply_offset": "end laps of a ply from those of the ply under it, at least",
        "shortest_piece": "no piece is shorter, unless its run is",
        "longest_piece": "what a crew can handle; never over the roll",
        "narrowest_rip": "exposed width of a ripped course, at least",
        "cut_step": "cut lengths are rounded up to this",
        "base_over_edge": "base past a metal edge, turned down",
        "cap_back_from_edge": "cap held back from the metal's edge; the gap takes a bead",
        "edge_strip": "width of the strip under edge metal in a two-ply roof",
        "cant": "rise of the cant",
        "base_up_wall": "base beyond the top of the cant",
        "cap_up_wall": "cap beyond the foot of the cant",
        "flashing_height": "flashing above the finished roof, at least",
        "spare_rolls": "rolls of each sheet beyond the cut list",
        "limits_hold_for": "what a sheet's temperature limits hold for, as its maker writes",
        "dew_point_margin": "a surface is wet nearer to the dew point than this",
        "wind_sheets": "no sheet goods are handled above this wind",
        "gust_stop": "nobody works on the roof above this gust",
        "dry_after_wet": "no cap on a base wetted or frosted within, unless dried and measured",
        "cover_within": "a base may lie open this long",
        "corner_cut": "length of the 45° corner cut; its width is the selvage",
        "end_lap_drain": "no end lap nearer to the middle of a drain",
        "valley_back": "courses end so far short of a valley's line, on the valley sheet",
        "over_ridge": "each ply runs so far past a ridge or hip, under or over the other plane's",
        "strap_at": "slope from which courses run with the fall and are back-fastened",
        "flashing_lap_stagger": "side laps between flashing pieces from laps of the field, as far as can be",
        "close_within": "nothing is opened where rain or snow comes within this time; it takes so long to close",
        "roll_within": "laps are rolled within this time of being laid, while air and surface still hold the limit",
        "lightning_wait": "nobody is on the roof within this time of thunder",
        "snow_cleared_within": "hours of daylight after the last snow in which a roof is cleared of it",
        "wind_chill_stop": "nobody works on the roof at a lower wind chill",
    }
)
