"""What `figure` prints for people: the whole text of an answer, of its help, and of everything that can't be used."""

from __future__ import annotations

import pytest
from asked_figures import ASKED, asked, faults
from planned_jobs import lapwright

from lapwright.plan.figures.registry import NAMES

CHILL = """\
chill: What cold and wind do to bare skin.

  Wind chill                -19.4 °F (-28.6 °C)
  Bare skin freezes within  22 min

             wind chill
      0 °F | •••••
           | ·····•
           | ······•
           | ·······•••
           | ··········••••
           | ··············•••••••
           | ·····················••••••••
           | ·····························••••••••••••
  -28.8 °F | ·········································•••••••••••••••
           +---------------------------------------------------------
             0 mph                     wind                    40 mph
"""


def test_help_lists_the_figures() -> None:
    """Without a name, or with `--help` alone, every figure with its sentence."""
    status, out, err = asked()
    assert (status, err) == (0, "")
    assert asked("--help") == (status, out, err)
    assert [name for name in NAMES if f"\n  {name:8}  " not in out] == []


@pytest.mark.parametrize("name", NAMES)
def test_help_of_a_figure_names_its_options_and_results(name: str) -> None:
    """Every option of the contract's line stands in the help."""
    _, out, _ = asked(name, "--help")
    assert [word for word in ASKED[name].split() if word.startswith("--") and word not in out] == []


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (
            "--air 25 --wind 15mph",
            "figure chill  --air\n  read:   25\n  needs:  a temperature with its unit\n  write:  --air 25F\n",
        ),
        (
            "--air 25F --wind 300mph",
            "figure chill  --wind\n  read:   300mph\n"
            "  needs:  the wind in the open, as weather stations report it, from 0 mph to 100 mph\n"
            "  write:  --wind 15mph\n",
        ),
        ("--air 25F", "figure chill  --wind\n  needs:  the wind in the open, as weather stations report it\n"
                      "  write:  --wind 15mph\n"),
        ("--air 25F --wind 5mph --wnd 3mph",
         "figure chill  --wnd\n  read:   wnd\n  needs:  one of --air, --wind\n  write:  --wind\n"),
        ("--air 25F --wind", "figure chill  --wind\n  needs:  a value behind it\n"),
        ("--air 25F --wind 5mph --air 20F", "figure chill  --air\n  read:   20F\n  needs:  each option once\n"),
        ("25F --wind 5mph", "figure chill\n  read:   25F\n"
                            "  needs:  options with two dashes, each with its value: --air 25F\n"),
    ],
    ids=["no unit", "out of bounds", "missing", "unknown", "no value", "twice", "no dashes"],
)  # fmt: skip
def test_what_can_not_be_used_is_told(options: str, told: str) -> None:
    """One fault: its option, what was read, what is needed, what to write."""
    assert faults("chill", options) == f"one thing in the input can't be used:\n\n{told}"


@pytest.mark.parametrize(
    ("name", "options", "told"),
    [
        ("roll", ASKED["roll"].replace("--until 50F", "--until 80F"),
         "figure roll  --until\n  read:   80F\n  needs:  a limit colder than the roll as it leaves the store\n"
         "  write:  --until 50F\n"),
        ("store", ASKED["store"].replace("--until 50F", "--until 10F"),
         "figure store  --until\n  read:   10F\n  needs:  a temperature warmer than the rolls as they come in\n"
         "  write:  --until 50F\n"),
        ("store", ASKED["store"] + " --spaced",
         "figure store  --spaced\n  needs:  one of --wrapped, --opened, --spaced, not two\n"),
        ("sheet", ASKED["sheet"].replace("gypsum", "snow"),
         "figure sheet  --substrate\n  read:   snow\n"
         "  needs:  one of gypsum, polyiso_board, polyiso, plywood, concrete, steel, base\n"
         "  write:  --substrate gypsum\n"),
        ("sheet", ASKED["sheet"].replace("--until 50F", "--until 75F"),
         "figure sheet  --until\n  read:   75F\n  needs:  a limit colder than the sheet as it leaves the roll\n"
         "  write:  --until 50F\n"),
        ("surface", ASKED["surface"].replace("--dew-point 27F", "--dew-point 33F"),
         "figure surface  --dew-point\n  read:   33F\n  needs:  a dew point no warmer than the air\n"
         "  write:  --dew-point 20F\n"),
        ("weld", ASKED["weld"] + " --slowest 6in/s --fastest 1in/s",
         "figure weld  --slowest\n  read:   6in/s\n  needs:  a speed under the tool's fastest\n"
         "  write:  --slowest '1 ft/min'\n"),
        ("cord", ASKED["cord"].replace("100'", "-5'"),
         "figure cord  --length\n  read:   -5'\n  needs:  length of the cord, one way, from 1' to 2000'\n"
         "  write:  --length \"100'\"\n"),
        ("wind", ASKED["wind"].replace("7-16", "7-05"),
         "figure wind  --standard\n  read:   ASCE 7-05\n  needs:  one of ASCE 7-10, ASCE 7-16, ASCE 7-22\n"
         "  write:  --standard 'ASCE 7-10'\n"),
        ("drain", ASKED["drain"].replace("scupper", "drain").replace("12 in", "12 in x 4 in"),
         "figure drain  --size\n  read:   12 in x 4 in\n  needs:  one diameter for a drain\n"
         "  write:  --size '4 in'\n"),
    ],
    ids=lambda value: value if value in NAMES else "",
)  # fmt: skip
def test_what_can_not_stand_beside_the_rest_is_told(name: str, options: str, told: str) -> None:
    """Values that each could be, but not with the others, or not what the figure holds for."""
    import shlex

    status, out, err = asked(name, *shlex.split(options))
    assert (status, out) == (2, "")
    assert err == f"one thing in the input can't be used:\n\n{told}"


@pytest.mark.parametrize(
    ("name", "option", "read", "write"),
    [
        ("surface", "--sun", "300", "--sun '300 W/m2'"),
        ("surface", "--r-value", "38", "--r-value R-38"),
        ("sheet", "--sun", "120.5", "--sun '120.5 W/m2'"),
        ("cord", "--length", "75", '--length "75\'"'),
        ("roll", "--air", "-5", "--air -5F"),
        ("surface", "--sun", "300W", "--sun '300 W/m2'"),
        ("weld", "--nozzle", "hot", "--nozzle 550C"),
    ],
)
def test_a_number_without_its_unit_is_told_with_it(name: str, option: str, read: str, write: str) -> None:
    """What was typed, with the unit of the example; the example itself where no number was."""
    _, _, err = asked(name, option, read)
    told = err[err.index(f"figure {name}  {option}\n") :].split("\n\n")[0].splitlines()
    assert [line.strip() for line in told if line.startswith(("  read:", "  write:"))] == [
        f"read:   {read}",
        f"write:  {write}",
    ]


def test_an_unknown_name_is_told() -> None:
    """The nearest name is written out."""
    told = (
        "figure  NAME\n  read:   wield\n  needs:  one of roll, store, sheet, surface, weld, cord, wind, drain, chill\n"
    )
    assert asked("wield") == (
        2,
        "",
        f"one thing in the input can't be used:\n\n{told}  write:  lapwright figure weld\n",
    )


def test_an_answer_is_printed_whole() -> None:
    """Results first, then the curve, what was put in, the steps and the source; nothing is wider than a terminal."""
    status, out, err = asked("chill", "--air", "0F", "--wind", "15mph")
    assert (status, err) == (0, "")
    assert out.startswith(CHILL)
    assert [line for line in out.splitlines() if len(line) > 96] == []
    assert "  --wind            15mph = 6.71 m/s\n" in out


def test_metric_units() -> None:
    """`--metric` prints metric units."""
    _, out, _ = asked("chill", "--air", "0F", "--wind", "15mph", "--metric")
    assert "  Wind chill                -28.6 °C\n" in out


def test_negative_values_and_equal_signs() -> None:
    """`--air -5C` and `--air=-5C` are one."""
    assert asked("chill", "--air", "-5C", "--wind=15mph") == asked("chill", "--air=-5C", "--wind", "15mph")


def test_from_the_shell() -> None:
    """The command itself: an answer, a refusal, help, the same bytes twice."""
    words = ("figure", "cord", "--load", "1.6kW", "--volts", "120", "--length", "100'", "--gauge", "14", "--json")
    first = lapwright(*words)
    assert (first.returncode, first.stderr) == (0, "")
    assert lapwright(*words).stdout == first.stdout
    assert lapwright("figure", "chill", "--air", "-5").returncode == 2
    assert lapwright("figure", "roll", "--help").stdout.startswith("lapwright figure roll: ")


@pytest.mark.parametrize(
    ("sky", "told"),
    [
        ("--wind 6mph --cloud 3", True),  # 14 to 25 °F, frost settles at 20
        ("--wind 6mph --cloud 10", False),  # all of it over 20 °F
    ],
    ids=["astride", "clear of it"],
)
def test_a_spread_astride_the_frost_point_is_measured_first(sky: str, told: bool) -> None:
    """The words stand there only where the models part over it."""
    _, out, _ = asked("surface", *f"--air 30F --dew-point 18F {sky} --sun 0W/m2".split())
    line = "  Measure first            some of the models stay over the dew or frost point, others not\n"
    assert (line in out) is told
    assert "  Frost or dew settles at  19.6 °F (-6.89 °C)\n" in out
