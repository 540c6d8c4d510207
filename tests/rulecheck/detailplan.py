"""The plan drawn by hand with its details: metal and strips on side 1, flashings at the parapet and round the curb.

All lengths are inches, worked out with a pencil: side 1 is 600 long, five lengths of 120 of metal, strips of 396 and
210 that lap 6; side 2 is 104 1/4 long, four pieces that lap 3 and whose joints, at 24, 60 and 88, keep 12 off the
cap's side laps at 36 7/8 and 73 1/4; the curb's faces take a piece each.  Behind the metal lies its cleat, over its
four joints a cover; cant lies along every face.  No height is given, so flashings stand 8 high: 4 of wall, the cant's
face 4√2, a leg of 4 or 6 on the field.  Every piece has a roll of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from handplan import CURB, TICKS, Drawing, Json, metres, write

GIRTH = 4 + 4 * math.sqrt(2)
LENGTHS = {"base-sa": 787.0, "cap-sa": 394.0}
LEGS = (("base", 4.0), ("cap", 6.0))
WALL = ((0.0, 27.0), (24.0, 63.0), (60.0, 91.0), (88.0, 104.25))
STRIPS = ((0.0, 396.0), (390.0, 600.0))


def write_detailed(drawing: Drawing | None = None, *more: Json) -> Json:
    """The plan of the drawing, with its details, their laps and their rolls, and more details."""
    plan = write(drawing or Drawing())
    details = [*edge(), *flashings(), *gussets(), *cants(), *more]
    plan["details"] = details
    plan["laps"] += list(laps(details))
    plan["rolls"] += [roll_of(one) for one in details if one["sheet"]]
    return plan


def edge() -> Iterator[Json]:
    """Metal and strips on side 1."""
    for k in range(5):
        line = ((120 * k, 0), (120 * k + 120, 0))
        yield detail(f"metal {k + 1}", "metal", "side 1", ("", ""), (120, 4), line)
        yield detail(f"cleat {k + 1}", "cleat", "side 1", ("", ""), (120, 0), line)
    for k in range(1, 5):
        made = detail(f"joint cover {k}", "joint_cover", "side 1", ("", ""), (0, 0), ((0, 0), (0, 0)))
        yield {**made, "line": None, "at": [metres(120 * k), 0.0]}
    for k, (a, b) in enumerate(STRIPS, start=1):
        yield detail(f"strip {k}", "strip", "side 1", ("base-sa", "strip"), (b - a, 9), ((a, 0), (b, 0)))


def faces_of_curb() -> dict[str, tuple[tuple[float, float], tuple[float, float]]]:
    """The curb's faces by name."""
    (x, y), (w, h) = ([value / TICKS for value in pair] for pair in (CURB.corner, CURB.size))
    return {
        "O-1 S": ((x, y), (x + w, y)),
        "O-1 E": ((x + w, y), (x + w, y + h)),
        "O-1 N": ((x + w, y + h), (x, y + h)),
        "O-1 W": ((x, y + h), (x, y)),
    }


def cants() -> Iterator[Json]:
    """A length along each face."""
    for of, line in {"side 2": ((600, 0), (600, 104.25)), **faces_of_curb()}.items():
        yield detail("cant 1", "cant", of, ("", ""), (math.dist(*line), 4), line)


def flashings() -> Iterator[Json]:
    """Backer and cap flashings of side 2 and of the curb's faces."""
    faces = faces_of_curb()
    for ply, leg in LEGS:
        walls = [(f"{ply} flashing {k}", "side 2", ((600, a), (600, b))) for k, (a, b) in enumerate(WALL, start=1)]
        for name, of, line in [*walls, *((f"{ply} flashing 1", of, line) for of, line in faces.items())]:
            sizes = (GIRTH + leg, math.dist(*line))
            parts = {"wall": metres(4), "cant": metres(4 * math.sqrt(2)), "field": metres(leg)}
            yield {**detail(name, "flashing", of, (f"{ply}-sa", ply), sizes, line), "parts": parts} | {
                "sizes": {"length": metres(sizes[0]), "width": metres(sizes[1]), "parts": parts}
            }


def gussets() -> Iterator[Json]:
    """Upright ones of both plies at the curb's four corners; the parapet has none."""
    (x, y), (w, h) = ([value / TICKS for value in pair] for pair in (CURB.corner, CURB.size))
    corners = {"SW": (x, y), "SE": (x + w, y), "NE": (x + w, y + h), "NW": (x, y + h)}
    for name, (east, north) in corners.items():
        for ply, leg in LEGS:
            sizes, nowhere = (GIRTH + leg, 12), ((0, 0), (0, 0))
            made = detail(f"{ply} gusset upright", "gusset", f"O-1 {name}", (f"{ply}-sa", ply), sizes, nowhere)
            yield {**made, "line": None, "at": [metres(east), metres(north)]}


def detail(
    name: str, kind: str, of: str, made: tuple[str, str], sizes: tuple[float, float], line: tuple[Any, Any]
) -> Json:
    """A detail.  made: sheet and ply; sizes: length and width."""
    id, (sheet, ply) = f"Main/{of}/{name}", made
    takes = metres(math.ceil(2 * sizes[0] - 1e-9) / 2) if sheet else 0.0
    return {
        "id": id,
        "kind": kind,
        "area": "Main",
        "of": of,
        "sheet": sheet,
        "ply": ply,
        "sizes": {"length": metres(sizes[0]), "width": metres(sizes[1]), "parts": {}},
        "line": [[metres(x), metres(y)] for x, y in line],
        "roll": f"roll of {id}" if sheet else "",
        "takes": takes,
        "beside": "",
    }


def laps(details: list[Json]) -> Iterator[Json]:
    """One end lap of strips; three side laps of flashings in either ply."""
    by_id = {one["id"]: one for one in details}
    pairs = [("Main/side 1/strip 1", "Main/side 1/strip 2", "strip", 9.0, 6.0)]
    for ply, leg in LEGS:
        names = [f"Main/side 2/{ply} flashing {k}" for k in (1, 2, 3, 4)]
        pairs += [(names[k], names[k + 1], "flashing", GIRTH + leg, 3.0) for k in (0, 1, 2)]
    for one, two, kind, length, width in pairs:
        at = by_id[two]["line"][0]
        away = [at[0], at[1] + metres(4.5)] if kind == "strip" else [at[0] - metres(4), at[1]]
        yield {
            "id": f"{two}/lap",
            "kind": kind,
            "area": "Main",
            "ply": by_id[two]["ply"],
            "pieces": [one, two],
            "line": [list(at), away],
            "length": metres(length),
            "width": metres(width),
        }


def roll_of(one: Json) -> Json:
    """The roll of a detail."""
    left = metres(LENGTHS[one["sheet"]]) - one["takes"]
    return {"id": one["roll"], "sheet": one["sheet"], "pieces": [one["id"]], "used": one["takes"], "left": left}


def find(plan: Json, id: str) -> Json:
    """A detail of the plan."""
    return next(one for one in plan["details"] if one["id"] == id)


def lap(plan: Json, id: str) -> Json:
    """A lap of the plan."""
    return next(one for one in plan["laps"] if one["id"] == id)


def drop(plan: Json, id: str) -> None:
    """Take a detail out, with its laps and its roll."""
    plan["details"] = [one for one in plan["details"] if one["id"] != id]
    plan["laps"] = [one for one in plan["laps"] if id not in one["pieces"]]
    plan["rolls"] = [one for one in plan["rolls"] if one["pieces"] != [id]]


def recut(plan: Json, id: str, takes: float) -> None:
    """Another length of roll."""
    find(plan, id)["takes"] = metres(takes)
    plan["rolls"] = [roll_of(find(plan, id)) if one["pieces"] == [id] else one for one in plan["rolls"]]


def resize(plan: Json, id: str, length: float, **parts: float) -> None:
    """Another girth by its parts, cut from the roll accordingly."""
    one = find(plan, id)
    one["sizes"]["length"] = metres(length)
    one["sizes"]["parts"].update({name: metres(value) for name, value in parts.items()})
    recut(plan, id, math.ceil(2 * length) / 2)


def reach(plan: Json, id: str, a: float, b: float) -> None:
    """A strip from and to other places, its lap line with it."""
    one = find(plan, id)
    one["line"] = [[metres(a), 0.0], [metres(b), 0.0]]
    one["sizes"]["length"] = metres(b - a)
    recut(plan, id, b - a)


def shift_strip(plan: Json) -> None:
    """Strips that lap by 4"."""
    reach(plan, "Main/side 1/strip 2", 392, 600)


def one_strip(plan: Json) -> None:
    """One strip of 50'."""
    drop(plan, "Main/side 1/strip 2")
    reach(plan, "Main/side 1/strip 1", 0, 600)


def near_a_lap(plan: Json) -> None:
    """The last joint of the cap flashing at 85, 11 3/4 from the lap at 73 1/4."""
    one, two = (find(plan, f"Main/side 2/cap flashing {k}") for k in (3, 4))
    one["line"][1][1], two["line"][0][1] = metres(88), metres(85)
    one["sizes"]["width"], two["sizes"]["width"] = metres(28), metres(19.25)
    line = lap(plan, "Main/side 2/cap flashing 4/lap")["line"]
    for point in line:
        point[1] = metres(85)


def crowd(plan: Json) -> None:
    """A second piece of full width beside the first, from the same roll."""
    first, second = (f"Main/side 2/cap flashing {k}" for k in (1, 2))
    roll = find(plan, first)["roll"]
    plan["rolls"] = [one for one in plan["rolls"] if one["pieces"] != [second]]
    next(one for one in plan["rolls"] if one["id"] == roll)["pieces"].append(second)
    find(plan, second).update(takes=0.0, beside=first, roll=roll)


def stray(plan: Json) -> None:
    """A gusset of a corner that is none."""
    name = "corner of sides 7 and 8"
    gusset = detail("gusset", "gusset", name, ("", ""), (12, 12), ((0, 0), (0, 0)))
    plan["details"].append({**gusset, "line": None, "at": [0.0, 0.0]})


def off_the_edge(plan: Json) -> None:
    """A length of metal 5" inside the roof."""
    for point in find(plan, "Main/side 1/metal 2")["line"]:
        point[1] += metres(5)


def idle_lap(plan: Json) -> None:
    """A lap of two faces of the curb."""
    given = lap(plan, "Main/side 2/cap flashing 2/lap")
    plan["laps"].append({**given, "id": "idle", "pieces": ["Main/O-1 S/cap flashing 1", "Main/O-1 N/cap flashing 1"]})


RIPPED = "Main/base/01/2"  # 23 11/16 of 39 3/8 wide, 388 long: 15 11/16 are ripped off


def from_rip(plan: Json, id: str, *, piece: str = RIPPED) -> None:
    """A detail cut from what is left beside a ripped piece."""
    found = next(one for ply in plan["plies"] for one in ply["pieces"] if one["id"] == piece)
    plan["rolls"] = [one for one in plan["rolls"] if one["pieces"] != [id]]
    next(one for one in plan["rolls"] if one["id"] == found["roll"])["pieces"].append(id)
    find(plan, id).update(takes=0.0, beside=piece, roll=found["roll"])


def crowded_rip(plan: Json) -> None:
    """The strip of 396 from a piece that is 388 long: nothing else is wrong with it."""
    from_rip(plan, "Main/side 1/strip 1")


def tall(plan: Json) -> None:
    """30" of wall and cant in all, without a row of fasteners."""
    resize(plan, "Main/O-1 S/cap flashing 1", 26 + 4 * math.sqrt(2) + 6, wall=26)


S_FACE = "Main/O-1 S/cap flashing 1"
CAP_LEG = GIRTH + 6
BROKEN: list[tuple[str, Callable[[Json], object]]] = [
    ("detail", stray),
    ("detail", off_the_edge),
    ("detail", lambda plan: find(plan, "Main/side 1/metal 2").update(id="metal by the door")),
    ("flashed", lambda plan: drop(plan, "Main/side 2/cap flashing 4")),
    ("flashed", lambda plan: drop(plan, "Main/side 2/base flashing 1")),
    ("flashed", lambda plan: drop(plan, S_FACE)),
    ("corner_flashed", lambda plan: drop(plan, "Main/O-1 SW/cap gusset upright")),
    ("corner_flashed", lambda plan: drop(plan, "Main/O-1 NE/base gusset upright")),
    ("corner_flashed", lambda plan: find(plan, "Main/O-1 NW/cap gusset upright")["at"].__setitem__(0, metres(305))),
    ("edge_covered", lambda plan: drop(plan, "Main/side 1/metal 3")),
    ("edge_covered", lambda plan: drop(plan, "Main/side 1/strip 2")),
    ("edge_covered", lambda plan: drop(plan, "Main/side 1/cleat 2")),
    ("edge_joints", lambda plan: drop(plan, "Main/side 1/joint cover 3")),
    ("cant", lambda plan: drop(plan, "Main/side 2/cant 1")),
    ("cant", lambda plan: drop(plan, "Main/O-1 E/cant 1")),
    ("flashing_lap_stagger", near_a_lap),
    ("flashing_girth", lambda plan: resize(plan, S_FACE, CAP_LEG - 1, wall=3)),
    ("flashing_girth", lambda plan: resize(plan, S_FACE, CAP_LEG + 1)),
    ("flashing_girth", lambda plan: resize(plan, S_FACE, CAP_LEG - 6, field=0)),
    ("flashing_girth", lambda plan: resize(plan, S_FACE, CAP_LEG - 1, cant=4 * math.sqrt(2) - 1)),
    ("flashing_fixing", tall),
    ("longest_piece", one_strip),
    ("detail_size", lambda plan: recut(plan, S_FACE, 15)),
    ("detail_size", crowd),
    ("detail_size", lambda plan: find(plan, S_FACE)["sizes"].update(width=metres(32))),
    ("detail_size", lambda plan: find(plan, S_FACE).update(beside="Main/O-1 N/cap flashing 1")),
    ("detail_size", crowded_rip),
    ("detail_size", lambda plan: from_rip(plan, "Main/side 2/base flashing 1")),
    ("detail_size", lambda plan: from_rip(plan, "Main/side 1/strip 2", piece="Main/base/02/1")),
    ("detail_lap", shift_strip),
    ("detail_lap", lambda plan: plan["laps"].remove(lap(plan, "Main/side 2/cap flashing 2/lap"))),
    ("detail_lap", lambda plan: plan["laps"].remove(lap(plan, "Main/side 1/strip 2/lap"))),
    ("detail_lap", lambda plan: lap(plan, "Main/side 2/cap flashing 2/lap").update(kind="strip")),
    ("detail_lap", lambda plan: lap(plan, "Main/side 2/cap flashing 2/lap").update(width=metres(4))),
    ("detail_lap", lambda plan: lap(plan, "Main/side 1/strip 2/lap").update(length=metres(8))),
    ("detail_lap", lambda plan: lap(plan, "Main/side 2/cap flashing 3/lap")["line"][0].__setitem__(1, metres(54))),
    ("detail_lap", idle_lap),
]
