"""The command `boltside`: check, lay, build, serve."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from boltside import __version__
from boltside.errors import BoltsideError, ProblemsFound

EXIT_FINE = 0
EXIT_PROBLEMS = 1
EXIT_INTERRUPTED = 130


def parser() -> argparse.ArgumentParser:
    """The command line: one word says what to do."""
    top = argparse.ArgumentParser(prog="boltside", description="A sewing pattern shop computed from the outlines.")
    top.add_argument("--version", action="version", version=f"boltside {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, text: str) -> argparse.ArgumentParser:
        added = commands.add_parser(name, help=text, description=text)
        added.add_argument("--shop", type=Path, default=Path(), help="the shop's folder (where mkdocs.yml is)")
        return added

    check = command("check", "Read every pattern and list all problems at once; changes nothing.")
    check.add_argument("patterns", nargs="*", help="only these patterns")

    lay = command("lay", "Find the lays that are missing; can be interrupted and goes on where it stopped.")
    lay.add_argument("patterns", nargs="*", help="only these patterns")
    lay.add_argument("--jobs", type=int, default=None, help="how many at once (all cores)")
    lay.add_argument("--draft", action="store_true", help="quick, longer lays; a build marks them")
    lay.add_argument("--verify", action="store_true", help="check every stored lay against the outlines; solve nothing")

    build = command("build", "Make the shop, whole or not at all.")
    build.add_argument("--site", type=Path, default=None, help="where to put it (default: site)")

    serve = command("serve", "Build the shop and show it on this computer.")
    serve.add_argument("--site", type=Path, default=None, help="where to put it (default: site)")
    serve.add_argument("--port", type=int, default=None, help="the port on this computer")
    serve.add_argument("--no-build", action="store_true", help="show what was built last")
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status: 0 fine, 1 problems (all printed), 130 interrupted."""
    options = parser().parse_args(arguments)
    try:
        return {"check": run_check, "lay": run_lay, "build": run_build, "serve": run_serve}[options.command](options)
    except ProblemsFound as found:
        for problem in found.problems:
            print(problem, file=sys.stderr)
        print(f"\n{count_of(len(found.problems), 'problem')}; nothing was written.", file=sys.stderr)
        return EXIT_PROBLEMS
    except BoltsideError as error:
        print(error, file=sys.stderr)
        return EXIT_PROBLEMS
    except KeyboardInterrupt:
        print("\nStopped. What was finished is kept.", file=sys.stderr)
        return EXIT_INTERRUPTED


def count_of(number: int, noun: str) -> str:
    """`1 problem`, `2 problems`."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def run_check(options: argparse.Namespace) -> int:
    """Read everything, measure everything in every size, say what was found."""
    from boltside.check import check_patterns

    for line in check_patterns(options.shop / "data", only=options.patterns):
        print(line)
    return EXIT_FINE


def run_lay(options: argparse.Namespace) -> int:
    """Solve what is missing, or verify what is stored."""
    from boltside.laying import lay_patterns, verify_patterns

    data_dir = options.shop / "data"
    if options.verify:
        return EXIT_FINE if verify_patterns(data_dir, only=options.patterns, say=print) else EXIT_PROBLEMS
    done = lay_patterns(data_dir, only=options.patterns, jobs=options.jobs, draft=options.draft, say=print)
    return EXIT_FINE if done else EXIT_PROBLEMS


def run_build(options: argparse.Namespace) -> int:
    """Build aside, swap whole."""
    from boltside.publish import publish

    place = publish(options.shop / "mkdocs.yml", options.site or options.shop / "site")
    print(f"The shop is in {place}{'' if str(place).endswith('/') else '/'}")
    return EXIT_FINE


def run_serve(options: argparse.Namespace) -> int:
    """Build (unless told not to) and serve on loopback until interrupted."""
    from boltside.serve import open_server

    site_dir = options.site or options.shop / "site"
    if not options.no_build:
        run_build(options)
    with open_server(site_dir, options.port) as server:
        host, port = server.server_address[:2]
        print(f"The shop is at http://{host!s}:{port}/   (stop with Ctrl-C)", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print("\nClosed.")
    return EXIT_FINE


if __name__ == "__main__":
    sys.exit(main())
