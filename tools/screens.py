"""Every page of the example's packet as a picture, in colour and in grey, on letter and A4 paper, to be looked at.

    python tools/screens.py out/screens

Needs pdftoppm (Debian's poppler-utils).
"""

import subprocess
import sys
from pathlib import Path


def main() -> None:
    """Plan the example on both papers and turn the pages into pictures."""
    out = Path(sys.argv[1])
    out.mkdir(parents=True, exist_ok=True)
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    source = Path(__file__).parents[1] / "src/lapwright/plan/example/millrace.yaml"
    for paper in ("letter", "a4"):
        job = out / f"millrace-{paper}.yaml"
        job.write_text(f"paper: {paper}\n" + source.read_text(encoding="utf-8"), encoding="utf-8")
        subprocess.run([lapwright, "plan", str(job), "--out", str(out / paper), "--quiet"], check=False)
        for name, flag in (("colour", []), ("grey", ["-gray"])):
            pages = out / f"{paper}-{name}"
            pages.mkdir(exist_ok=True)
            subprocess.run(
                ["pdftoppm", "-r", "70", "-png", *flag, str(out / paper / "packet.pdf"), str(pages / "page")],
                check=True,
            )
            print(f"{pages}: {len(list(pages.glob('*.png')))} pages")


if __name__ == "__main__":
    main()
