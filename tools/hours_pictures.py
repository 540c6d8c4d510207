"""The hour pictures of docs/method/hours.md: January of two bundled years, for the base.

.venv/bin/python tools/hours_pictures.py
"""

from pathlib import Path

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.heat.buildup import build_up
from lapwright.heat.surface import default_setting
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import Limits
from lapwright.intake.weather_source import read_bundled
from lapwright.packet.sheets.hourspicture import month_picture
from lapwright.packet.svg import svg_text
from lapwright.units.write import Units

OUT = Path(__file__).parents[1] / "docs" / "method" / "pictures"
ROOF = Assembly(
    (Ply("base", Sheet("base", 1, 1, 1, 1, 0.0015)),),
    Deck("concrete"),
    Board("polyiso", 0.0762),
    Board("gypsum", 0.0127),
)
BASE = Limits(10.0, -20 / 3, None)


def main() -> None:
    """Write both pictures."""
    for name in ("greensboro", "chicago-2015"):
        year, _ = read_bundled(name)
        found = make_hour_table(
            year,
            place=RoofPlace(year.latitude, year.longitude, 6.7, "C"),
            limits={"base": BASE},
            rules=make_rules({}),
            setting=default_setting(),
            units=Units("us"),
            built=build_up(ROOF),
        )
        picture = month_picture(found, "base", 1, width=250, height=120)
        (OUT / f"hours-{name}-base.svg").write_text(svg_text(picture), encoding="utf-8")


if __name__ == "__main__":
    main()
