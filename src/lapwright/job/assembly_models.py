"""The build-up as typed: deck, boards, plies, sheets and other materials.

A product is data: what its data sheet says.  Widths, lengths and laps of sheets are ticks of 1/80 mm, thickness
metres, temperatures °C, pressures Pa; what was not given is None.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from pydantic import Discriminator, Field, Tag

from lapwright.job.fields import TEXT, OneOf, Reads, YesNo, key, needed
from lapwright.job.part import Part
from lapwright.units import read

DECK_KINDS = ("concrete", "steel", "plywood", "plank", "gypsum")
INSULATION_KINDS = ("polyiso", "eps", "xps", "mineral_wool", "perlite", "wood_fibre", "cellular_glass", "other")
COVER_BOARD_KINDS = ("gypsum", "polyiso", "polyiso_board", "perlite", "wood_fibre", "cement", "plywood", "other")
OTHER_BOARDS = (("wood_fiber", "wood_fibre"),)
BOARD_ATTACHMENTS = ("adhered", "mechanically_fastened", "loose")
PLY_ATTACHMENTS = ("self_adhered", "mechanically_fastened")
PLY_ORDERS = (("base", "cap"), ("base", "interply", "cap"))
SURFACINGS = ("granules", "film", "sand", "foil", "smooth")
ZONES = ("1'", "1", "2", "3")

_UPLIFT = Reads("pressure", read.pressure_pa, "90 psf", low="1 psf", high="2000 psf")


def _limit(write: str) -> Reads:
    return Reads("temperature", read.temperature_c, write, low="-40 F", high="150 F")


def _lap(write: str) -> Reads:
    return Reads("length", read.length_ticks, write, above='0"', high='36"')


def _thickness(write: str) -> Reads:
    return Reads("length", read.length_m, write, above='0"', high='40"')


def _spacing(write: str) -> Reads:
    return Reads("length", read.length_m, write, low='1"', high="20'")


def _count(write: str, low: str, high: str) -> Reads:
    return Reads("whole number", read.integer, write, low=low, high=high, has_unit=False)


def _force(write: str) -> Reads:
    return Reads("force", read.force_n, write, low="1 lbf", high="10000 lbf")


class DeckTyped(Part):
    """What the roof is built on."""

    kind: Annotated[str | None, OneOf(DECK_KINDS)] = key("what the deck is made of")
    nailable: Annotated[bool | None, YesNo()] = key("whether nails hold in it")
    live_load: Annotated[
        float | None, Reads("pressure", read.pressure_pa, "20 psf", above="0 psf", high="2000 psf")
    ] = key("live load that it may carry, from the structural drawings")
    snow: Annotated[float | None, Reads("pressure", read.pressure_pa, "5 psf", low="0 psf", high="500 psf")] = key(
        "load of snow and ice that may lie on it while material is on the roof"
    )


_PER_BOARD = _count("8", "1", "64")


class BoardCountsTyped(Part):
    """Fasteners in one board, zone by zone."""

    inner: Annotated[int | None, _PER_BOARD] = Field(default=None, alias="1'", description="zone 1', the inner field")
    field: Annotated[int | None, _PER_BOARD] = Field(default=None, alias="1", description="zone 1, the field")
    edge: Annotated[int | None, _PER_BOARD] = Field(default=None, alias="2", description="zone 2, along edges")
    corner: Annotated[int | None, _PER_BOARD] = Field(default=None, alias="3", description="zone 3, at corners")


class RibbonsTyped(Part):
    """Spacing of ribbons of adhesive, zone by zone."""

    inner: Annotated[float | None, _spacing('12"')] = Field(
        default=None, alias="1'", description="zone 1', the inner field"
    )
    field: Annotated[float | None, _spacing('12"')] = Field(default=None, alias="1", description="zone 1, the field")
    edge: Annotated[float | None, _spacing('6"')] = Field(default=None, alias="2", description="zone 2, along edges")
    corner: Annotated[float | None, _spacing('4"')] = Field(default=None, alias="3", description="zone 3, at corners")


class BoardFasteningTyped(Part):
    """How boards are held, from the assembly's report."""

    board: Annotated[float | None, Reads("area", read.area_m2, "32 sf", low="1 sf", high="200 sf")] = key(
        "area of one board"
    )
    per_board: BoardCountsTyped | None = key("fasteners in one board, by zone 1', 1, 2, 3")
    value: Annotated[float | None, _force("90 lbf")] = key("allowable load of one fastener through the boards")
    ribbons: RibbonsTyped | None = key("spacing of ribbons of adhesive, by zone 1', 1, 2, 3")
    ribbon_value: Annotated[
        float | None, Reads("load per length", read.line_load_n_m, "45 plf", low="1 plf", high="10000 plf")
    ] = key("allowable load along a ribbon")


class InsulationTyped(Part):
    """Insulation boards."""

    kind: Annotated[str | None, OneOf(INSULATION_KINDS, OTHER_BOARDS)] = key("what the boards are made of")
    thickness: Annotated[float | None, _thickness('3"')] = key("thickness in all")
    attachment: Annotated[str | None, OneOf(BOARD_ATTACHMENTS)] = key("how they are held")
    fastening: BoardFasteningTyped | None = key("their fasteners or ribbons by zone, as the report has them")


class CoverBoardTyped(Part):
    """Boards over the insulation."""

    kind: Annotated[str | None, OneOf(COVER_BOARD_KINDS, OTHER_BOARDS)] = key("what the boards are made of")
    thickness: Annotated[float | None, _thickness('1/2"')] = key("thickness")
    attachment: Annotated[str | None, OneOf(BOARD_ATTACHMENTS)] = key("how they are held")
    fastening: BoardFasteningTyped | None = key("their fasteners or ribbons by zone, as the report has them")


class ZonePatternTyped(Part):
    """How a ply is nailed in one zone."""

    laps: Annotated[float | None, _spacing('9"')] = key("spacing of fasteners along the side laps")
    field: Annotated[float | None, _spacing('12"')] = key("spacing of fasteners along each row between the laps")
    rows: Annotated[int | None, _count("2", "0", "20")] = key("number of rows between the laps")


class ZonePatternsTyped(Part):
    """Patterns of the zones that differ."""

    inner: ZonePatternTyped | None = Field(default=None, alias="1'", description="zone 1', the inner field")
    field: ZonePatternTyped | None = Field(default=None, alias="1", description="zone 1, the field")
    edge: ZonePatternTyped | None = Field(default=None, alias="2", description="zone 2, along edges")
    corner: ZonePatternTyped | None = Field(default=None, alias="3", description="zone 3, at corners")


class NailingTyped(Part):
    """How a mechanically fastened ply is nailed, from the assembly's report."""

    laps: Annotated[float | None, _spacing('9"')] = key("spacing of fasteners along the side laps")
    field: Annotated[float | None, _spacing('18"')] = key("spacing of fasteners along each row between the laps")
    rows: Annotated[int | None, _count("2", "0", "20")] = key("number of rows between the laps")
    value: Annotated[float | None, _force("60 lbf")] = key(
        "allowable load of one fastener through this sheet into this deck"
    )
    zones: ZonePatternsTyped | None = key("patterns of the zones that differ, by zone 1', 1, 2, 3")


class PlyTyped(Part):
    """One layer of sheet."""

    ply: Annotated[str, OneOf(("base", "interply", "cap"))] = needed("which ply it is")
    sheet: Annotated[str, TEXT] = needed("name of its sheet, one of `sheets`")
    attachment: Annotated[str | None, OneOf(PLY_ATTACHMENTS)] = key("how it is held")
    nailing: NailingTyped | None = key("how it is nailed where it is mechanically fastened")


class UpliftByZone(Part):
    """Rated uplift, zone by zone."""

    inner: Annotated[float | None, _UPLIFT] = Field(default=None, alias="1'", description="zone 1', the inner field")
    field: Annotated[float | None, _UPLIFT] = Field(default=None, alias="1", description="zone 1, the field")
    edge: Annotated[float | None, _UPLIFT] = Field(default=None, alias="2", description="zone 2, along edges")
    corner: Annotated[float | None, _UPLIFT] = Field(default=None, alias="3", description="zone 3, at corners")


def _uplift_form(value: object) -> str | None:
    if isinstance(value, str):
        return "@one"
    return "@zones" if isinstance(value, Mapping) else None


RatedUplift = Annotated[
    Annotated[float, _UPLIFT, Tag("@one")] | Annotated[UpliftByZone, Tag("@zones")], Discriminator(_uplift_form)
]


class AssemblyTyped(Part):
    """The build-up, from the deck up."""

    deck: DeckTyped | None = key("the deck")
    insulation: InsulationTyped | None = key("insulation")
    cover_board: CoverBoardTyped | None = key("cover board")
    plies: tuple[PlyTyped, ...] = needed("the plies, bottom first: base, cap; or base, interply, cap")
    rated_uplift: RatedUplift | None = key(
        "listed (ultimate) uplift of the whole assembly, one value or by zone 1', 1, 2, 3"
    )

    @property
    def rated_uplift_pa(self) -> Mapping[str, float]:
        """Rated uplift [Pa] by zone; key "all" where one value serves all; empty where none is given."""
        given = self.rated_uplift
        if given is None:
            return {}
        if not isinstance(given, UpliftByZone):
            return {"all": given}
        values = (given.inner, given.field, given.edge, given.corner)
        return {zone: value for zone, value in zip(ZONES, values, strict=True) if value is not None}


class SheetTyped(Part):
    """A roll good, as its data sheet describes it."""

    width: Annotated[int, Reads("length", read.length_ticks, '39 3/8"', low='6"', high="20'")] = needed("roll width")
    length: Annotated[int, Reads("length", read.length_ticks, "32' 10\"", low="3'", high="1000'")] = needed(
        "roll length"
    )
    thickness: Annotated[float | None, Reads("length", read.length_m, "4 mm", low="0.3 mm", high="20 mm")] = key(
        "thickness"
    )
    side_lap: Annotated[int, _lap('3"')] = needed("width of its side laps")
    end_lap: Annotated[int, _lap('6"')] = needed("width of its end laps")
    apply_at_or_above: Annotated[float | None, _limit("50 F")] = key("at or above this it needs nothing special")
    warm_rolls_at_or_above: Annotated[float | None, _limit("20 F")] = key(
        "down to this it goes down as usual from warm rolls"
    )
    with_heat_at_or_above: Annotated[float | None, _limit("20 F")] = key(
        "down to this it goes down from warm rolls with its laps welded and rolled"
    )
    surfacing: Annotated[str | None, OneOf(SURFACINGS)] = key("what its upper face carries")
    modulus: Annotated[
        float | None,
        Reads("load per length", read.line_load_n_m, "50000 lbf/in", low="1 lbf/in", high="10000000 lbf/in"),
    ] = key("load to a width for a strain of one, in the cold, in its weaker direction")
    expansion: Annotated[
        float | None, Reads("expansion", read.expansion_per_k, "20 ppm/F", above="0 ppm/F", high="500 ppm/F")
    ] = key("coefficient of expansion in the cold")


class MaterialTyped(Part):
    """Something that comes in pails or tubes."""

    apply_at_or_above: Annotated[float | None, _limit("40 F")] = key("lowest temperature at which it may be used")
    coverage: Annotated[
        float | None, Reads("coverage", read.coverage_m2_m3, "160 sf/gal", above="0 sf/gal", high="10000 sf/gal")
    ] = key("area that a volume of it covers")
    drying: Annotated[float | None, Reads("duration", read.duration_s, "45 min", low="0 min", high="14 d")] = key(
        "how long it must dry before it is covered"
    )


class MaterialsTyped(Part):
    """Other materials."""

    primer: MaterialTyped | None = key("primer")
    mastic: MaterialTyped | None = key("trowel-grade SBS mastic")
    caulk: MaterialTyped | None = key("caulk-grade SBS mastic")
