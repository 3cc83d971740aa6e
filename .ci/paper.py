"""Can the guide on paper be printed here? Installs the system's library Pango where it may; `start.py` calls it.

As root where packages come by apt-get it is installed, else the line to run is printed. Runs in the environment that
start.py makes. Exit code: 0 when a PDF can be made.
"""

import os
import shutil
import subprocess
import sys

PACKAGES = ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")
APT = (("apt-get", "update"), ("apt-get", "install", "-y", "--no-install-recommends", *PACKAGES))
ASK = "from boltside.paper.print_pdf import why_not; print(why_not())"


def why_not() -> str:
    """Return why no PDF can be made here; asked of a new process, which looks for all libraries anew."""
    asked = subprocess.run([sys.executable, "-c", ASK], capture_output=True, text=True)
    return asked.stdout.strip() if not asked.returncode else asked.stderr.strip()


def main() -> int:
    """Install what is missing where that may be done; say how things stand; return the exit code."""
    reason = why_not()
    if reason and shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        print("Installing Pango, which printing the guide on paper needs.", flush=True)
        environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        if all(subprocess.run(command, env=environment).returncode == 0 for command in APT):
            reason = why_not()
    print(reason or "The guide on paper can be printed here.", flush=True)
    return 1 if reason else 0


if __name__ == "__main__":
    sys.exit(main())
