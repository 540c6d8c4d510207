"""What a drawing shows on some of its layers, blocks taken apart: an entity of a block stands where the block is put.

A block's entities on layer 0 count as on the layer of the INSERT that places them; all others keep their own layer.
A *spot* is an INSERT that means one place, a pipe or a drain: it is left whole.
"""

from __future__ import annotations

import logging
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from io import StringIO
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Refused, shorten
from lapwright.intake.plan_scale import refusal
from lapwright.intake.plan_tags import Drawing, Drawn

INHERITS = "0"
LINES_EACH = 160  # of text in a drawing, for one entity; a long polyline has more, a line about 20
BROKEN = ("a whole DXF drawing", "the drawing saved once more")


@dataclass(frozen=True, slots=True)
class Piece:
    """One entity as ezdxf reads it, in place.

    place: its kind and handle as faults show them; for one that came out of a block, those of the INSERT too.
    """

    kind: str
    layer: str
    place: str
    entity: Any


@dataclass(frozen=True, slots=True)
class Shown:
    """What is wanted of a drawing, by layers in small letters.  spots: layers on which an INSERT is a place."""

    layers: frozenset[str]
    spots: frozenset[str] = frozenset()


def pieces(drawing: Drawing, shown: Shown, *, file: str) -> list[Piece]:
    """The entities of model space on the layers wanted, in the drawing's order.

    Raises: Refused for blocks that hold themselves, are nested too deep or hold too much, and for broken numbers.
    """
    reach = _Reach(drawing, file)
    wanted = [
        each for each in drawing.entities if not (each.is_on_paper or each.is_hidden) and reach.is_in(each, shown)
    ]
    most = int(table("roof")["drawn_most"].number())
    blocks = reach.needed(wanted, shown)
    held = wanted + [inner for _, kept in blocks for inner in kept]
    if len(held) > most or sum(each.last - each.first for each in held) > LINES_EACH * most:
        raise _too_much(f"{len(held):,} lines", file)
    text = drawing.part(wanted, blocks)
    handles = {each.handle for each in wanted if each.handle}
    return list(_apart(_loaded(text, file), shown, handles, most, file))


def _too_much(read: str, file: str) -> Refused:
    needs = "the roof alone on the layers named"
    return refusal(file, "layers", read, needs, "layers of their own for the outlines and what stands in them")


@dataclass(slots=True)
class _Reach:
    """On which layers the entities of each block land; "0" stands for the layer of the INSERT."""

    drawing: Drawing
    file: str
    found: dict[str, frozenset[str]] = field(default_factory=dict)
    under_way: list[str] = field(default_factory=list)

    def of_block(self, name: str) -> frozenset[str]:
        """Layers of a block's entities, those of the blocks in it counted."""
        low = name.casefold()
        if low in self.found:
            return self.found[low]
        block = self.drawing.blocks.get(low)
        if block is None:
            return frozenset()
        shown = shorten(name, 40)
        if low in self.under_way:
            raise refusal(
                self.file, f"block {shown}", "a block that holds itself", "blocks that end", "the block redrawn"
            )
        deepest = int(table("roof")["blocks_deep"].number())
        if len(self.under_way) >= deepest:
            needs = f"blocks in blocks at most {deepest} deep"
            raise refusal(self.file, f"block {shown}", f"blocks nested over {deepest} deep", needs, "the plan exploded")
        self.under_way.append(low)
        reached: set[str] = set()
        for each in block.entities:
            reached |= self.of_entity(each)
        self.under_way.pop()
        self.found[low] = frozenset(reached)
        return self.found[low]

    def of_entity(self, each: Drawn) -> set[str]:
        """Layers where an entity shows something: its own, and for an INSERT those of its block."""
        own = each.layer.casefold()
        reached = {own}
        if each.kind == "INSERT":
            reached |= {own if layer == INHERITS else layer for layer in self.of_block(each.name)}
        return reached

    def is_in(self, each: Drawn, shown: Shown) -> bool:
        """An entity of model space shows something that is wanted."""
        return not shown.layers.isdisjoint(self.of_entity(each))

    def needed(self, wanted: Sequence[Drawn], shown: Shown) -> list[tuple[Any, list[Drawn]]]:
        """The blocks that the wanted INSERTs place, each with what may be wanted of it."""
        layers = shown.layers | {INHERITS}
        kept: dict[str, tuple[Any, list[Drawn]]] = {}
        left = [each.name.casefold() for each in wanted if each.kind == "INSERT"]
        while left:
            low = left.pop()
            block = self.drawing.blocks.get(low)
            if block is None or low in kept:
                continue
            inner = [
                each for each in block.entities if not each.is_hidden and not layers.isdisjoint(self.of_entity(each))
            ]
            kept[low] = (block, inner)
            left += [each.name.casefold() for each in inner if each.kind == "INSERT"]
        return list(kept.values())


def _broken(file: str) -> Refused:
    return refusal(file, "", "entities that break off or hold no numbers", *BROKEN)


def _loaded(text: str, file: str) -> list[Any]:
    """The entities as ezdxf reads them."""
    from ezdxf.filemanagement import read  # heavy: only for jobs with a drawing
    from ezdxf.lldxf.const import DXFError

    if not logging.getLogger("ezdxf").handlers:  # else its remarks about a drawing land on the terminal
        logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    try:
        return list(read(StringIO(text)).modelspace())
    except (DXFError, ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        # ezdxf says what is wrong with a broken drawing in any of these ways; all mean that it can't be read
        raise _broken(file) from None


def _apart(entities: Sequence[Any], shown: Shown, handles: Collection[str], most: int, file: str) -> Iterator[Piece]:
    """The pieces, INSERTs taken apart; counted, since blocks of blocks grow without bound."""
    count = 0
    for entity in entities:
        for piece in _taken(entity, _place(entity, handles), entity.dxf.layer, shown, file):
            count += 1
            if count > most:
                raise _too_much(f"blocks that hold over {most:,} entities", file)
            if piece is not None:
                yield piece


def _place(entity: Any, handles: Collection[str]) -> str:  # noqa: ANN401  # ezdxf has no types here
    handle = entity.dxf.get("handle")
    return f"{entity.dxftype()} {handle}" if handle in handles else str(entity.dxftype())


def _taken(entity: Any, place: str, layer: str, shown: Shown, file: str) -> Iterator[Piece | None]:  # noqa: ANN401  # ezdxf has no types here
    """One entity, or those of the block that it places, however deep; None for one of another layer."""
    kind, low = entity.dxftype(), layer.casefold()
    if kind != "INSERT" or low in shown.spots:
        yield Piece(kind, low, place, entity) if low in shown.layers else None
        return
    block = entity.block()
    if block is None or not len(block):  # a drawing that was not bound into this one, or nothing of it is asked for
        yield Piece(kind, low, place, entity) if low in shown.layers else None
        return
    for part in _parts(entity, file):
        inner_kind, own = part.dxftype(), part.dxf.layer
        inner = place if inner_kind == "INSERT" else f"{inner_kind} in block {shorten(entity.dxf.name, 40)}, {place}"
        yield from _taken(part, inner, layer if own == INHERITS else own, shown, file)
    yield None


def _parts(insert: Any, file: str) -> Iterator[Any]:  # noqa: ANN401  # ezdxf has no types here
    """What a block shows where it is put, row by row where it is put as an array."""
    from ezdxf.lldxf.const import DXFError

    most = int(table("roof")["drawn_most"].number())
    try:
        count = insert.mcount
        if count > most:
            raise _too_much(f"a block put {count:,} times", file)
        for each in insert.multi_insert() if count > 1 else (insert,):
            yield from each.virtual_entities()
    except (DXFError, ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        raise _broken(file) from None


def by_layer(found: Sequence[Piece]) -> Mapping[str, list[Piece]]:
    """Pieces by their layer in small letters, each in the drawing's order."""
    layers: dict[str, list[Piece]] = {}
    for piece in found:
        layers.setdefault(piece.layer, []).append(piece)
    return layers
