"""What keys say about one another: names that must be there, sides that must exist, orders, limits, counts.

It reads the tree again, so that one key that can't be read does not hide what is wrong beside it.
"""

from __future__ import annotations

import re

from lapwright.job.assembly_models import PLY_ORDERS
from lapwright.job.crossareas import drawn_areas
from lapwright.job.crossrules import rules_with_sheets
from lapwright.job.fields import close_to
from lapwright.job.roof_models import DRAIN_KEYS, sides_of
from lapwright.job.tree import Node, Path, Row, Table, Text, plain
from lapwright.job.view import Cross, View
from lapwright.units import read
from lapwright.units.unread import Unread

GROUPS = ("primer", "mastic", "caulk", "granules", "fasteners", "edge_metal", "labour_hour")


def cross_faults(root: Node) -> list[Cross]:
    """Every fault between keys.

    Holds for: a tree that was read whole.
    """
    view = View(root)
    _areas(view)
    drawn_areas(view)
    _weather(view)
    _plies(view)
    for name in view.names(("sheets",)):
        _sheet(view, ("sheets", name))
    rules_with_sheets(view)
    _crew(view)
    _weld(view)
    _prices(view)
    return view.found


def slug(name: str) -> str:
    """A name as ids and layers carry it: letters and digits in small, the rest hyphens."""
    return re.sub(r"[\W_]+", "-", name.casefold()).strip("-") or name


def _areas(view: View) -> None:
    if isinstance(view.node(("roof",)), Row) and not list(view.rows(("roof",))):
        view.tell(("roof",), "one area or more", "- area: Main")
    _own_names(view, [(*area, "area") for area in view.rows(("roof",))])
    for area in view.rows(("roof",)):
        parts = [item for key in ("openings", "pipes", "drains") for item in view.rows((*area, key))]
        _own_names(view, [(*item, "name") for item in parts])
        sides = _side_count(view, (*area, "outline"))
        _edges(view, area, sides)
        _planes(view, area)
        for drain in view.rows((*area, "drains")):
            _drain(view, drain, sides)


def _planes(view: View, area: Path) -> None:
    """An area falls one way, or its planes do."""
    falls = (
        ("falls", "the way water runs: E N W S, or a bearing", "S"),
        ("slope", "how steeply it falls", "1/4 in 12"),
    )
    if "planes" not in view.names(area):
        for name, words, write in falls if view.is_whole(area) else ():
            if name not in view.names(area):
                view.tell((*area, name), f"the key {name}: {words}", f"{name}: {write}", read="")
        return
    planes = list(view.rows((*area, "planes")))
    _own_names(view, [(*plane, "plane") for plane in planes])
    areas = {slug(one): one for row in view.rows(("roof",)) if (one := view.text((*row, "area")))}
    for plane in planes:
        own = view.text((*plane, "plane"))
        whole = slug(f"{view.text((*area, 'area'))} {own}")
        if own and whole in areas:
            view.tell((*plane, "plane"), f"a name that makes no area's name; {areas[whole]} is one", f"{own}-2")
    if isinstance(view.node((*area, "planes")), Row) and len(planes) < 2:
        view.tell((*area, "planes"), "two planes or more; of one the area says the fall", "falls: S")
    for name, _, _ in falls:
        if name in view.names(area):
            view.tell((*area, name), f"{name} of the area or its planes, not both", "", at_key=True)


def _own_names(view: View, paths: list[Path]) -> None:
    taken: dict[str, str] = {}
    for path in paths:
        name = view.text(path)
        if name is None:
            continue
        if slug(name) in taken:
            view.tell(path, f"a name of its own; {taken[slug(name)]} is taken", f"{name}-2")
        else:
            taken[slug(name)] = name


def _side_count(view: View, path: Path) -> int | None:
    node = view.node(path)
    if isinstance(node, Text):
        legs = view.value(path, read.walk)
        return len(legs) if legs is not None else None
    if not isinstance(node, Row):
        return None  # a drawing is opened later
    corners = plain(node)
    assert isinstance(corners, list)  # plain() of a Row
    is_closed = len(corners) > 1 and corners[0] == corners[-1]
    return len(corners) - is_closed


def _edges(view: View, area: Path, sides: int | None) -> None:
    taken: dict[int, int] = {}
    for edge in view.rows((*area, "edges")):
        path = (*edge, "sides")
        node = view.node(path)
        try:
            numbers = sides_of(plain(node)) if node is not None else ()
        except Unread:
            continue
        if sides is not None and any(number > sides for number in numbers):
            view.tell(path, f"sides from 1 to {sides}, as many as the outline has", f"1-{sides}")
            continue
        twice = next((number for number in numbers if number in taken), None)
        if twice is not None:
            view.tell(path, f"each side once; side {twice} stands in edges[{taken[twice]}] already", "")
        elif len(set(numbers)) < len(numbers):
            view.tell(path, "each side once", ", ".join(str(number) for number in dict.fromkeys(numbers)))
        for number in numbers:
            taken.setdefault(number, int(edge[-1]))


def _drain(view: View, drain: Path, sides: int | None) -> None:
    kind = view.text((*drain, "kind"))
    side = view.value((*drain, "side"), read.integer)
    if side is not None and sides is not None and side > sides:
        view.tell((*drain, "side"), f"a side from 1 to {sides}, as many as the outline has", "1")
    own = DRAIN_KEYS.get(kind or "")
    if kind is None or own is None:
        return
    known = {name for names in DRAIN_KEYS.values() for name in names}
    for name in view.names(drain):
        if name in known and name not in own:
            words = kind.replace("_", " ")
            needs = f"the keys of a{'n' if words[0] in 'aeiou' else ''} {words}: {', '.join(own)}"
            view.tell((*drain, name), needs, "", at_key=True)


def _weather(view: View) -> None:
    node = view.node(("weather",))
    if not isinstance(node, Table):
        return
    given = [name for name in ("year", "file") if name in node.pairs]
    if len(given) == 2:
        typed = view.text(("weather", "year")) or "greensboro"
        view.tell(("weather", "file"), "a bundled year or a file, not both", f"weather: {{year: {typed}}}", at_key=True)
    elif not given and not node.pairs:
        view.tell(("weather",), "a bundled year or a file", "{year: greensboro}")


def _plies(view: View) -> None:
    paths = list(view.rows(("assembly", "plies")))
    names = tuple(view.text((*path, "ply")) for path in paths)
    if isinstance(view.node(("assembly", "plies")), Row) and not 2 <= len(paths) <= 3:
        view.tell(("assembly", "plies"), "two or three plies, bottom first", "base, cap; or base, interply, cap")
    elif paths and None not in names and names not in PLY_ORDERS:
        order = PLY_ORDERS[len(names) - 2]
        if all(name in PLY_ORDERS[1] for name in names):
            needs, typed = f"the plies bottom first: {', '.join(order)}", ", ".join(name or "" for name in names)
            view.tell(("assembly", "plies"), needs, ", ".join(order), read=typed)
    sheets = view.names(("sheets",))
    for path in paths:
        sheet = view.text((*path, "sheet"))
        if sheet is not None and sheets and sheet not in sheets and view.is_whole(("sheets",)):
            write = close_to(sheet, sheets) or sheets[0]
            view.tell((*path, "sheet"), f"a sheet that this file has: {', '.join(sheets)}", write)


def _sheet(view: View, path: Path) -> None:
    lengths = {key: view.value((*path, key), read.length_ticks) for key in ("width", "length", "side_lap", "end_lap")}
    for lap, whole in (("side_lap", "width"), ("end_lap", "length")):
        narrow, wide = lengths[lap], lengths[whole]
        if narrow is not None and wide is not None and 0 < wide <= 2 * narrow:
            view.tell((*path, lap), f"a lap under half the sheet's {whole}, {view.text((*path, whole))}", '3"')
    above: tuple[float, str] | None = None
    for key in ("apply_at_or_above", "warm_rolls_at_or_above", "with_heat_at_or_above"):
        limit = view.value((*path, key), read.temperature_c)
        if limit is None:
            continue
        if above is not None and limit > above[0]:
            text = view.text((*path, above[1])) or ""
            view.tell((*path, key), f"a limit no higher than {above[1]}, {text}", text)
        above = (limit, key)


def _crew(view: View) -> None:
    people = view.value(("crew", "people"), read.integer)
    welders = view.value(("crew", "welders"), read.integer)
    if people is not None and welders is not None and 0 < people < welders:
        view.tell(("crew", "welders"), f"no more welders than people, {people}", str(people))


def _weld(view: View) -> None:
    slowest, fastest = (view.value(("weld", key), read.speed_m_s) for key in ("slowest", "fastest"))
    if slowest is not None and fastest is not None and slowest > fastest:
        text = view.text(("weld", "fastest"))
        view.tell(("weld", "slowest"), f"a speed no higher than fastest, {text}", text or "")


def _prices(view: View) -> None:
    items = [*view.names(("sheets",)), *(group for group in GROUPS if group not in view.names(("sheets",)))]
    for name in view.names(("prices",)):
        if name not in items:
            near = close_to(name, items)
            needs = f"a sheet of this file or one of {', '.join(GROUPS)}"
            view.tell(("prices", name), needs, f"{near}: {view.text(('prices', name))}" if near else "", at_key=True)
    _one_money(view)


def _one_money(view: View) -> None:
    """Sums are made of prices, so those that say their money say the same."""
    first: tuple[str, str] | None = None
    for name in view.names(("prices",)):
        money = view.value(("prices", name), read.currency)
        if not money:
            continue
        if first is None:
            first = (name, money)
        elif money != first[1]:
            amount = view.value(("prices", name), read.price)
            write = f"the amount in {first[1]}; {amount:g} alone is taken as {first[1]}"
            view.tell(("prices", name), f"one money for all prices; {first[0]} is in {first[1]}", write)
