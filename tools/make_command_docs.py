"""Write docs/commands.md from what the commands say of themselves.

python tools/make_command_docs.py
"""

import os
from pathlib import Path

PAGE = Path(__file__).parents[1] / "docs/commands.md"
HEAD = """# Commands

Made from the commands' own help by `tools/make_command_docs.py`.

Exit status: 0 done; 1 done, and a check failed; 2 the input can't be used.
`unknown` leaves it 0, and the last line counts failed and unknown checks; `--strict` exits 1 on them.
Colours are left out where NO_COLOR is set or the output is no terminal.
"""


def page() -> str:
    """The page's text."""
    os.environ.update(COLUMNS="100", TERMINAL_WIDTH="100", NO_COLOR="1")
    from typer.testing import CliRunner

    from lapwright.cli.main import app
    from lapwright.plan.figures.lines import help_lines
    from lapwright.plan.figures.registry import NAMES, figure

    runner = CliRunner()
    parts = [HEAD]
    names = [command.name for command in app.registered_commands if command.name]
    for words in ([], *[[name] for name in names]):
        text = runner.invoke(app, [*words, "--help"], prog_name="lapwright").stdout
        title = " ".join(["lapwright", *words])
        body = "\n".join(line.rstrip() for line in text.strip().splitlines())
        parts.append(f"## `{title}`\n\n```\n{body}\n```\n")
    for name in NAMES:
        body = "\n".join(line.rstrip() for line in help_lines(figure(name)))
        parts.append(f"## `lapwright figure {name}`\n\n```\n{body}\n```\n")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(PAGE.name)
