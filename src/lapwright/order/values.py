"""The order as plain values."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.defaults.values import Origin


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item of the order.

    needed: as computed; ordered: rounded up to what is sold; both in `unit` (SI or a count noun: roll, pail, box, bag,
    length).  basis: the arithmetic in words ("126.3 m of bead at 1 tube per 6 m").  rate: the rate used, with origin
    (None where it is counted).  from_ids: pieces, details or laps that need it.  price, cost: None without a price.
    """

    item: str
    group: str
    needed: float
    ordered: int
    unit: str
    basis: str
    rate: Origin | None
    from_ids: tuple[str, ...]
    price: float | None = None
    cost: float | None = None
