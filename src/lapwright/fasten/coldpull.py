"""The cold's own check: a cap that has bonded to edge metal shrinks as it gets cold, and pulls on the metal (Q3).

A sheet held at its edge can't shorten; what holds it there feels the load to a width that would stretch it back.  That
the sheet is stuck to the roof as well is left out: in the cold, at its edge, nobody has measured how much that takes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.assembly.values import Assembly
from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.fasten.metals import MetalGroup, metal_groups
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step, judged

SOURCE = (
    "restrained sheet, load to a width = M a dT: MIL-HDBK-1001/5A, thermal shock factor P / (M a); M and a only from "
    "the sheet's maker, by a test in the cold"
)
CONFIRM = "the maker of the sheet for M and a; the maker of the edge for its fasteners"
USES: Mapping[str, tuple[str, ...]] = {
    "metal.cold-pull-*": (
        "roof[*].edges[*].kind",
        "sheets.*.modulus",
        "sheets.*.expansion",
        "roof[*].edges[*].metal.nail_shear",
        "roof[*].edges[*].metal.nail_spacing",
    ),
}


def restrained_load_n_m(modulus_n_m: float, expansion_per_k: float, drop_k: float) -> float:
    """Load to a width [N/m] in a sheet held at both ends that is cooled by `drop_k` [K].

    modulus_n_m: load to a width for a strain of one [N/m].
    Holds for: a sheet that does not creep; a slow night lets it, so this is the most.
    Source: MIL-HDBK-1001/5A, glossary: thermal shock factor P / (M a)
    Checked: tests/published/fasten.csv coldpull-*
    """
    return modulus_n_m * expansion_per_k * drop_k


def thermal_shock_k(strength_n_m: float, modulus_n_m: float, expansion_per_k: float) -> float:
    """The drop [K] that would split a rigidly held strip of a strength [N/m].

    Source: MIL-HDBK-1001/5A, glossary: thermal shock factor P / (M a)
    Checked: tests/published/fasten.csv coldpull-*
    """
    return strength_n_m / (modulus_n_m * expansion_per_k)


def check_cold_pull(areas: Sequence[Area], assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each row of edges with metal: the pull of the cap in the coldest hour against the flange's nails.

    Holds for: the cap bonded at the table's temperature, no creep, the flange's nails alone holding.
    Source: MIL-HDBK-1001/5A, glossary: thermal shock factor
    Checked: tests/published/fasten.csv coldpull-*
    """
    return tuple(_check(group, assembly) for group in metal_groups(areas))


def _check(group: MetalGroup, assembly: Assembly | None) -> Check:
    id = f"metal.cold-pull-{group.tag}"
    title = f"Edge metal of {group.words}: pull of the cap as it shrinks in the cold"
    reading = Reading()
    group.read_kinds(reading)
    cap = assembly.plies[-1].sheet if assembly is not None and assembly.plies else None
    sheet = f"sheets.{cap.name}" if cap is not None else "sheets.cap"
    modulus = reading.take(f"{sheet}.modulus", cap.modulus_n_m if cap is not None else None)
    expansion = reading.take(f"{sheet}.expansion", cap.expansion_per_k if cap is not None else None)
    shear = group.read(reading, "nail_shear", "nail_shear_n")
    spacing = group.read(reading, "nail_spacing", "nail_spacing")
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    warm, cold = default_si("fasten", "cap_set_at"), default_si("fasten", "metal_coldest")
    load = restrained_load_n_m(modulus, expansion, warm - cold)
    rows = default_number("fasten", "metal_nail_rows")
    held = rows * shear / spacing
    rated = table("fasten")
    return Check(
        id=id,
        title=title,
        status=judged(load, held),
        demand=load,
        capacity=held,
        unit="N/m",
        steps=(
            Step(
                text=f"Load of the shrinking cap to each length of edge, bonded at the first temperature "
                f"[{rated['cap_set_at'].origin}], coldest at the second [{rated['metal_coldest'].origin}], no creep",
                formula="F = M a (t bonded - t coldest)",
                values={
                    "M [N/m]": modulus,
                    "a [1/K]": expansion,
                    "t bonded [degC]": warm,
                    "t coldest [degC]": cold,
                },
                result=load,
                unit="N/m",
            ),
            Step(
                text="What the flange's nails hold along the roof, in two rows; the cleat and the bond are left out",
                formula="rows x nail / spacing",
                values={"rows": rows, "nail [N]": shear, "spacing [m]": spacing},
                result=held,
                unit="N/m",
            ),
        ),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )
