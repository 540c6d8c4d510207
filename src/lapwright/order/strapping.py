"""Nails that hold steep sheets back."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.layout.strapping import back_nails
from lapwright.order.lines import Needs, Want, counted, default, origin
from lapwright.units.factors import TICKS_PER_METRE


def want_back_nails(needs: Needs) -> Iterator[Want]:
    """Cap nails across the upper end of every sheet that is laid with the fall.

    Source: UFGS 07550 (back-nailing); common practice, no source (spacing)
    Checked: tests/order/test_order_strapping.py
    """
    strapped = [piece for piece in needs.layout.pieces if needs.layout.frames[piece.area].is_strapped]
    if strapped:
        spacing, size = default("back_nail_spacing"), default("cap_nail_box")
        count = sum(back_nails(piece, spacing * TICKS_PER_METRE) for piece in strapped)
        at = needs.units.length(spacing)
        basis = f"{count} nails: {counted(len(strapped), 'sheet')} laid with the fall, at {at} across the upper end"
        yield Want(
            "cap nails, back-fastening",
            "fasteners",
            count / size,
            "box",
            f"{basis}; boxes of {size:.0f}",
            tuple(piece.id for piece in strapped),
            origin("back_nail_spacing"),
            price_key="fasteners",
        )
