"""`store`: how long the warm store must run before cold rolls are warm through."""

from __future__ import annotations

from lapwright.heat.store import StoreAsk, StoreClock, Wrapping, core_left, store_clock
from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.verdict import Step

PALLET = "5x5"
POINTS, LONGER, DAY_S = 33, 1.25, 86400.0
OPTIONS = (
    Option("cold", "temperature", "the rolls as they come in", "20F", low="-60F", high="120F"),
    Option("store", "temperature", "the air in the store", "70F", low="-40F", high="150F"),
    Option("until", "temperature", "the temperature that they must reach", "50F", low="-40F", high="150F"),
    Option("thickness", "length", "thickness of a roll's sheet", "4mm", low="1 mm", high="10 mm"),
    Option("length", "length", "length of a roll's sheet", "10m", low="1 m", high="100 m"),
    Option("stack", "choice", "a roll by itself, or a pallet of them", "pallet", choices=("single", "pallet")),
    Option("rolls", "rolls", "rows and columns of a pallet", PALLET, PALLET),
    Option("wrapped", "flag", "the pallet keeps its wrap (so it is taken without a word)"),
    Option("opened", "flag", "the wrap is off, the rolls stand as they came"),
    Option("spaced", "flag", "the rolls stand apart, air all round"),
    Option("fans", "flag", "fans move the air of the store"),
)
RESULTS = {
    "core_s": "when the coldest point reaches the temperature",
    "mean_s": "when the mean of the rolls does",
    "core_after_24h_c": "the coldest point after 24 h",
}
WRAPPINGS: tuple[Wrapping, ...] = ("wrapped", "opened", "spaced")


def compute(asked: Asked) -> Answer:
    """The store's clock.

    Raises: Refused where the rolls are warm enough as they come, or are said to be wrapped and spaced at once.
    """
    if asked["until_c"] <= asked["cold_c"]:
        raise asked.refuse("until", needs="a temperature warmer than the rolls as they come in", write="50F")
    said = [word for word in WRAPPINGS if asked[word]]
    if len(said) > 1:
        raise asked.refuse(said[1], needs=f"one of --{', --'.join(WRAPPINGS)}, not two", write="")
    is_single = asked["stack"] == "single"
    wrapping: Wrapping = said[0] if said else "spaced" if is_single else "wrapped"
    rows, columns = (1, 1) if is_single else asked["rolls"]
    ask = StoreAsk(
        cold_c=asked["cold_c"],
        store_c=asked["store_c"],
        until_c=asked["until_c"],
        thickness=asked["thickness_m"],
        length=asked["length_m"],
        stack=asked["stack"],
        rows=rows,
        columns=columns,
        wrapping=wrapping,
        fans=asked["fans"],
    )
    clock = store_clock(ask)
    return Answer(
        results={
            "core_s": clock.core_s,
            "mean_s": clock.mean_s,
            "core_after_24h_c": clock.core_after_24h_c,
        },
        shown=[
            Shown("Coldest point warm enough after", clock.core_s, "s"),
            Shown("Mean of the rolls warm enough after", clock.mean_s, "s"),
            Shown("Coldest point after 24 h", clock.core_after_24h_c, "degC"),
        ],
        steps=(*clock.steps, *_never(asked)),
        source=clock.source,
        curve=_curve(ask, clock),
    )


def _curve(ask: StoreAsk, clock: StoreClock) -> Curve:
    """The coldest point through a day at the least, and until it is warm enough and a quarter longer."""
    left, last_s = core_left(ask), max(DAY_S, LONGER * (clock.core_s or 0.0))
    times = [last_s * place / (POINTS - 1) for place in range(POINTS)]
    points = tuple((at, ask.store_c + (ask.cold_c - ask.store_c) * left(at)) for at in times)
    return Curve(points, "time in the store", "s", "coldest point", "degC")


def _never(asked: Asked) -> tuple[Step, ...]:
    """Why no time is reached, where none is."""
    if asked["store_c"] > asked["until_c"]:
        return ()
    text = "Never reached: the store is no warmer than the temperature asked"
    return (Step(text=text, values={"store [degC]": asked["store_c"], "asked [degC]": asked["until_c"]}),)


STORE = Figure(
    "store",
    "How long the warm store must run before cold rolls are warm through.",
    OPTIONS,
    RESULTS,
    compute,
    "--cold 20F --store 70F --until 50F --thickness 4mm --length 10m --stack pallet --wrapped",
)
